#include <algorithm>
#include <sstream>
#include <string>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/reader.h"
#include "services/domain/testcalls/forms/writer.h"
#include "services/domain/testcalls/report_validation.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/testcalls/sample_reports.h"

namespace rowproof::testcalls {
namespace {

std::vector<std::string> LinesOf(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

size_t Characters(const std::string& text) {
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
  }));
}

std::string FindingsOf(const FormReading& reading) {
  std::string all;
  for (const FormFinding& finding : reading.findings) {
    all +=
        fmt::format("{}:{} {} {}\n", finding.line, finding.column, finding.field, finding.sentence);
  }
  return all;
}

// What is read from `form` is `report`, without a finding that is an error.
void ExpectReads(const std::string& form, const FormHeading& heading, const Report& report) {
  const auto reading = ReadForm(form);
  ASSERT_TRUE(reading.ok()) << reading.status();
  EXPECT_EQ(reading->error_count, 0) << FindingsOf(*reading) << form;
  EXPECT_EQ(reading->heading, heading);
  EXPECT_TRUE(reading->report == AsCarried(report, heading)) << form;
}

// Every line quoted once more.
std::string Quoted(const std::string& text) {
  std::string quoted;
  for (const std::string& line : LinesOf(text)) quoted += line.empty() ? ">\n" : "> " + line + "\n";
  return quoted;
}

std::string WithCrLf(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\n' ? std::string("\r\n") : std::string(1, c);
  return out;
}

// Lines broken anew at `columns`, as a mail program does with plain text: at the last blank.
std::string BrokenAt(const std::string& text, size_t columns, const std::string& line_end) {
  std::string out;
  for (std::string line : LinesOf(text)) {
    while (line.size() > columns) {
      const size_t blank = line.rfind(' ', columns);
      if (blank == std::string::npos || blank == 0) break;
      out += line.substr(0, blank) + line_end;
      line.erase(0, blank + 1);
    }
    out += line + "\n";
  }
  return out;
}

TEST(FormRoundTrip, GivesBackTheSampleReport) {
  const Report report = SampleReport();
  ASSERT_TRUE(Validate(report, SampleDesign(), {}).ok()) << Validate(report, SampleDesign(), {});
  ExpectReads(WriteForm(SampleHeading(), SampleNotes(), &report), SampleHeading(), report);
}

constexpr int kRandomReports = chart::kExhaustive ? 2000 : 500;

TEST(FormRoundTrip, GivesBackRandomReportsBitForBit) {
  std::mt19937 random(20261125);
  int with_errata = 0;
  for (int i = 0; i < kRandomReports; ++i) {
    const Report report = RandomReport(random);
    const absl::Status valid = Validate(report, SampleDesign(), MaterialsOfAllYarns());
    ASSERT_TRUE(valid.ok()) << valid;
    FormHeading heading = SampleHeading();
    heading.size = report.size;
    heading.version = report.version;
    heading.first_row_number = static_cast<int>(random() % 3);
    FormNotes notes = SampleNotes();
    notes.border.reset();
    if (random() % 2 == 0) {
      notes.border = estimate::kYarnColoursAsListed[random() % estimate::kYarnColours];
    }
    ExpectReads(WriteForm(heading, notes, &report), heading, report);
    with_errata += report.errata.empty() ? 0 : 1;
    if (HasFailure()) return;
  }
  EXPECT_GT(with_errata, kRandomReports / 2);
}

TEST(FormRoundTrip, SurvivesQuotingTwiceAndCrLf) {
  std::mt19937 random(7);
  for (int i = 0; i < kRandomReports / 7; ++i) {
    const Report report = RandomReport(random);
    FormHeading heading = SampleHeading();
    heading.size = report.size;
    heading.version = report.version;
    const std::string form = WriteForm(heading, SampleNotes(), &report);
    ExpectReads(Quoted(Quoted(form)), heading, report);
    ExpectReads(WithCrLf(form), heading, report);
    ExpectReads(WithCrLf(Quoted(form)), heading, report);
    if (HasFailure()) return;
  }
}

