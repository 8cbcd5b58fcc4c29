// FindRepeats on drawings with known repeats, and against a plain search on small ones.
#include "services/domain/chart/repeats/repeat_finder.h"

#include <functional>
#include <set>
#include <tuple>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/repeats/periods.h"
#include "services/domain/chart/repeats/transposed.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

using ::testing::HasSubstr;

// The reduced chart in full: cells, row colours and named colours are the drawing's.
void ExpectGivesBack(const RepeatAnswer& answer, const Design& drawing) {
  ASSERT_TRUE(Validate(answer.reduced).ok()) << Validate(answer.reduced);
  const ExpandedSize expanded = Expand(answer.reduced, 0);
  ASSERT_EQ(static_cast<int>(expanded.chart_row.size()), drawing.cells.rows());
  ASSERT_EQ(static_cast<int>(expanded.chart_stitch.size()), drawing.cells.stitches());
  for (int row = 1; row <= drawing.cells.rows(); ++row) {
    const int from = expanded.chart_row[static_cast<size_t>(row - 1)];
    ASSERT_EQ(expanded.row_colours[static_cast<size_t>(row - 1)], RowColour(drawing, row));
    for (int stitch = 1; stitch <= drawing.cells.stitches(); ++stitch) {
      const int source = expanded.chart_stitch[static_cast<size_t>(stitch - 1)];
      ASSERT_EQ(answer.reduced.cells.at(from, source), drawing.cells.at(row, stitch));
      if (!NamesColours(drawing)) continue;
      ASSERT_EQ(answer.reduced.picture_colours[PictureCell(answer.reduced, from, source)],
                drawing.picture_colours[PictureCell(drawing, row, stitch)]);
    }
  }
  ASSERT_EQ(expanded.drops, Expand(drawing, 0).drops);
}

TEST(RepeatFinder, FindsTheBandOfAMultipleOfFourPlusOne) {
  // Stitches 1 to 4 three times and one more; rows 1 to 4 twice and one more.
  const Design drawing =
      Picture({"AAAAAAAAAAAAA", "BABBBABBBABBB", "AAABAAABAAABA", "BBBBBBBBBBBBB", "AAAAAAAAAAAAA",
               "BABBBABBBABBB", "AAABAAABAAABA", "BBBBBBBBBBBBB", "AAAAAAAAAAAAA"});
  const auto repeats = FindRepeats(drawing, {.most_answers = 100});
  ASSERT_TRUE(repeats.ok()) << repeats.status();
  const RepeatAnswer& best = repeats->answers.front();
  EXPECT_EQ(best.stitch_band, (Band{1, 4}));
  EXPECT_EQ(best.stitch_repeats, 3);
  EXPECT_EQ(best.row_band, (Band{1, 4}));
  EXPECT_EQ(best.row_repeats, 2);
  EXPECT_THAT(ToText(best.reduced.cells),
              ::testing::ElementsAre(".....", "x.xxx", "...x.", "xxxxx", "....."));
  for (const RepeatAnswer& answer : repeats->answers) ExpectGivesBack(answer, drawing);
  // The band can start one row or one stitch later just as well: all four are told, best first.
  const RepeatAnswer& fourth = repeats->answers[3];
  EXPECT_EQ(fourth.stitch_band, (Band{2, 5}));
  EXPECT_EQ(fourth.row_band, (Band{2, 5}));
  EXPECT_EQ(static_cast<int64_t>(repeats->answers.size()), std::min<int64_t>(100, repeats->count));
}

TEST(RepeatFinder, TakesTwoRowsWhereOneWouldChangeTheColour) {
  // All rows of a working chart without drops are alike, but not their colours.
  const auto repeats = FindRepeats(Working({"...", "...", "...", "...", "..."}));
  ASSERT_TRUE(repeats.ok());
  EXPECT_EQ(repeats->answers.front().row_band, (Band{1, 2}));
  EXPECT_EQ(repeats->answers.front().row_repeats, 2);
  EXPECT_EQ(repeats->answers.front().stitch_band, (Band{1, 1}));
}

