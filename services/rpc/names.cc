#include "services/rpc/names.h"

#include <algorithm>
#include <vector>

#include "absl/strings/numbers.h"
#include "absl/strings/str_split.h"
#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

constexpr size_t kLongestNumber = 9;

bool ParseNumber(std::string_view text, int* number) {
  if (text.empty() || text.size() > kLongestNumber || text.front() == '0') return false;
  if (!std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; })) {
    return false;
  }
  return absl::SimpleAtoi(absl::string_view(text.data(), text.size()), number);
}

bool ParseIdentifier(std::string_view text, std::string* identifier) {
  if (!IsIdentifier(text)) return false;
  *identifier = std::string(text);
  return true;
}

bool Store(std::string_view variable, std::string_view text, ResourceName& name) {
  if (variable == "{account}") return ParseIdentifier(text, &name.account.value);
  if (variable == "{token}") return ParseIdentifier(text, &name.token.value);
  if (variable == "{pattern}") return ParseIdentifier(text, &name.pattern.value);
  if (variable == "{version}") return ParseNumber(text, &name.version);
  if (variable == "{editor}") return ParseIdentifier(text, &name.editor.value);
  if (variable == "{call}") return ParseIdentifier(text, &name.call.value);
  if (variable == "{seat}") return ParseIdentifier(text, &name.seat.value);
  if (variable == "{report}") return ParseNumber(text, &name.report);
  if (variable == "{erratum}") return ParseIdentifier(text, &name.erratum.value);
  if (variable == "{reconciliation}") return ParseNumber(text, &name.reconciliation);
  if (variable == "{release}") return ParseIdentifier(text, &name.release.value);
  if (variable == "{calibration}") return ParseIdentifier(text, &name.calibration.value);
  if (variable == "{revision}") return ParseNumber(text, &name.revision);
  return false;
}

std::vector<std::string> Segments(std::string_view path) {
  return absl::StrSplit(absl::string_view(path.data(), path.size()), '/');
}

}  // namespace

absl::StatusOr<ResourceName> ParseName(const std::string& field, std::string_view name,
                                       std::string_view name_template) {
  const std::string accepted = fmt::format("a name like {}", name_template);
  if (name.empty()) return MissingField(field, accepted);
  const std::vector<std::string> wanted = Segments(name_template);
  const std::vector<std::string> met = Segments(name.substr(0, 400));
  ResourceName parsed;
  bool fits = wanted.size() == met.size();
  for (size_t i = 0; fits && i < wanted.size(); ++i) {
    fits = wanted[i].front() == '{' ? Store(wanted[i], met[i], parsed) : wanted[i] == met[i];
  }
  if (!fits) return InvalidField(field, std::string(name), accepted);
  return parsed;
}

std::string MakeAccountName(const AccountId& account) { return "accounts/" + account.value; }

std::string MakeTokenName(const AccountId& account, const TokenId& token) {
  return MakeAccountName(account) + "/tokens/" + token.value;
}

std::string MakePatternName(const PatternId& pattern) { return "patterns/" + pattern.value; }

std::string MakeVersionName(const PatternId& pattern, int number) {
  return fmt::format("patterns/{}/versions/{}", pattern.value, number);
}

std::string MakeEditorName(const PatternId& pattern, const AccountId& editor) {
  return fmt::format("patterns/{}/editors/{}", pattern.value, editor.value);
}

std::string MakeCallName(const PatternId& pattern, const CallId& call) {
  return fmt::format("patterns/{}/calls/{}", pattern.value, call.value);
}

std::string MakeSeatName(const PatternId& pattern, const CallId& call, const SeatId& seat) {
  return fmt::format("{}/seats/{}", MakeCallName(pattern, call), seat.value);
}

std::string MakeReportName(const PatternId& pattern, const CallId& call, const SeatId& seat,
                           int report) {
  return fmt::format("{}/reports/{}", MakeSeatName(pattern, call, seat), report);
}

std::string MakeErratumName(const PatternId& pattern, const CallId& call,
                            const ErratumId& erratum) {
  return fmt::format("{}/errata/{}", MakeCallName(pattern, call), erratum.value);
}

std::string MakeReconciliationName(const PatternId& pattern, const CallId& call, int number) {
  return fmt::format("{}/reconciliations/{}", MakeCallName(pattern, call), number);
}

std::string MakeCalibrationName(const CalibrationId& calibration) {
  return "calibrations/" + calibration.value;
}

std::string MakeRevisionName(const CalibrationId& calibration, int number) {
  return fmt::format("{}/revisions/{}", MakeCalibrationName(calibration), number);
}

std::string MakeReleaseName(const PatternId& pattern, const ReleaseId& release) {
  return fmt::format("patterns/{}/releases/{}", pattern.value, release.value);
}

}  // namespace rowproof::rpc
