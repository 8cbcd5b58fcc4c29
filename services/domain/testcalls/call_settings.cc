#include "services/domain/testcalls/call_settings.h"

#include <set>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/text.h"

namespace rowproof::testcalls {
namespace {

constexpr char kDateForm[] = "a date as YYYY-MM-DD";

absl::Status ValidateWanted(const CallSettings& settings, const chart::Design& design) {
  if (settings.sizes.empty()) return MissingField("sizes", "at least one of the pattern's sizes");
  std::set<std::string> names;
  for (size_t i = 0; i < settings.sizes.size(); ++i) {
    const WantedSize& wanted = settings.sizes[i];
    const std::string field = fmt::format("sizes[{}]", i);
    if (SizeIndex(design, wanted.size) < 0) {
      return InvalidField(field + ".size", wanted.size, "one of the pattern's sizes");
    }
    if (!names.insert(wanted.size).second) {
      return InvalidField(field + ".size", wanted.size, "a size that is not listed yet");
    }
    RETURN_IF_ERROR(estimate::CheckCount(field + ".seats", wanted.seats, 1, kMostSeats, "seats"));
    RETURN_IF_ERROR(estimate::CheckCount(field + ".required", wanted.required, 0, wanted.seats,
                                         "finished testers (not more than seats)"));
  }
  return absl::OkStatus();
}

absl::Status ValidateDeadline(const CallSettings& settings, absl::CivilDay today) {
  if (!settings.deadline.has_value()) return absl::OkStatus();
  const absl::CivilDay last(today.year() + kMostDeadlineYears, today.month(), today.day());
  if (*settings.deadline >= today && *settings.deadline <= last) return absl::OkStatus();
  return InvalidField("deadline", FormatDate(*settings.deadline),
                      fmt::format("a date from {} to {}", FormatDate(today), FormatDate(last)));
}

}  // namespace

absl::Status Validate(const CallSettings& settings, const chart::Design& design,
                      absl::CivilDay today) {
  RETURN_IF_ERROR(ValidateName("title", settings.title, kLongestCallTitle));
  struct Text {
    const char* field;
    const std::string* text;
    size_t longest;
    bool newlines;
  };
  for (const Text& text : {Text{"reward", &settings.reward, kLongestCallText, false},
                           Text{"language", &settings.language, kLongestLanguage, false},
                           Text{"notes", &settings.notes, kLongestCallText, true}}) {
    RETURN_IF_ERROR(ValidateText(text.field, *text.text, text.longest, text.newlines));
  }
  RETURN_IF_ERROR(ValidateWanted(settings, design));
  return ValidateDeadline(settings, today);
}

std::vector<std::string> TermsInWords(const CallSettings& settings) {
  std::vector<std::string> terms;
  terms.push_back(settings.yarn == Choice::kSame ? "Please use the yarn that the pattern names."
                                                 : "You may choose your own yarn.");
  terms.push_back(settings.hook == Choice::kSame
                      ? "Please use the hook that the pattern names."
                      : "You may choose the hook that gives your gauge.");
  if (settings.swatch_wanted) terms.push_back("Please work a gauge swatch first.");
  if (settings.confidential) {
    terms.push_back("Please do not copy, share or alter the pattern while it is tested.");
  }
  terms.push_back(settings.photographs_by_permission
                      ? "Your photographs are shown only where you permit it."
                      : "No photographs are asked for or shown.");
  if (settings.deadline.has_value()) {
    terms.push_back(fmt::format("The last day is {}.", FormatDate(*settings.deadline)));
  }
  if (!settings.reward.empty()) {
    terms.push_back(fmt::format("In return you get: {}", settings.reward));
  }
  if (!settings.language.empty()) {
    terms.push_back(fmt::format("Reports are read in this language: {}", settings.language));
  }
  return terms;
}

bool DeadlinePassed(const CallSettings& settings, absl::CivilDay today) {
  return settings.deadline.has_value() && *settings.deadline < today;
}

absl::StatusOr<absl::CivilDay> ParseDate(const std::string& field, const std::string& text) {
  const auto digits = [&](size_t from, size_t count) {
    int value = 0;
    for (size_t i = from; i < from + count; ++i) {
      if (text[i] < '0' || text[i] > '9') return -1;
      value = value * 10 + (text[i] - '0');
    }
    return value;
  };
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
    return InvalidField(field, text, kDateForm);
  }
  const int year = digits(0, 4);
  const int month = digits(5, 2);
  const int day = digits(8, 2);
  const absl::CivilDay date(year, month, day);
  // CivilDay carries an impossible day over into the next month.
  if (year < 1 || month < 1 || day < 1 || date.month() != month || date.day() != day) {
    return InvalidField(field, text, kDateForm);
  }
  return date;
}

std::string FormatDate(absl::CivilDay day) {
  return fmt::format("{:04}-{:02}-{:02}", day.year(), day.month(), day.day());
}

const char* Name(Choice choice) { return choice == Choice::kSame ? "same" : "free"; }

}  // namespace rowproof::testcalls