TEST(RepeatFinder, LetsAnExplicitOrderRepeatAsWell) {
  Design drawing = Working({"...", "...", "...", "...", "...", "..."});
  drawing.facing = Facing::kOneFace;
  for (int i = 0; i < 2; ++i) {
    drawing.row_colours.insert(drawing.row_colours.end(), {Colour::kA, Colour::kB, Colour::kC});
  }
  const auto repeats = FindRepeats(drawing);
  ASSERT_TRUE(repeats.ok());
  EXPECT_EQ(repeats->answers.front().row_band, (Band{1, 3}));
  EXPECT_EQ(repeats->answers.front().reduced.row_colours,
            (std::vector<Colour>{Colour::kA, Colour::kB, Colour::kC}));
  ExpectGivesBack(repeats->answers.front(), drawing);
}

TEST(RepeatFinder, KeepsTheSidesOfPairedRowsUnlessTheyMayChange) {
  Design drawing = Working(std::vector<std::string>(12, "x..x."));
  drawing.facing = Facing::kPaired;
  auto repeats = FindRepeats(drawing);
  ASSERT_TRUE(repeats.ok());
  EXPECT_EQ(repeats->answers.front().row_band, (Band{1, 4}));
  for (const RepeatAnswer& answer : repeats->answers) {
    for (const Finding& finding : Check(answer.reduced).findings) {
      EXPECT_NE(finding.code, FindingCode::kFacingRepeat);
      EXPECT_NE(finding.code, FindingCode::kOddRowRepeat);
    }
  }
  repeats = FindRepeats(drawing, {.sides_may_change = true});
  ASSERT_TRUE(repeats.ok());
  EXPECT_EQ(repeats->answers.front().row_band, (Band{1, 2}));
}

TEST(RepeatFinder, HasNoAnswerWhereNothingRepeats) {
  const auto repeats = FindRepeats(Working({".x", "x.", "..", ".."}));
  ASSERT_TRUE(repeats.ok());
  EXPECT_EQ(repeats->count, 0);
  EXPECT_TRUE(repeats->answers.empty());
}

TEST(RepeatFinder, RefusesADrawingThatDeclaresARepeat) {
  Design drawing = Working({"..", "..", "..", ".."});
  drawing.row_band = Band{1, 2};
  const auto repeats = FindRepeats(drawing);
  EXPECT_EQ(repeats.status().code(), absl::StatusCode::kInvalidArgument);
  EXPECT_THAT(std::string(repeats.status().message()), HasSubstr("whole size"));
  drawing.row_band.reset();
  EXPECT_FALSE(FindRepeats(drawing, {.most_answers = 0}).ok());
  EXPECT_FALSE(FindRepeats(drawing, {.most_answers = kMostRepeatAnswers + 1}).ok());
}

// The definition once more, by plain search: every start, band and count.
using Place = std::tuple<int, int, int>;  // edge, band, repeats

std::set<Place> PlainPlaces(int length, const std::function<bool(int, int)>& alike) {
  const auto holds = [&](int edge, int band, int repeats) {
    for (int i = edge + 1; i + band <= edge + repeats * band; ++i) {
      if (!alike(i, i + band)) return false;
    }
    return true;
  };
  std::set<Place> valid;
  for (int band = 1; 2 * band <= length; ++band) {
    for (int edge = 0; edge + 2 * band <= length; ++edge) {
      for (int repeats = 2; edge + repeats * band <= length; ++repeats) {
        if (holds(edge, band, repeats)) valid.emplace(edge, band, repeats);
      }
    }
  }
  std::set<Place> places;
  for (const auto& [edge, band, repeats] : valid) {
    bool listed = true;
    for (int part = 1; part < band; ++part) {
      if (band % part == 0 && valid.count({edge, part, repeats * (band / part)}) > 0)
        listed = false;
    }
    // More repetitions in the same stretch: they begin no later and end no earlier.
    for (int other = std::max(0, edge - band); other <= edge; ++other) {
      for (int more = repeats + 1; other + more * band <= length; ++more) {
        if (other + more * band >= edge + repeats * band && valid.count({other, band, more}) > 0) {
          listed = false;
        }
      }
    }
    if (listed) places.emplace(edge, band, repeats);
  }
  return places;
}

