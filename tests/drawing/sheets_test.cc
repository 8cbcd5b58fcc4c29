#include <future>
#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/drawing/sheets/errata_sheet.h"
#include "services/drawing/sheets/pattern_sheet.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using chart::Convention;
using ::testing::AllOf;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

std::string Draw(const PatternSheet& sheet, Paper paper = Paper::kA4) {
  auto bytes = DrawPatternSheet(sheet, paper);
  EXPECT_TRUE(bytes.ok()) << bytes.status();
  return bytes.ok() ? *bytes : "";
}

std::string FieldOf(const absl::Status& status) {
  const ErrorDetail detail = DetailOf(status);
  return detail.fields.empty() ? "" : detail.fields.front().field;
}

// Every word of every page lies inside the margins and no two words overlap.
void ExpectTidyPages(const DrawnFile& file, double width, double height) {
  const std::vector<Word> words = file.Words();
  EXPECT_FALSE(words.empty());
  std::map<int, std::vector<Word>> pages;
  for (const Word& word : words) {
    EXPECT_GE(word.left, 47) << word.text;
    EXPECT_LE(word.right, width - 47) << word.text;
    EXPECT_GE(word.top, 20) << word.text;
    EXPECT_LE(word.bottom, height - 25) << word.text;
    pages[word.page].push_back(word);
  }
  for (const auto& [page, on_page] : pages) {
    for (size_t i = 0; i < on_page.size(); ++i) {
      for (size_t k = i + 1; k < on_page.size(); ++k) {
        const Word& a = on_page[i];
        const Word& b = on_page[k];
        // A word's box has its font's full height: compare the middle halves.
        const double inset_a = (a.bottom - a.top) / 4;
        const double inset_b = (b.bottom - b.top) / 4;
        const bool beside = a.right <= b.left + 0.2 || b.right <= a.left + 0.2;
        const bool above = a.bottom - inset_a <= b.top + inset_b + 0.2 ||
                           b.bottom - inset_b <= a.top + inset_a + 0.2;
        EXPECT_TRUE(beside || above) << page << ": " << a.text << " and " << b.text;
      }
    }
  }
}

TEST(PatternSheet, PrintsEveryWrittenRowWholeOnOnePage) {
  const chart::Design design = BandedDesign(Convention::kPicture);
  PatternSheet sheet = SampleSheet(design, 400);
  const DrawnFile file(Draw(sheet), ".pdf");
  file.Run("qpdf --check FILE");
  const std::vector<std::string> pages = file.Pages();
  for (const std::string& row : sheet.written_rows) {
    int found = 0;
    for (const std::string& page : pages) {
      found += page.find(row) != std::string::npos ? 1 : 0;
    }
    EXPECT_EQ(found, 1) << row;
  }
}

TEST(PatternSheet, PrintsWhatABuyerNeeds) {
  const chart::Design design = BandedDesign(Convention::kPicture);
  const PatternSheet sheet = SampleSheet(design, 20);
  const DrawnFile file(Draw(sheet), ".pdf");
  const std::string text = file.Text();
  for (const std::string& expected :
       {sheet.title, sheet.designer, sheet.hash_line, std::string("released 2026-11-25"),
        std::string("Fringe, cords and loose strands"), std::string("104 x 132 cm 41 x 52 in"),
        std::string("throw A, Oat 745 m 815 yd 440 g 9"), sheet.hook, sheet.gauge[0], sheet.terms,
        sheet.multiple, std::string("ssc = spike single crochet"),
        std::string("Spike single crochet (ssc):"), sheet.notes[0], sheet.other_hand_rows[0],
        sheet.finishing[0], sheet.tested[0], sheet.versions_concerned[0],
        std::string("repeat rows 13 to 28: 4 (7) times")}) {
    EXPECT_THAT(text, HasSubstr(expected));
  }
}