TEST(FormRoundTrip, SurvivesLinesBrokenAnewAndFormatFlowed) {
  const Report report = SampleReport();
  const std::string form = WriteForm(SampleHeading(), SampleNotes(), &report);
  // RFC 3676: a soft line end leaves its blank at the end of the line.
  for (const std::string line_end : {"\n", " \n", "\r\n", " \r\n"}) {
    for (const size_t columns : {76u, 72u, 66u, 60u}) {
      ExpectReads(BrokenAt(form, columns, line_end), SampleHeading(), report);
      ExpectReads(BrokenAt(Quoted(form), columns + 6, line_end), SampleHeading(), report);
    }
  }
}

TEST(FormRoundTrip, SurvivesOtherBlanksTrailingBlanksAndCapitals) {
  const Report report = SampleReport();
  std::string spaced;
  for (const std::string& line : LinesOf(WriteForm(SampleHeading(), SampleNotes(), &report))) {
    std::string mangled = "\u00a0";
    for (const char c : line) mangled += c == ' ' ? std::string("\u00a0 \t") : std::string(1, c);
    spaced += mangled + " \t \u00a0\n";
  }
  ExpectReads("\ufeff" + spaced, SampleHeading(), report);

  std::string loud;
  for (std::string line : LinesOf(WriteForm(SampleHeading(), SampleNotes(), &report))) {
    const size_t colon = std::min(line.find(':'), line.size());
    for (size_t i = 0; i < colon; ++i) line[i] = static_cast<char>(std::toupper(line[i]));
    loud += line + "\n";
  }
  ExpectReads(loud, SampleHeading(), report);
}

TEST(FormRoundTrip, SurvivesAMailAroundItAndASignature) {
  const Report report = SampleReport();
  const std::string form = WriteForm(SampleHeading(), SampleNotes(), &report);
  const std::string mail =
      "Dear Anna,\nhere it is.\n\nOn 3 April 2027 at 10:15, Anna Invented wrote:\n" + Quoted(form) +
      "Best wishes\nMara\n-- \nMara Invented\nhook: one of many\n";
  const auto reading = ReadForm(mail);
  ASSERT_TRUE(reading.ok());
  // The answer in the signature is not lost in silence.
  EXPECT_EQ(reading->error_count, 1) << FindingsOf(*reading);
  EXPECT_TRUE(reading->report == AsCarried(report, SampleHeading()));
  const auto notes = reading->findings.size() - static_cast<size_t>(reading->error_count);
  EXPECT_EQ(notes, 3u) << FindingsOf(*reading);  // before the form, after it, the signature
}

TEST(FormRoundTrip, SurvivesSectionsInAnotherOrder) {
  const Report report = SampleReport();
  const std::string form = WriteForm(SampleHeading(), SampleNotes(), &report);
  // Sections are separated by blank lines.
  std::vector<std::string> sections(1);
  for (const std::string& line : LinesOf(form)) {
    if (line.empty()) {
      sections.emplace_back();
    } else {
      sections.back() += line + "\n";
    }
  }
  std::mt19937 random(11);
  for (int i = 0; i < 50; ++i) {
    std::shuffle(sections.begin(), sections.end(), random);
    std::string shuffled;
    for (const std::string& section : sections) shuffled += section + "\n";
    ExpectReads(shuffled, SampleHeading(), report);
    if (HasFailure()) return;
  }
}

TEST(FormRoundTrip, KeepsRowsAsThePatternNumbersThem) {
  const Report report = SampleReport();
  FormHeading heading = SampleHeading();
  heading.first_row_number = 0;
  const std::string form = WriteForm(heading, SampleNotes(), &report);
  EXPECT_NE(form.find("\nlast row: 23\n"), std::string::npos);
  EXPECT_NE(form.find("\nrow: 6\n"), std::string::npos);
  ExpectReads(form, heading, report);
}

