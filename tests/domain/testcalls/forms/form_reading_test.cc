#include <string>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/reader.h"
#include "services/domain/testcalls/report_validation.h"
#include "tests/domain/testcalls/sample_reports.h"

namespace rowproof::testcalls {
namespace {

// A form that is complete but for what a test adds below it.
std::string With(const std::string& lines) {
  return "seat: patterns/lake7/testCalls/spring/seats/s4\nversion: 3\nsize: L\nworked from: chart\n"
         "hand: right\nterms: US\n" +
         lines;
}

FormReading Read(const std::string& lines) {
  const auto reading = ReadForm(With(lines));
  EXPECT_TRUE(reading.ok()) << reading.status();
  return reading.ok() ? *reading : FormReading{};
}

// The report of lines that have to be read without an error.
Report Good(const std::string& lines) {
  const FormReading reading = Read(lines);
  EXPECT_EQ(reading.error_count, 0)
      << lines << "\n"
      << (reading.findings.empty() ? "" : reading.findings.front().sentence);
  return reading.report;
}

// The first error of lines that must have one; lines are counted from those given.
FormFinding Bad(const std::string& lines) {
  const FormReading reading = Read(lines);
  for (FormFinding finding : reading.findings) {
    if (!finding.error) continue;
    finding.line -= 6;
    return finding;
  }
  ADD_FAILURE() << "no error in: " << lines;
  return {};
}

bool Says(const FormFinding& finding, const std::string& words) {
  return finding.sentence.find(words) != std::string::npos;
}

TEST(ReadFormLength, ConvertsEveryUnitExactly) {
  const std::pair<const char*, double> cases[] = {{"1200 mm", 1200},
                                                  {"120 cm", 1200},
                                                  {"1.2 m", 1200},
                                                  {"1,2 m", 1200},
                                                  {"1200mm", 1200},
                                                  {"10 in", 254},
                                                  {"10 inches", 254},
                                                  {"10\"", 254},
                                                  {"10\u201d", 254},
                                                  {"1 yd", 914.4},
                                                  {"47 1/4 in", 1200.15},
                                                  {"47\u00bc inch", 1200.15},
                                                  {"1/2 in", 12.7},
                                                  {"120 Centimetres", 1200},
                                                  {"0,125 m", 125},
                                                  {"120 cm.", 1200},
                                                  {"\u00a0120\u00a0cm", 1200},
                                                  {".5 m", 500}};
  for (const auto& [text, mm] : cases) {
    const Report report = Good(fmt::format("width before blocking: {}\n", text));
    ASSERT_TRUE(report.width_before_mm.has_value()) << text;
    EXPECT_DOUBLE_EQ(*report.width_before_mm, mm) << text;
  }
}

TEST(ReadFormLength, GuessesNoUnit) {
  const FormFinding finding = Bad("width before blocking: 120\n");
  EXPECT_EQ(finding.field, "width_before_mm");
  EXPECT_EQ(finding.line, 1);
  EXPECT_EQ(finding.column, 24);
  EXPECT_TRUE(Says(finding, "please add the unit to")) << finding.sentence;
}

TEST(ReadFormLength, RefusesWhatCouldBeReadInTwoWays) {
  EXPECT_TRUE(Says(Bad("width before blocking: 1,200 mm\n"), "thousand"));
  EXPECT_TRUE(Says(Bad("width before blocking: 1.200,5 mm\n"), "two decimal signs"));
  for (const char* text : {"1 200 mm", "100 cm 50 cm", "100 g", "wide", "about 100 cm", "5 - 6 cm",
                           "100 x 120 cm", "1/0 in", "\u0661\u0662 mm", "nan mm", "inf m", "1e3 mm",
                           "0x10 mm", "12345678901234567890123456789012345678901 mm"}) {
    EXPECT_EQ(Bad(fmt::format("width before blocking: {}\n", text)).field, "width_before_mm")
        << text;
  }
}

TEST(ReadFormLength, LeavesANegativeNumberToValidate) {
  const Report report = Good("width before blocking: -5 cm\nwidth after blocking: \u22125 cm\n");
  EXPECT_EQ(report.width_before_mm, -50);
  EXPECT_EQ(report.width_after_mm, -50);
  EXPECT_FALSE(Validate(report, SampleDesign(), {}).ok());
}

TEST(ReadFormYarn, ReadsBallBandsLengthsAndWeights) {
  const Report report = Good(
      "yarn A ball: 210 yd / 100 g\nyarn A wraps per inch: 9 wpi\n"
      "yarn A weight before: 3.5 oz\nyarn A weight after: 1,6 oz\nyarn A with swatch: No\n"
      "YARN B LENGTH USED: 100 yards\nyarn b with swatch: yes\n"
      "border yarn ball: 50 g = 125 m\nborder yarn weight class: 4\n");
  ASSERT_EQ(report.yarn.size(), 3u);
  EXPECT_DOUBLE_EQ(*report.yarn[0].yarn->ball_length_m, 210 * 0.9144);
  EXPECT_EQ(report.yarn[0].yarn->ball_mass_g, 100);
  EXPECT_DOUBLE_EQ(*report.yarn[0].mass_before_g, 3.5 * 28.349523125);
  EXPECT_DOUBLE_EQ(*report.yarn[0].mass_after_g, 1.6 * 28.349523125);
  EXPECT_DOUBLE_EQ(*report.yarn[1].length_m, 91.44);
  EXPECT_TRUE(report.yarn[1].with_swatch);
  EXPECT_EQ(report.yarn[2].colour, estimate::YarnColour::kBorder);
  EXPECT_EQ(report.yarn[2].yarn->ball_length_m, 125);
  EXPECT_EQ(report.yarn[2].yarn->weight_class, 4);
}

TEST(ReadFormYarn, ReadsEveryColourInTheListsOrder) {
  const Report report = Good(
      "border yarn length used: 3 m\nyarn H length used: 8 m\nyarn C ball: 400 tex\n"
      "yarn C wraps per inch: 9\nYARN D WEIGHT BEFORE: 50 g\nyarn d weight after: 20 g\n");
  ASSERT_EQ(report.yarn.size(), 4u);
  EXPECT_EQ(report.yarn[0].colour, estimate::YarnColour::kC);
  EXPECT_EQ(report.yarn[0].yarn->tex, 400);
  EXPECT_FALSE(report.yarn[0].yarn->ball_length_m.has_value());
  EXPECT_EQ(report.yarn[1].colour, estimate::YarnColour::kD);
  EXPECT_EQ(report.yarn[1].mass_after_g, 20);
  EXPECT_EQ(report.yarn[2].colour, estimate::YarnColour::kH);
  EXPECT_EQ(report.yarn[3].colour, estimate::YarnColour::kBorder);
}

TEST(ReadFormYarn, NamesWhatIsMissingOrDoesNotFit) {
  EXPECT_EQ(Bad("yarn A ball: 400 tex in 50 g\n").field, "yarn[0].yarn.ball_band.length_m");
  EXPECT_TRUE(Says(Bad("yarn I length used: 5 m\n"), "no question"));
  EXPECT_EQ(Bad("yarn A ball: 125 m\n").field, "yarn[0].yarn.ball_band.length_m");
  EXPECT_TRUE(Says(Bad("yarn A ball: 125 in 50 g\n"), "please add the unit to"));
  EXPECT_EQ(Bad("yarn A length used: 100 m\nyarn A with swatch:\n").field, "yarn[0].with_swatch");
  EXPECT_EQ(Bad("yarn A length used: 100 g\n").field, "yarn[0].length_m");
  EXPECT_EQ(Bad("yarn A weight class: 4.5\n").field, "yarn[0].yarn.weight_class");
  EXPECT_TRUE(Says(Bad("yarn A with swatch: yes\n"), "please give the length"));
}

TEST(ReadFormGauge, ReadsCountsAndSpansInAnyOrder) {
  const estimate::GaugeReading expected{21, 24.5, 100, 101.6, 1};
  for (const char* text :
       {"21 stitches in 10 cm, 24.5 rows in 4 in", "24,5 rows in 4\", 21 st in 100 mm",
        "21 sts in 10 cm and 24.5 rows in 4 inches, read to 1 mm",
        "21 stitches = 10 cm; 24 1/2 rounds = 4 in"}) {
    const Report report = Good(fmt::format("gauge before blocking: {}\n", text));
    ASSERT_EQ(report.gauge_before.size(), 1u) << text;
    EXPECT_EQ(report.gauge_before[0], expected) << text;
  }
  const Report shared = Good("gauge after blocking: 21 sts and 24 rows in 10 cm, read to 0.5 cm\n");
  EXPECT_EQ(shared.gauge_after[0], (estimate::GaugeReading{21, 24, 100, 100, 5}));
}

TEST(ReadFormGauge, RefusesHalfAGauge) {
  for (const char* text :
       {"21 stitches in 10 cm", "21 stitches, 24 rows", "21 x 24",
        "21 stitches in 10, 24 rows in 10 cm", "21 stitches in 10 cm, 24 rows in 10 cm, 1 mm, 2 mm",
        "21 stitches, 20 stitches, 24 rows in 10 cm", "10 cm"}) {
    EXPECT_EQ(Bad(fmt::format("gauge before blocking: {}\n", text)).field, "gauge_before[0]")
        << text;
  }
}

TEST(ReadFormTime, ReadsClockHoursAndMinutes) {
  for (const char* text : {"31:30", "31:30 h", "31 h 30 min", "31.5 hours", "31 1/2 hours",
                           "1890 minutes", "1890 min."}) {
    EXPECT_EQ(Good(fmt::format("time: {}\n", text)).minutes, 1890) << text;
  }
  for (const char* text : {"31", "31:75", "31:5", "30 min 31 h", "2 days", "5 cm", "1:2:3"}) {
    EXPECT_EQ(Bad(fmt::format("time: {}\n", text)).field, "minutes") << text;
  }
}

TEST(ReadFormErrata, ReadsAnErratumFromItsSection) {
  const Report report = Good(
      "erratum: 1\nrow: Row 7\nstitches: 8-5\ncounted from: Start of row\nseen in: Text\n"
      "kind: stitch\nwas: Row 7 (RS, A): sc 3\nshould be: sc 4\n\nerratum:\nrow:\nseen in: chart\n"
      "kind: materials\nnote: amounts swapped\n");
  ASSERT_EQ(report.errata.size(), 2u);
  EXPECT_EQ(report.errata[0],
            (faults::Erratum{7, 5, 8, faults::CountedFrom::kRowStart, faults::SeenIn::kText,
                             faults::ErratumKind::kStitch, "Row 7 (RS, A): sc 3", "sc 4", ""}));
  EXPECT_EQ(report.errata[1].row, 0);
  EXPECT_EQ(report.errata[1].remark, "amounts swapped");
}

TEST(ReadFormErrata, NamesWhatIsMissingTwiceOrOutOfPlace) {
  EXPECT_EQ(Bad("erratum:\nrow: 7\nkind: stitch\n").field, "errata[0].seen_in");
  EXPECT_EQ(Bad("erratum:\nrow: 7\nseen in: chart\n").field, "errata[0].kind");
  EXPECT_EQ(Bad("erratum:\nrow: 7\nstitches: 5\nseen in: chart\nkind: stitch\n").field,
            "errata[0].counted_from");
  EXPECT_TRUE(Says(Bad("erratum:\nrow: 7\nseen in: text\nkind: stitch\nrow: 8\n"),
                   "is already answered in line"));
  EXPECT_TRUE(Says(Bad("row: 7\n"), "below a line"));
  EXPECT_TRUE(Says(Bad("erratum: row 7 is wrong\n"), "lines below"));
  EXPECT_EQ(Bad("first row number: 5\nlast row: 3\n").field, "last_row");
  EXPECT_EQ(Bad("last row: 3.5\n").field, "last_row");
}

TEST(ReadFormErrata, StopsAtTheirLimit) {
  std::string lines;
  for (size_t i = 0; i < kMostErrata + 5; ++i) {
    lines += "erratum:\nrow: 7\nseen in: chart\nkind: count\n";
  }
  const FormReading reading = Read(lines);
  EXPECT_EQ(reading.report.errata.size(), kMostErrata);
  EXPECT_EQ(reading.error_count, 1);
  EXPECT_EQ(reading.findings.front().field, "errata");
}

TEST(ReadFormLines, DropsNoLineInSilence) {
  const FormFinding typed = Bad("hok: 4.5 mm\n");
  EXPECT_TRUE(Says(typed, "no question \"hok:\"")) << typed.sentence;
  EXPECT_EQ(typed.line, 1);
  EXPECT_EQ(typed.column, 1);
  EXPECT_TRUE(Says(Bad("  yarn A weight befor: 5 g\n"), "did you mean \"yarn A weight before:\"?"));
  EXPECT_TRUE(Says(Bad("hook: 4.5 mm\n\nbut it felt small\n"), "belongs to no question"));
  EXPECT_EQ(Bad("hook: 4.5 mm\nbut it felt small\n").field, "hook_mm");
  EXPECT_TRUE(Says(Bad("hook: 4.5 mm\nhook: 5 mm\n"), "is already answered in line"));
  EXPECT_EQ(Good("hook: 4.5 mm\nhook:\nhook: 4.5 mm\n").hook_mm, 4.5);
  EXPECT_TRUE(Says(Bad("# help\nfive\n"), "belongs to no question"));
}

TEST(ReadFormLines, TakesAnAnswerBelowItsQuestion) {
  EXPECT_EQ(Good("> hook:\n\n4.5 mm\n").hook_mm, 4.5);
  EXPECT_EQ(Good("*hook:* 4.5 mm\n").hook_mm, 4.5);
  EXPECT_EQ(Good("remarks: one\ntwo\n\nthree\nremarks: four\nend of form:\nLG, Mara\n").remarks,
            "one two\nthree\nfour");
}

TEST(ReadFormLines, NamesLineAndColumnInCharacters) {
  const FormFinding finding = Bad("remarks: \u65e5\u672c\r\n> > hook: \u2009 5 foot\r\n");
  EXPECT_EQ(finding.line, 2);
  EXPECT_EQ(finding.column, 15);
  EXPECT_EQ(finding.field, "hook_mm");
}

TEST(ReadFormChoices, ReadsNothingButTheChoices) {
  EXPECT_EQ(Good("ends: As in the pattern.\n").ends, std::nullopt);
  EXPECT_EQ(Good("ends: CARRIED\n").ends, chart::Ends::kCarried);
  EXPECT_EQ(Bad("ends: knotted\n").field, "ends");
  EXPECT_EQ(Bad("finished: almost\n").field, "finished");
  const auto left = ReadForm("hand: Left-handed\nterms: Us terms\nworked from: written rows\n");
  ASSERT_TRUE(left.ok());
  EXPECT_EQ(left->report.hand, chart::Hand::kLeft);
  EXPECT_EQ(left->report.worked_from, WorkedFrom::kText);
  EXPECT_EQ(left->error_count, 3);  // seat, version, size
}

TEST(ReadFormSeat, TakesASeatsNameOnly) {
  for (const char* seat : {"patterns/a/testCalls/b", "patterns/a/testCalls/b/seats/", "seats/c",
                           "patterns/a/testCalls/b/seats/c/d", "patterns/A/testCalls/b/seats/c",
                           "patterns/a/testCalls/b/seats/c'; drop table seat"}) {
    const auto reading = ReadForm(fmt::format("seat: {}\n", seat));
    ASSERT_TRUE(reading.ok());
    EXPECT_EQ(reading->findings.back().field, "seat") << seat;
    EXPECT_EQ(reading->heading.seat, "") << seat;
  }
}

TEST(ReadFormHostile, RefusesWhatIsNoText) {
  for (const std::string& text :
       {std::string(kLongestForm + 1, 'a'), std::string(kMostFormLines + 1, '\n'),
        std::string("hook: 5 mm\xff"), std::string("hook: 5\0mm", 10), std::string("\xed\xa0\x80"),
        std::string("\xc0\xaf")}) {
    EXPECT_EQ(ReadForm(text).status().code(), absl::StatusCode::kInvalidArgument);
  }
  EXPECT_TRUE(ReadForm(std::string(kMostFormLines - 1, '\n')).ok());
  EXPECT_TRUE(ReadForm("").ok());
}

TEST(ReadFormHostile, NamesControlCharactersAndBoundsItsFindings) {
  const FormFinding finding = Bad("remarks: a\x1b[31mb\n");
  EXPECT_EQ(finding.column, 11);
  EXPECT_TRUE(Says(finding, "U+001B"));

  std::string stray;
  for (int i = 0; i < 7000; ++i) stray += "stray\n\n";
  const FormReading reading = Read(stray);
  EXPECT_EQ(reading.error_count, 7000);
  EXPECT_EQ(reading.findings.size(), kMostFormFindings);
}

TEST(ReadFormHostile, ReadsLongLinesInReasonableTime) {
  std::string quotes(kLongestForm - 200, '>');
  EXPECT_TRUE(ReadForm(With(quotes)).ok());
  std::string numbers = "hook: ";
  while (numbers.size() < kLongestForm - 300) numbers += "1 ";
  EXPECT_TRUE(Says(Bad(numbers), "too long"));
  std::string colons = "remarks: ";
  while (colons.size() < kLongestForm - 300) colons += "a: ";
  EXPECT_EQ(Read(colons).error_count, 0);
}

}  // namespace
}  // namespace rowproof::testcalls
