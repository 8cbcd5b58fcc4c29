// What a designer asks for in a test call, which testers read before they take a seat. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_CALL_SETTINGS_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_CALL_SETTINGS_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "absl/time/civil_time.h"
#include "services/domain/chart/design.h"

namespace rowproof::testcalls {

inline constexpr size_t kLongestCallTitle = 200;  // bytes of UTF-8
inline constexpr size_t kLongestCallText = 2'000;
inline constexpr size_t kLongestLanguage = 60;
inline constexpr int kMostSeats = 200;  // of one size
inline constexpr int kMostDeadlineYears = 5;

struct WantedSize {
  std::string size;  // one of the design's
  int seats = 3;
  int required = 2;  // finished testers that a release waits for; at most `seats`
  bool operator==(const WantedSize&) const = default;
};

// Whether testers use what the pattern names, or their own.
enum class Choice : uint8_t { kSame = 1, kFree = 2 };

struct CallSettings {
  std::string title;
  std::vector<WantedSize> sizes;           // at least one, each size once
  std::optional<absl::CivilDay> deadline;  // the last day
  Choice yarn = Choice::kFree;
  Choice hook = Choice::kFree;
  bool swatch_wanted = false;
  bool confidential = true;               // no copying, sharing or altering of the pattern
  bool photographs_by_permission = true;  // shown only if their maker permits it
  std::string reward;                     // "the corrected pattern and one more of your choice"
  std::string language;                   // in which reports are read, "English"
  std::string notes;                      // line feeds allowed
  bool operator==(const CallSettings&) const = default;
};

// INVALID_ARGUMENT with the field's path ("title", "sizes[1].required", "deadline"). `today` is the
// civil date on which the test call is created or changed: a deadline must not be before it, nor
// more than kMostDeadlineYears after it. The design must be valid.
absl::Status Validate(const CallSettings& settings, const chart::Design& design,
                      absl::CivilDay today);

// The terms as sentences for the invitation, the form and the call's page. The settings must be
// valid.
std::vector<std::string> TermsInWords(const CallSettings& settings);

// A deadline's day itself still counts.
bool DeadlinePassed(const CallSettings& settings, absl::CivilDay today);

// "2026-03-31"; INVALID_ARGUMENT with `field` for anything else, or a day that does not exist.
absl::StatusOr<absl::CivilDay> ParseDate(const std::string& field, const std::string& text);
std::string FormatDate(absl::CivilDay day);

const char* Name(Choice choice);  // "same", "free"

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_CALL_SETTINGS_H_
