// Resource names of the API (AIP-122) as Parse and Make pairs. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_NAMES_H_
#define ROWPROOF_SERVICES_RPC_NAMES_H_

#include <string>
#include <string_view>

#include "absl/status/statusor.h"
#include "services/domain/identifiers.h"

namespace rowproof::rpc {

// Collections in a name's path, without the pattern's own.
struct ResourceName {
  AccountId account;
  TokenId token;
  PatternId pattern;
  int version = 0;
  AccountId editor;
  CallId call;
  SeatId seat;
  int report = 0;
  ErratumId erratum;
  int reconciliation = 0;
  ReleaseId release;
  CalibrationId calibration;
  int revision = 0;
};

// Reads `name` against a template such as "patterns/{pattern}/versions/{version}". A segment in
// braces is one of account, token, pattern, version, editor, call, seat, report, erratum,
// reconciliation, release, calibration, revision; numbers are whole, from 1, without leading zeros,
// at most 9 digits. INVALID_ARGUMENT with `field`, what was met, and the template as what is
// accepted.
absl::StatusOr<ResourceName> ParseName(const std::string& field, std::string_view name,
                                       std::string_view name_template);

std::string MakeAccountName(const AccountId& account);
std::string MakeTokenName(const AccountId& account, const TokenId& token);
std::string MakePatternName(const PatternId& pattern);
std::string MakeVersionName(const PatternId& pattern, int number);
std::string MakeEditorName(const PatternId& pattern, const AccountId& editor);
std::string MakeCallName(const PatternId& pattern, const CallId& call);
std::string MakeSeatName(const PatternId& pattern, const CallId& call, const SeatId& seat);
std::string MakeReportName(const PatternId& pattern, const CallId& call, const SeatId& seat,
                           int report);
std::string MakeErratumName(const PatternId& pattern, const CallId& call, const ErratumId& erratum);
std::string MakeReconciliationName(const PatternId& pattern, const CallId& call, int number);
std::string MakeReleaseName(const PatternId& pattern, const ReleaseId& release);
std::string MakeCalibrationName(const CalibrationId& calibration);
std::string MakeRevisionName(const CalibrationId& calibration, int number);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_NAMES_H_