TEST(PatternSheet, HasARunningHeaderAndNumberedPages) {
  const chart::Design design = BandedDesign(Convention::kPicture);
  const DrawnFile file(Draw(SampleSheet(design, 200)), ".pdf");
  const std::vector<std::string> pages = file.Pages();
  EXPECT_EQ(pages.size(), static_cast<size_t>(file.PageCount()));
  EXPECT_GT(pages.size(), 4u);
  for (size_t page = 1; page <= pages.size(); ++page) {
    const std::string& text = pages[page - 1];
    EXPECT_THAT(text, HasSubstr(fmt::format("page {} of {}", page, pages.size())));
    EXPECT_THAT(text, AllOf(HasSubstr("Tideline Throw (invented)"), HasSubstr("Version 2")));
  }
}

TEST(PatternSheet, HasThePapersSize) {
  const chart::Design design = LetterF();
  EXPECT_THAT(DrawnFile(Draw(SampleSheet(design, 5)), ".pdf").Info("Page size"),
              StartsWith("595.276 x 841.89 pts"));
  EXPECT_THAT(DrawnFile(Draw(SampleSheet(design, 5), Paper::kLetter), ".pdf").Info("Page size"),
              StartsWith("612 x 792 pts"));
}

TEST(PatternSheet, KeepsEveryWordInsideTheMarginsAndApart) {
  for (const auto convention : {Convention::kPicture, Convention::kWorking}) {
    const chart::Design design = BandedDesign(convention);
    const PatternSheet sheet = SampleSheet(design, 60);
    ExpectTidyPages(DrawnFile(Draw(sheet), ".pdf"), 595.276, 841.89);
    ExpectTidyPages(DrawnFile(Draw(sheet, Paper::kLetter), ".pdf"), 612, 792);
  }
}

TEST(PatternSheet, WrapsLongCellsAndRepeatsTheTablesHead) {
  const chart::Design design = LetterF();
  PatternSheet sheet = SampleSheet(design, 5);
  for (int i = 0; i < 120; ++i) {
    sheet.amounts.push_back(
        {fmt::format("size number {} with a name that goes on and on and on and on", i),
         "C, a colour whose name is longer than any column can be on this paper", "1,234 m",
         "1,350 yd", "750 g", std::string(i % 40 == 7 ? 90 : 2, '8')});
  }
  const DrawnFile file(Draw(sheet), ".pdf");
  ExpectTidyPages(file, 595.276, 841.89);
  int heads = 0;
  for (const std::string& text : file.Pages()) {
    const bool rows = text.find("1,350 yd") != std::string::npos;
    const bool head = text.find("Metres Yards Grams") != std::string::npos;
    EXPECT_TRUE(!rows || head) << text;
    heads += head ? 1 : 0;
  }
  EXPECT_GT(heads, 3);
}

TEST(PatternSheet, BreaksARowThatIsHigherThanAPage) {
  const chart::Design design = LetterF();
  PatternSheet sheet = SampleSheet(design, 3);
  std::string long_text;
  for (int i = 0; i < 4000; ++i) long_text += fmt::format("word{} ", i);
  sheet.written_rows.push_back("Row 4: " + long_text);
  const DrawnFile file(Draw(sheet), ".pdf");
  ExpectTidyPages(DrawnFile(Draw(SampleSheet(design, 3)), ".pdf"), 595.276, 841.89);
  std::map<std::string, int> seen;
  for (const Word& word : file.Words()) ++seen[word.text];
  for (int i = 0; i < 4000; ++i) EXPECT_EQ(seen[fmt::format("word{}", i)], 1) << i;
}

TEST(PatternSheet, EmbedsOnlyThePinnedFontsWhateverTheTextHolds) {
  const chart::Design design = LetterF();
  PatternSheet sheet = SampleSheet(design, 3);
  sheet.title =
      "\xe6\xbc\xa2\xe5\xad\x97 \xf0\x9f\xa7\xb6 \xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d caf\xc3\xa9";
  sheet.notes.push_back(
      "\xd8\xb3\xd9\x84\xd8\xa7\xd9\x85 \xe2\x80\xae reversed \xe2\x80\xac "
      "\xef\xb7\x90 \xef\xbf\xbe \xf4\x8f\xbf\xbf e\xcc\x81\xcc\x82\xcc\x83");
  sheet.notes.push_back("not UTF-8: \xff\xfe\xc0\x80 \xed\xa0\x80 end");
  sheet.notes.push_back("controls: \x01\x02\x1b[31m \x7f \xc2\x85 end");
  const DrawnFile file(Draw(sheet), ".pdf");
  file.Run("qpdf --check FILE");
  const std::set<std::string> pinned = {"DejaVuSans", "DejaVuSans-Bold", "DejaVuSansMono"};
  for (const std::string& font : file.Fonts()) EXPECT_EQ(pinned.count(font), 1u) << font;
  EXPECT_THAT(file.Text(), HasSubstr("caf\xc3\xa9"));
}

