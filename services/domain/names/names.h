// Resource names of the API (AIP-122): a type for each collection, printed and parsed here only.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_NAMES_NAMES_H_
#define ROWPROOF_SERVICES_DOMAIN_NAMES_NAMES_H_

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/identifiers.h"

namespace rowproof {

// A name's type has its form in kForm, where a part in braces is a variable, and hands its
// variables, in that order, to `visit`. Identifiers are 1 to 40 of a-z and 0-9; numbers are whole,
// from 1, without leading zeros, at most 9 digits.
struct AccountName {
  static constexpr char kForm[] = "accounts/{account}";
  AccountId account;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.account.value);
  }
  bool operator==(const AccountName&) const = default;
};

struct TokenName {
  static constexpr char kForm[] = "accounts/{account}/tokens/{token}";
  AccountId account;
  TokenId token;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.account.value, self.token.value);
  }
  bool operator==(const TokenName&) const = default;
};

struct PatternName {
  static constexpr char kForm[] = "patterns/{pattern}";
  PatternId pattern;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value);
  }
  bool operator==(const PatternName&) const = default;
};

struct VersionName {
  static constexpr char kForm[] = "patterns/{pattern}/versions/{version}";
  PatternId pattern;
  int version = 0;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.version);
  }
  bool operator==(const VersionName&) const = default;
};

struct EditorName {
  static constexpr char kForm[] = "patterns/{pattern}/editors/{editor}";
  PatternId pattern;
  EditorId editor;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.editor.value);
  }
  bool operator==(const EditorName&) const = default;
};

struct ReleaseName {
  static constexpr char kForm[] = "patterns/{pattern}/releases/{release}";
  PatternId pattern;
  ReleaseId release;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.release.value);
  }
  bool operator==(const ReleaseName&) const = default;
};

// The collection used to be called "calls"; forms and invitations that still say so are read.
struct TestCallName {
  static constexpr char kForm[] = "patterns/{pattern}/testCalls/{test_call}";
  PatternId pattern;
  CallId call;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.call.value);
  }
  bool operator==(const TestCallName&) const = default;
};

struct SeatName {
  static constexpr char kForm[] = "patterns/{pattern}/testCalls/{test_call}/seats/{seat}";
  PatternId pattern;
  CallId call;
  SeatId seat;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.call.value, self.seat.value);
  }
  bool operator==(const SeatName&) const = default;
};

struct ReportName {
  static constexpr char kForm[] =
      "patterns/{pattern}/testCalls/{test_call}/seats/{seat}/reports/{report}";
  PatternId pattern;
  CallId call;
  SeatId seat;
  int report = 0;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.call.value, self.seat.value, self.report);
  }
  bool operator==(const ReportName&) const = default;
};

struct ErratumName {
  static constexpr char kForm[] = "patterns/{pattern}/testCalls/{test_call}/errata/{erratum}";
  PatternId pattern;
  CallId call;
  ErratumId erratum;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.call.value, self.erratum.value);
  }
  bool operator==(const ErratumName&) const = default;
};

struct ReconciliationName {
  static constexpr char kForm[] =
      "patterns/{pattern}/testCalls/{test_call}/reconciliations/{reconciliation}";
  PatternId pattern;
  CallId call;
  int reconciliation = 0;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.call.value, self.reconciliation);
  }
  bool operator==(const ReconciliationName&) const = default;
};

struct SetAsideName {
  static constexpr char kForm[] = "patterns/{pattern}/testCalls/{test_call}/setAsides/{set_aside}";
  PatternId pattern;
  CallId call;
  SetAsideId set_aside;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.pattern.value, self.call.value, self.set_aside.value);
  }
  bool operator==(const SetAsideName&) const = default;
};

struct CalibrationName {
  static constexpr char kForm[] = "calibrations/{calibration}";
  CalibrationId calibration;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.calibration.value);
  }
  bool operator==(const CalibrationName&) const = default;
};

struct RevisionName {
  static constexpr char kForm[] = "calibrations/{calibration}/revisions/{revision}";
  CalibrationId calibration;
  int revision = 0;
  template <typename Self, typename Visit>
  static auto Parts(Self& self, const Visit& visit) {
    return visit(self.calibration.value, self.revision);
  }
  bool operator==(const RevisionName&) const = default;
};

// Where a variable's text goes when a name is parsed, and where it comes from when it is printed.
using NamePart = std::variant<std::string*, int*>;
using NameValue = std::variant<const std::string*, const int*>;

// The two functions below do their work with these. False if `text` has another form.
bool ReadNameParts(std::string_view form, std::string_view text,
                   const std::vector<NamePart>& parts);
std::string PrintNameParts(std::string_view form, const std::vector<NameValue>& values);
absl::Status InvalidName(const std::string& field, std::string_view text, std::string_view form);

// INVALID_ARGUMENT with `field`, the text and the form expected.
template <typename Name>
absl::StatusOr<Name> ParseName(const std::string& field, std::string_view text) {
  Name name;
  const auto parts =
      Name::Parts(name, [](auto&... part) { return std::vector<NamePart>{NamePart(&part)...}; });
  if (!ReadNameParts(Name::kForm, text, parts)) return InvalidName(field, text, Name::kForm);
  return name;
}

template <typename Name>
requires requires { Name::kForm; }
std::string ToString(const Name& name) {
  return PrintNameParts(Name::kForm, Name::Parts(name, [](const auto&... part) {
                          return std::vector<NameValue>{NameValue(&part)...};
                        }));
}

}  // namespace rowproof

#endif  // ROWPROOF_SERVICES_DOMAIN_NAMES_NAMES_H_
