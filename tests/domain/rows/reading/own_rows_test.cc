#include "services/domain/rows/reading/own_rows.h"

#include <gtest/gtest.h>

namespace rowproof::rows {
namespace {

chart::Design Design(int first_row_number = 1) {
  chart::Design design;
  design.cells = chart::Grid(6, 12);
  design.sizes = {{"narrow", 1, 1}, {"wide", 3, 1}};
  design.first_row_number = first_row_number;
  return design;
}

OwnRows Rows(const std::string& text, std::optional<chart::Terms> terms = chart::Terms::kUs,
             int first_row_number = 1, const std::vector<std::string>& names = {}) {
  return OwnRows(Design(first_row_number), text, terms, names);
}

bool Same(const OwnRows& a, const OwnRows& b, int row, int size = 0) {
  EXPECT_EQ(a.SameRow(size, row, b, size, row), b.SameRow(size, row, a, size, row));
  return a.SameRow(size, row, b, size, row);
}

TEST(OwnRows, ReadTheSameHoweverTheyAreSpelt) {
  const OwnRows rows = Rows("Row 2 (WS, B): sc 3, [ssc, sc 3] 2 times, sc. (12 sts)\n");
  for (const char* const other : {
           "Row 2 [WS, B] - 3 sc, (ssc, 3 sc) twice, sc in next st. (12 sts)\n",
           "Row 1 (RS, A): sc 12.\n\nRow 2 (WS): with B, sc 3, *ssc, sc in next 3 sts;\n"
           "rep from * once more, sc 1. 12 sts\n",
           "Row 2 (WS, B): dc 3, [sdc, dc 3] 2 times, dc. (12 sts)\n",
       }) {
    const bool uk = std::string(other).find("sdc") != std::string::npos;
    EXPECT_TRUE(Same(rows, Rows(other, uk ? chart::Terms::kUk : chart::Terms::kUs), 2)) << other;
  }
}

TEST(OwnRows, ReadOtherwiseWhereOneThingIsSaidOtherwise) {
  const OwnRows rows = Rows("Row 2 (WS, B): sc 3, [ssc, sc 3] 2 times, sc. (12 sts)\n");
  for (const char* const other : {
           "Row 2 (WS, B): sc 4, [ssc, sc 3] 2 times, sc. (12 sts)\n",
           "Row 2 (WS, B): sc 3, [ssc, sc 3] 3 times, sc. (12 sts)\n",
           "Row 2 (WS, B): sc 3, [sc, ssc 3] 2 times, sc. (12 sts)\n",
           "Row 2 (WS, B): sc 3, [ssc, sc 3] 2 times, ssc. (12 sts)\n",
           "Row 2 (WS, B): sc 3, [ssc, sc 3] across, sc. (12 sts)\n",
           "Row 2 (RS, B): sc 3, [ssc, sc 3] 2 times, sc. (12 sts)\n",
           "Row 2 (WS, A): sc 3, [ssc, sc 3] 2 times, sc. (12 sts)\n",
           "Row 2 (B): sc 3, [ssc, sc 3] 2 times, sc. (12 sts)\n",
           "Row 2 (WS, B): sc 3, [ssc, sc 3] 2 times, sc. (13 sts)\n",
           "Row 2 (WS, B): sc 3, [ssc, sc 3] 2 times, sc.\n",
           "Row 2 (WS, B): sc 3, [ssc, sc 3] 2 times, sc, fasten off. (12 sts)\n",
           "Row 2 (WS, B): sc 3, [ssc, sc 3] 2 times, sx. (12 sts)\n",
           "Row 3 (WS, B): sc 3, [ssc, sc 3] 2 times, sc. (12 sts)\n",
           "",
       }) {
    EXPECT_FALSE(Same(rows, Rows(other), 2)) << other;
  }
  EXPECT_TRUE(Same(rows, rows, 2));
}

TEST(OwnRows, ReadOtherwiseOnlyInTheSizeWhoseCountChanged) {
  const OwnRows rows = Rows("Row 2 (WS, B): sc 3, [ssc, sc 3] 2 (4) times, sc. (12 (20) sts)\n");
  const OwnRows later = Rows("Row 2 (WS, B): sc 3, [ssc, sc 3] 2 (5) times, sc. (12 (24) sts)\n");
  EXPECT_TRUE(Same(rows, later, 2, 0));
  EXPECT_FALSE(Same(rows, later, 2, 1));
  const OwnRows headed = Rows(
      "Size narrow:\nRow 2 (WS, B): sc 3, [ssc, sc 3] 2 times, sc. (12 sts)\n\n"
      "Size wide:\nRow 2 (WS, B): sc 3, [ssc, sc 3] 4 times, sc, sc. (20 sts)\n");
  EXPECT_TRUE(Same(rows, headed, 2, 0));
  EXPECT_FALSE(Same(rows, headed, 2, 1));
}

TEST(OwnRows, ReadAsTheRowsThatTheyRepeat) {
  const std::string start = "Row 1 (RS, A): sc 12. (12 sts)\nRow 2 (WS, B): sc 12. (12 sts)\n";
  const std::string right = "Row 3 (RS, A): sc 4, ssc, sc 7. (12 sts)\n";
  const std::string wrong = "Row 3 (RS, A): sc 5, ssc, sc 7. (12 sts)\n";
  const std::string end = "Row 4: as Row 2.\nRows 5-6: rep Rows 3-4 once.\n";
  const OwnRows before = Rows(start + wrong + end);
  const OwnRows after = Rows(start + right + end);
  for (int row = 1; row <= 6; ++row) {
    EXPECT_EQ(Same(before, after, row), row != 3 && row != 5) << row;
  }
}

TEST(OwnRows, AreFoundByTheNumberThatWorkedRowOneHas) {
  const OwnRows from_one = Rows("Row 2 (WS, B): sc 12.\n");
  const OwnRows from_zero = Rows("Row 1 (WS, B): sc 12.\n", chart::Terms::kUs, 0);
  EXPECT_TRUE(from_one.SameRow(0, 2, from_zero, 0, 2));
  EXPECT_FALSE(from_one.SameRow(0, 2, from_zero, 0, 1));
  EXPECT_TRUE(from_one.SameRow(0, 2, from_one, 1, 2));
}

TEST(OwnRows, CallColoursByTheNamesOfTheirVersion) {
  const std::string named = "Row 2 (WS, Slate): sc 12.\n";
  const OwnRows lettered = Rows("Row 2 (WS, B): sc 12.\n");
  EXPECT_TRUE(Same(lettered, Rows(named, chart::Terms::kUs, 1, {"Oat", "Slate"}), 2));
  EXPECT_FALSE(Same(lettered, Rows(named, chart::Terms::kUs, 1, {"Slate", "Oat"}), 2));
}

TEST(OwnRows, ThatCannotBeReadAreComparedLetterByLetter) {
  const OwnRows rows = Rows("Row 2 (WS, B): sc 3, sx, sc 8. (12 sts)\n\nRow 3: as Row 2.\n");
  EXPECT_TRUE(Same(rows, Rows("Row 2 (WS, B): sc 3, sx, sc 8. (12 sts)\nRow 3: as Row 2."), 2));
  EXPECT_FALSE(
      Same(rows, Rows("Row 2 (WS, B): sc 3, sx, sc 9. (12 sts)\n\nRow 3: as Row 2.\n"), 2));
  EXPECT_FALSE(
      Same(rows, Rows("Row 2 (WS, B): sc 3, sx, sc 9. (12 sts)\n\nRow 3: as Row 2.\n"), 3));
  EXPECT_TRUE(Same(Rows(std::string("\0", 1)), Rows(""), 2));
}

TEST(OwnRows, KeepARowThatStandsTwiceApartFromOneThatStandsOnce) {
  const std::string row = "Row 2 (WS, B): sc 12.\n";
  EXPECT_FALSE(Same(Rows(row), Rows(row + row), 2));
}

}  // namespace
}  // namespace rowproof::rows