TEST(PatternSheet, SurvivesRandomBytesInEveryText) {
  const chart::Design design = LetterF();
  std::mt19937 random(7);
  for (int trial = 0; trial < 20; ++trial) {
    const auto bytes = [&](size_t most) {
      std::string text(random() % most, ' ');
      for (char& c : text) c = static_cast<char>(random() % 256);
      return text;
    };
    PatternSheet sheet = SampleSheet(design, 2);
    sheet.title = bytes(900);
    sheet.designer = bytes(900);
    sheet.version_line = bytes(900);
    sheet.sizes[0].us = bytes(5000);
    sheet.abbreviations[0].meaning = bytes(4000);
    sheet.special_stitches[0].term = bytes(4000);
    sheet.written_rows.push_back(bytes(60) + ":" + bytes(9000));
    sheet.other_hand_heading = bytes(900);
    sheet.chart_options.names = {bytes(900)};
    DrawnFile(Draw(sheet), ".pdf").Run("qpdf --check FILE");
  }
}

TEST(PatternSheet, TakesTextAsItIsAndNeverAsMarkup) {
  const chart::Design design = LetterF();
  PatternSheet sheet = SampleSheet(design, 2);
  sheet.notes = {"<b>sc</b> & <span size='400000'>ssc</span> &lt; 5 <"};
  EXPECT_THAT(DrawnFile(Draw(sheet), ".pdf").Text(),
              HasSubstr("<b>sc</b> & <span size='400000'>ssc</span> &lt; 5 <"));
}

TEST(PatternSheet, GivesTheSameBytesEachTime) {
  const chart::Design design = BandedDesign(Convention::kPicture);
  const std::string bytes = Draw(SampleSheet(design, 50));
  Draw(SampleSheet(LetterF(), 3), Paper::kLetter);  // something else in between
  EXPECT_EQ(Draw(SampleSheet(design, 50)), bytes);
  PatternSheet other = SampleSheet(design, 50);
  other.release_date = "2026-11-26";
  EXPECT_NE(Draw(other), bytes);
}

TEST(PatternSheet, IsTheSameFromSeveralThreads) {
  const chart::Design design = BandedDesign(Convention::kPicture);
  const std::string bytes = Draw(SampleSheet(design, 20));
  std::vector<std::future<std::string>> drawn;
  for (int i = 0; i < 16; ++i) {
    drawn.push_back(std::async(std::launch::async, [&design] {
      std::string last;
      for (int k = 0; k < 3; ++k) last = Draw(SampleSheet(design, 20));
      return last;
    }));
  }
  for (auto& each : drawn) EXPECT_EQ(each.get(), bytes);
}

TEST(PatternSheet, LeavesOutWhatIsEmpty) {
  PatternSheet sheet;
  sheet.title = "Bare";
  sheet.release_date = "2026-11-25";
  const DrawnFile file(Draw(sheet), ".pdf");
  EXPECT_EQ(file.PageCount(), 1);
  EXPECT_EQ(file.Pages().at(0), "Mosaic crochet pattern Bare released 2026-11-25 page 1 of 1 ");
}