std::set<Place> RowPlaces(const Design& drawing) {
  return PlainPlaces(drawing.cells.rows(), [&](int one, int other) {
    if (RowColour(drawing, one) != RowColour(drawing, other)) return false;
    // Two rows in a line tell where in a pair of rows of one side they are.
    if (SideOfRow(drawing, one) != SideOfRow(drawing, other) ||
        SideOfRow(drawing, one + 1) != SideOfRow(drawing, other + 1)) {
      return false;
    }
    for (int stitch = 1; stitch <= drawing.cells.stitches(); ++stitch) {
      if (drawing.cells.at(one, stitch) != drawing.cells.at(other, stitch)) return false;
    }
    return true;
  });
}

std::set<Place> StitchPlaces(const Design& drawing) {
  return PlainPlaces(drawing.cells.stitches(), [&](int one, int other) {
    for (int row = 1; row <= drawing.cells.rows(); ++row) {
      if (drawing.cells.at(row, one) != drawing.cells.at(row, other)) return false;
    }
    return true;
  });
}

Place PlaceOf(const std::optional<Band>& band, int repeats) {
  if (!band.has_value()) return {0, 0, 1};
  return {band->first - 1, band->length(), repeats};
}

void CompareWithPlainSearch(const Design& drawing) {
  std::set<Place> rows = RowPlaces(drawing);
  std::set<Place> stitches = StitchPlaces(drawing);
  rows.emplace(0, 0, 1);
  stitches.emplace(0, 0, 1);
  const auto repeats = FindRepeats(drawing, {.most_answers = kMostRepeatAnswers});
  ASSERT_TRUE(repeats.ok()) << repeats.status();
  ASSERT_EQ(repeats->count, static_cast<int64_t>(rows.size() * stitches.size()) - 1);
  std::set<std::pair<Place, Place>> met;
  int64_t fewest = 0;
  for (const RepeatAnswer& answer : repeats->answers) {
    const Place row = PlaceOf(answer.row_band, answer.row_repeats);
    const Place stitch = PlaceOf(answer.stitch_band, answer.stitch_repeats);
    ASSERT_EQ(rows.count(row), 1U);
    ASSERT_EQ(stitches.count(stitch), 1U);
    ASSERT_TRUE(met.emplace(row, stitch).second);
    const auto& cells = answer.reduced.cells;
    const int64_t drawn = int64_t{cells.rows()} * cells.stitches();
    ASSERT_GE(drawn, fewest);
    fewest = drawn;
    ExpectGivesBack(answer, drawing);
    if (::testing::Test::HasFatalFailure()) return;
  }
  ASSERT_EQ(static_cast<int64_t>(met.size()),
            std::min<int64_t>(kMostRepeatAnswers, repeats->count));
  if (repeats->count > kMostRepeatAnswers) return;
  // None left out draws fewer cells than the last one told; with all told there is none left out.
  ASSERT_EQ(met.size(), rows.size() * stitches.size() - 1);
}

// A drawing with repeats in it: the expansion of a random design, now and then with a cell changed.
Design RandomDrawing(RandomDesigns& random) {
  const Design design = random.Next(7, 7);
  const ExpandedSize expanded = Expand(design, 0);
  Design drawing = design;
  const int rows = std::min<int>(static_cast<int>(expanded.chart_row.size()), 16);
  const int stitches = std::min<int>(static_cast<int>(expanded.chart_stitch.size()), 16);
  drawing.cells = Grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      drawing.cells.set(row, stitch,
                        design.cells.at(expanded.chart_row[static_cast<size_t>(row - 1)],
                                        expanded.chart_stitch[static_cast<size_t>(stitch - 1)]));
    }
  }
  if (!design.row_colours.empty()) {
    drawing.row_colours = expanded.row_colours;
    drawing.row_colours.resize(static_cast<size_t>(rows));
  }
  drawing.row_band.reset();
  drawing.stitch_band.reset();
  drawing.sizes = {{"one size", 1, 1}};
  if (random.Chance(30)) {
    const int row = random.Pick(1, rows);
    const int stitch = random.Pick(1, stitches);
    drawing.cells.set(row, stitch, !drawing.cells.at(row, stitch));
  }
  return drawing;
}

