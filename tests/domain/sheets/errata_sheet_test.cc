#include "services/domain/sheets/errata_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "services/quantities/printing.h"
#include "services/text/utf8.h"
#include "tests/domain/patterns/sample_content.h"

namespace rowproof::sheets {
namespace {

using testing::Each;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

std::vector<std::string> LinesOf(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

ErrataEntry RowEntry(int version, int row, int first, int last) {
  ErrataEntry entry;
  entry.version = version;
  entry.row = row;
  entry.first_stitch = first;
  entry.last_stitch = last;
  entry.was = "sc 3, ssc";
  entry.should_be = "sc 2, ssc, sc";
  entry.found_in = "written rows";
  return entry;
}

ErrataEntry MaterialsEntry() {
  ErrataEntry entry;
  entry.version = 2;
  entry.section = "Materials";
  entry.page = 2;
  entry.sizes = "M";
  entry.was = "yarn A " + quantities::BothLengths(240'000);
  entry.should_be = "yarn A " + quantities::BothLengths(265'000);
  entry.found_in = "materials";
  entry.note = "The carried strand had been left out.";
  return entry;
}

ErrataSheetFacts Facts() {
  ErrataSheetFacts facts;
  facts.title = "Fen Ladder (invented)";
  facts.designer = "Mira Holt (invented)";
  facts.corrected_in = 3;
  facts.content_hash = std::string(64, 'a');
  facts.release_date = "2026-03-01";
  facts.entries = {MaterialsEntry(), RowEntry(2, 27, 5, 8), RowEntry(1, 4, 0, 0)};
  return facts;
}

TEST(ErrataSheet, SortsByRowAndNamesTheVersionsConcerned) {
  const ErrataSheet sheet = MakeErrataSheet(Facts());
  EXPECT_THAT(sheet.versions_concerned, ElementsAre(1, 2));
  ASSERT_EQ(sheet.entries.size(), 3u);
  EXPECT_EQ(sheet.entries[0].row, 4);
  EXPECT_EQ(sheet.entries[1].row, 27);
  EXPECT_EQ(sheet.entries[2].section, "Materials");
}

TEST(ErrataSheet, NamesPlacesAsThePatternCounts) {
  EXPECT_EQ(PlaceInWords(RowEntry(1, 27, 5, 8), 1), "Row 27, stitches 5 to 8");
  EXPECT_EQ(PlaceInWords(RowEntry(1, 27, 5, 5), 0), "Row 26, stitch 5");
  EXPECT_EQ(PlaceInWords(RowEntry(1, 27, 0, 0), 2), "Row 28");
  EXPECT_EQ(PlaceInWords(MaterialsEntry(), 1), "Materials, page 2");
  EXPECT_EQ(PlaceInWords(ErrataEntry{}, 1), "Whole pattern");
}

TEST(ErrataSheet, ReadsAsAMail) {
  const std::string text = PlainText(MakeErrataSheet(Facts()));
  EXPECT_EQ(text,
            "ERRATA: Fen Ladder (invented)\n"
            "by Mira Holt (invented)\n"
            "\n"
            "Applies to versions 1 and 2; corrected in version 3 of 2026-03-01.\n"
            "SHA-256 of version 3:\n"
            "  aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\n"
            "\n"
            "1. Row 4 (version 1)\n"
            "   Was:       sc 3, ssc\n"
            "   Should be: sc 2, ssc, sc\n"
            "   Found in:  written rows\n"
            "\n"
            "2. Row 27, stitches 5 to 8 (version 2)\n"
            "   Was:       sc 3, ssc\n"
            "   Should be: sc 2, ssc, sc\n"
            "   Found in:  written rows\n"
            "\n"
            "3. Materials, page 2 (version 2; sizes M)\n"
            "   Was:       yarn A 240 m (262 yd)\n"
            "   Should be: yarn A 265 m (290 yd)\n"
            "   Found in:  materials\n"
            "   Note:      The carried strand had been left out.\n");
}

TEST(ErrataSheet, ListsWhatElseChanged) {
  ErrataSheetFacts facts = Facts();
  patterns::VersionContent before = patterns::SmallVersion();
  patterns::VersionContent after = before;
  after.design.cells.set(3, 5, true);
  after.materials.hook_mm = 6;
  facts.difference = patterns::Compare(before, after);
  const ErrataSheet sheet = MakeErrataSheet(facts);
  EXPECT_THAT(sheet.changed_rows, ElementsAre("Row 3: stitch 5 changed."));
  EXPECT_THAT(sheet.other_changes, ElementsAre("Hook: was 5.5 mm, now 6 mm."));
  EXPECT_THAT(PlainText(sheet), HasSubstr("Changed rows:\n- Row 3: stitch 5 "
                                          "changed.\n\nOther changes:\n- Hook: was 5.5 mm"));
}

TEST(ErrataSheet, KeepsToItsColumnsHoweverLongItsTextsAre) {
  ErrataSheetFacts facts = Facts();
  facts.title = std::string(200, 'T');
  for (ErrataEntry& entry : facts.entries) {
    for (int n = 0; n < 60; ++n) entry.was += " sc 3, ssc";
    for (int n = 0; n < 200; ++n) entry.should_be += "\xc3\xa9";
    entry.sizes = "S, M, L, extra large for a bed";
    entry.note = "line\nfeed\x01";
  }
  const ErrataSheet sheet = MakeErrataSheet(facts);
  const std::string text = PlainText(sheet);
  size_t longest = 0;
  for (const std::string& line : LinesOf(text))
    longest = std::max(longest, text::CharacterCount(line));
  EXPECT_LE(longest, kMailColumns);
  EXPECT_GT(longest, kMailColumns - 10);
  EXPECT_THAT(text, HasSubstr("line feed\n"));
  longest = 0;
  for (const std::string& line : LinesOf(Table(sheet)))
    longest = std::max(longest, text::CharacterCount(line));
  EXPECT_LE(longest, kTableColumns);
  EXPECT_GT(longest, kTableColumns - 30);
}

TEST(ErrataSheet, LaysItsEntriesInATable) {
  EXPECT_EQ(Table(MakeErrataSheet(Facts())),
            "Ver.  Place                 Sizes       Was                 "
            "    Should be               Found in\n"
            "----  --------------------  ----------  --------------------"
            "--  ----------------------  ------------\n"
            "1     Row 4                 all         sc 3, ssc           "
            "    sc 2, ssc, sc           written rows\n"
            "2     Row 27, stitches 5    all         sc 3, ssc           "
            "    sc 2, ssc, sc           written rows\n"
            "      to 8\n"
            "2     Materials, page 2     M           yarn A 240 m (262 yd"
            ")   yarn A 265 m (290 yd)   materials\n");
}

TEST(ErrataSheet, WithoutErrataSaysSo) {
  ErrataSheetFacts facts = Facts();
  facts.entries.clear();
  const std::string text = PlainText(MakeErrataSheet(facts));
  EXPECT_THAT(text, HasSubstr("No errata."));
  EXPECT_THAT(text, HasSubstr("For version 3 of 2026-03-01."));
}

}  // namespace
}  // namespace rowproof::sheets