TEST(WriteForm, KeepsItsLinesWithin76ColumnsAndItsHelpWithin60) {
  const Report report = SampleReport();
  for (const Report* prefilled : {&report, static_cast<const Report*>(nullptr)}) {
    for (const std::string& line : LinesOf(WriteForm(SampleHeading(), SampleNotes(), prefilled))) {
      EXPECT_LE(Characters(line), line.starts_with('#') ? kFormHelpColumns : kFormColumns) << line;
    }
  }
  FormNotes notes = SampleNotes();
  notes.terms = {std::string(500, 'x')};
  for (const std::string& line : LinesOf(WriteForm(SampleHeading(), notes, nullptr))) {
    EXPECT_LE(Characters(line), kFormColumns) << line;
  }
}

TEST(WriteForm, ShowsCautionsTermsAndNoSecret) {
  const std::string form = WriteForm(SampleHeading(), SampleNotes(), nullptr);
  for (const char* words :
       {"# Take breaks", "You may stop", "personal data", "You may choose your own", "hazards",
        "2027-04-30", "seat: patterns/lake7/testCalls/spring/seats/s4", "version: 3"}) {
    EXPECT_NE(form.find(words), std::string::npos) << words;
  }
  EXPECT_EQ(form.find("rp_"), std::string::npos);
}

TEST(WriteForm, AsksForTheColoursOfThePatternOnly) {
  const auto has = [](const FormNotes& notes, const std::string& label) {
    return WriteForm(SampleHeading(), notes, nullptr).find("\n" + label + ":") != std::string::npos;
  };
  FormNotes two = SampleNotes();
  EXPECT_TRUE(has(two, "yarn A with border"));
  EXPECT_FALSE(has(two, "yarn B with border"));
  EXPECT_TRUE(has(two, "yarn B length used"));
  EXPECT_FALSE(has(two, "yarn C length used"));
  EXPECT_FALSE(has(two, "border yarn length used"));
  FormNotes four = SampleNotes();
  using enum estimate::YarnColour;
  four.yarns = {kA, kC, kH, kBorder};
  four.border = kBorder;
  EXPECT_TRUE(has(four, "yarn C length used"));
  EXPECT_TRUE(has(four, "yarn H ball"));
  EXPECT_TRUE(has(four, "border yarn length used"));
  EXPECT_FALSE(has(four, "yarn B length used"));
  EXPECT_FALSE(has(four, "yarn A with border"));
  EXPECT_FALSE(has(four, "border yarn with border"));
}

TEST(ReadForm, AsksForTheRequiredAnswersOfAnEmptyForm) {
  const auto reading = ReadForm(WriteForm(SampleHeading(), SampleNotes(), nullptr));
  ASSERT_TRUE(reading.ok());
  std::vector<std::string> fields;
  for (const FormFinding& finding : reading->findings) {
    EXPECT_TRUE(finding.error);
    EXPECT_GT(finding.line, 0);
    fields.push_back(finding.field);
  }
  EXPECT_EQ(fields, (std::vector<std::string>{"worked_from", "hand", "terms"}));
  EXPECT_TRUE(reading->report.errata.empty());
  EXPECT_TRUE(reading->report.yarn.empty());
}

TEST(ReadForm, ReadsTheGreatestReportWithinItsLimits) {
  Report report = SampleReport();
  const auto fill = [](size_t bytes) {
    std::string text;
    while (text.size() + 9 <= bytes) text += "abcdefgh ";
    return text + std::string(bytes - text.size(), 'z');
  };
  report.errata.assign(kMostErrata, report.errata.front());
  for (faults::Erratum& erratum : report.errata) {
    erratum.was = erratum.should_be = erratum.remark = fill(faults::kLongestErratumText);
  }
  report.remarks = fill(kLongestRemarks);
  ASSERT_TRUE(Validate(report, SampleDesign(), {}).ok());
  const std::string form = WriteForm(SampleHeading(), SampleNotes(), &report);
  ExpectReads(Quoted(WithCrLf(form)), SampleHeading(), report);
}

}  // namespace
}  // namespace rowproof::testcalls