TEST(RepeatFinderOnRandomDrawings, AgreesWithAPlainSearchAndGivesTheDrawingBack) {
  RandomDesigns random(11);
  for (int i = 0; i < (kExhaustive ? 3000 : 300); ++i) {
    CompareWithPlainSearch(RandomDrawing(random));
    ASSERT_FALSE(HasFatalFailure()) << "drawing " << i;
  }
}

TEST(RepeatFinderOnEverySmallDrawing, AgreesWithAPlainSearch) {
  const int rows = 4;
  const int stitches = 4;
  for (uint32_t bits = 0; bits < uint32_t{1} << (rows * stitches); bits += kExhaustive ? 1 : 61) {
    Design drawing;
    drawing.convention = (bits & 1) != 0 ? Convention::kPicture : Convention::kWorking;
    drawing.cells = Grid(rows, stitches);
    for (int row = 1; row <= rows; ++row) {
      drawing.cells.mutable_row(row)[0] = bits >> ((row - 1) * stitches) & 15;
    }
    CompareWithPlainSearch(drawing);
    ASSERT_FALSE(HasFatalFailure()) << bits;
  }
}

TEST(RepeatFinder, TellsPicturesThatNameTheirColoursApart) {
  Design drawing;
  drawing.cells = Grid(6, 4);
  for (int i = 0; i < 2; ++i) {
    drawing.row_colours.insert(drawing.row_colours.end(), {Colour::kA, Colour::kB, Colour::kC});
  }
  for (int row = 1; row <= 6; ++row) {
    for (int stitch = 1; stitch <= 4; ++stitch) {
      drawing.picture_colours.push_back(RowColour(drawing, row));
    }
  }
  drawing.facing = Facing::kOneFace;
  // Marks in the same places, of the same colour in stitches 1 and 3, of another in stitch 2.
  const auto mark = [&](int row, int stitch, Colour colour) {
    drawing.cells.set(row, stitch, true);
    drawing.picture_colours[PictureCell(drawing, row, stitch)] = colour;
  };
  for (const int stitch : {1, 2, 3, 4}) mark(2, stitch, stitch % 2 == 1 ? Colour::kC : Colour::kA);
  ASSERT_TRUE(Validate(drawing).ok()) << Validate(drawing);
  const auto repeats = FindRepeats(drawing);
  ASSERT_TRUE(repeats.ok());
  EXPECT_EQ(repeats->answers.front().stitch_band, (Band{1, 2}));
  for (const RepeatAnswer& answer : repeats->answers) ExpectGivesBack(answer, drawing);
}

TEST(Transposed, ExchangesRowsAndStitches) {
  RandomDesigns random(3);
  for (const auto& [rows, stitches] : {std::pair{1, 1}, {3, 130}, {64, 64}, {65, 63}, {200, 129}}) {
    Grid grid(rows, stitches);
    for (int row = 1; row <= rows; ++row) {
      for (int stitch = 1; stitch <= stitches; ++stitch) grid.set(row, stitch, random.Chance(50));
    }
    const Grid turned = Transposed(grid);
    ASSERT_EQ(turned.rows(), stitches);
    for (int row = 1; row <= rows; ++row) {
      for (int stitch = 1; stitch <= stitches; ++stitch) {
        ASSERT_EQ(turned.at(stitch, row), grid.at(row, stitch));
      }
    }
    ASSERT_EQ(Transposed(turned), grid);
  }
}

}  // namespace
}  // namespace rowproof::chart
