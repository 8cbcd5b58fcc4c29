#include "services/domain/testcalls/call_settings.h"

#include <algorithm>
#include <functional>
#include <string>

#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "tests/domain/testcalls/sample_reports.h"

namespace rowproof::testcalls {
namespace {

const absl::CivilDay kToday(2027, 3, 1);

CallSettings SampleSettings() {
  CallSettings settings;
  settings.title = "Spring test (invented)";
  settings.sizes = {{"S", 3, 2}, {"L", 2, 2}};
  settings.deadline = absl::CivilDay(2027, 4, 30);
  settings.swatch_wanted = true;
  settings.reward = "the corrected pattern";
  settings.language = "English";
  settings.notes = "Two lines\nare fine.";
  return settings;
}

std::string FieldAfter(const std::function<void(CallSettings&)>& change) {
  CallSettings settings = SampleSettings();
  change(settings);
  const auto fields = DetailOf(Validate(settings, SampleDesign(), kToday)).fields;
  return fields.empty() ? "" : fields.front().field;
}

TEST(CallSettings, AreValidatedFieldByField) {
  EXPECT_EQ(FieldAfter([](CallSettings&) {}), "");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.title.clear(); }), "title");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.title = "a\nb"; }), "title");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.title = std::string(kLongestCallTitle + 1, 'x'); }),
            "title");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.reward = std::string("a\0b", 3); }), "reward");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.language = "\xff"; }), "language");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.notes = "\x1b"; }), "notes");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.sizes.clear(); }), "sizes");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.sizes[1].size = "XL"; }), "sizes[1].size");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.sizes[1].size = "S"; }), "sizes[1].size");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.sizes[0].seats = 0; }), "sizes[0].seats");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.sizes[0].seats = kMostSeats + 1; }),
            "sizes[0].seats");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.sizes[1].required = 3; }), "sizes[1].required");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.sizes[1].required = -1; }), "sizes[1].required");
}

TEST(CallSettings, TakeADeadlineFromTodayOn) {
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.deadline = kToday; }), "");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.deadline = kToday - 1; }), "deadline");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.deadline = absl::CivilDay(2032, 3, 1); }), "");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.deadline = absl::CivilDay(2032, 3, 2); }),
            "deadline");
  EXPECT_EQ(FieldAfter([](CallSettings& s) { s.deadline.reset(); }), "");
  const CallSettings settings = SampleSettings();
  EXPECT_FALSE(DeadlinePassed(settings, absl::CivilDay(2027, 4, 30)));
  EXPECT_TRUE(DeadlinePassed(settings, absl::CivilDay(2027, 5, 1)));
}

TEST(CallSettings, AreToldInWords) {
  CallSettings settings = SampleSettings();
  const auto has = [](const std::vector<std::string>& terms, const std::string& words) {
    return std::any_of(terms.begin(), terms.end(), [&](const std::string& term) {
      return term.find(words) != std::string::npos;
    });
  };
  auto terms = TermsInWords(settings);
  for (const char* words : {"your own yarn", "swatch", "not copy", "permit", "2027-04-30",
                            "the corrected pattern", "English"}) {
    EXPECT_TRUE(has(terms, words)) << words;
  }
  settings.yarn = Choice::kSame;
  settings.swatch_wanted = false;
  settings.confidential = false;
  settings.deadline.reset();
  terms = TermsInWords(settings);
  EXPECT_TRUE(has(terms, "the yarn that the pattern names"));
  for (const char* words : {"swatch", "not copy", "last day"}) EXPECT_FALSE(has(terms, words));
}

TEST(CivilDates, ReadBackAndExist) {
  const auto day = ParseDate("deadline", "2028-02-29");
  ASSERT_TRUE(day.ok());
  EXPECT_EQ(FormatDate(*day), "2028-02-29");
  for (const char* text :
       {"2027-02-29", "2027-13-01", "2027-00-10", "2027-01-00", "27-01-01", "2027-1-1",
        "2027/01/01", "2027-01-01 ", "0000-01-01", "", "-027-01-01", "2027-01-0x"}) {
    const auto status = ParseDate("deadline", text).status();
    EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument) << text;
    EXPECT_EQ(DetailOf(status).fields.front().field, "deadline");
  }
}

}  // namespace
}  // namespace rowproof::testcalls