TEST(PatternSheet, RefusesAByFieldWhatItCannotPrint) {
  const chart::Design design = LetterF();
  PatternSheet sheet = SampleSheet(design, 2);
  sheet.release_date = "2026-11-31";
  EXPECT_EQ(FieldOf(DrawPatternSheet(sheet, Paper::kA4).status()), "release_date");
  sheet = SampleSheet(design, 2);
  sheet.title = std::string(kLongestTitle + 1, 'x');
  EXPECT_EQ(FieldOf(DrawPatternSheet(sheet, Paper::kA4).status()), "title");
  sheet = SampleSheet(design, 2);
  const chart::Design empty;
  sheet.chart = &empty;
  EXPECT_EQ(FieldOf(DrawPatternSheet(sheet, Paper::kA4).status()), "chart.cells");
  sheet = SampleSheet(design, 2);
  sheet.chart_options.colours = {{-1, 0, 0}};
  EXPECT_EQ(FieldOf(DrawPatternSheet(sheet, Paper::kA4).status()), "chart_options.colours[0]");
}

TEST(PatternSheet, RefusesMoreThanItsLimitOfPagesAndText) {
  const chart::Design design = LetterF();
  PatternSheet sheet = SampleSheet(design, 2);
  sheet.written_rows.assign(40000, "Row 2 (WS, B): sc 5.");
  EXPECT_EQ(DrawPatternSheet(sheet, Paper::kA4).status().code(),
            absl::StatusCode::kResourceExhausted);
  sheet.written_rows = {std::string(300000, '\n')};
  EXPECT_EQ(DrawPatternSheet(sheet, Paper::kA4).status().code(),
            absl::StatusCode::kResourceExhausted);
  sheet.written_rows = {std::string(2'000'001, 'x')};
  EXPECT_EQ(DrawPatternSheet(sheet, Paper::kA4).status().code(),
            absl::StatusCode::kResourceExhausted);
}

TEST(ErrataSheet, PrintsEveryCorrectionInOrder) {
  const sheets::ErrataSheet sheet = SampleErrata(40);
  const auto bytes = DrawErrataSheet(sheet, Paper::kLetter);
  ASSERT_TRUE(bytes.ok()) << bytes.status();
  const DrawnFile file(*bytes, ".pdf");
  file.Run("qpdf --check FILE");
  EXPECT_THAT(file.Info("Page size"), StartsWith("612 x 792 pts"));
  EXPECT_THAT(file.Fonts(), Each(StartsWith("DejaVuSans")));
  ExpectTidyPages(file, 612, 792);
  const std::string text = file.Text();
  size_t at = 0;
  for (const sheets::ErrataEntry& entry : sheet.entries) {
    const std::string place = sheets::PlaceInWords(entry, 1);
    at = text.find(place + " (version 1; ", at);
    ASSERT_NE(at, std::string::npos) << place;
    EXPECT_THAT(text.substr(at), HasSubstr("Was: " + entry.was));
    EXPECT_THAT(text.substr(at), HasSubstr("Should be: " + entry.should_be));
  }
  EXPECT_THAT(text, HasSubstr("Version 1, corrected in version 2, released 2026-11-25"));
  EXPECT_THAT(text, HasSubstr(sheet.content_hash));
  EXPECT_THAT(text, HasSubstr(sheet.changed_rows[0]));
  EXPECT_THAT(text, HasSubstr(sheet.other_changes[0]));
  EXPECT_EQ(*DrawErrataSheet(sheet, Paper::kLetter), *bytes);
}

TEST(ErrataSheet, SaysWhenThereIsNothingToCorrect) {
  sheets::ErrataSheet sheet = SampleErrata(0);
  sheet.versions_concerned.clear();
  const auto bytes = DrawErrataSheet(sheet, Paper::kA4);
  ASSERT_TRUE(bytes.ok()) << bytes.status();
  EXPECT_THAT(DrawnFile(*bytes, ".pdf").Pages().at(0),
              AllOf(HasSubstr("Corrected in version 2"), HasSubstr("No errata are known"),
                    Not(HasSubstr("1."))));
}

TEST(ErrataSheet, RefusesADateThatIsNone) {
  sheets::ErrataSheet sheet = SampleErrata(1);
  sheet.release_date = "tomorrow";
  EXPECT_EQ(FieldOf(DrawErrataSheet(sheet, Paper::kA4).status()), "release_date");
}

}  // namespace
}  // namespace rowproof::drawing
