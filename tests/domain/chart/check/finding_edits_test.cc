// The edit of a finding, made alone, ends that finding; and where a finding has none, no change of
// its own cells does. Held against the plain rules.
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/plain_rules.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

// Whether a finding of this code is left at any of the finding's stitches in its row.
bool IsLeft(const Finding& finding, const Design& before, const Design& after,
            const CheckSettings& settings) {
  for (const Finding& left : PlainCheck(after, settings).findings) {
    if (left.code != finding.code || left.row != finding.row) continue;
    for (int stitch = 1; stitch <= before.cells.stitches(); ++stitch) {
      if (Covers(finding, stitch, before) && Covers(left, stitch, after)) return true;
    }
  }
  return false;
}

// The other values of a cell: of a picture that names colours, its row's own for a mark, else those
// of the rows that stand on it somewhere.
std::vector<Edit> Changes(const Design& design, int row, int stitch) {
  const bool value = !design.cells.at(row, stitch);
  if (!NamesColours(design)) return {{row, stitch, value}};
  const Colour own = RowColour(design, row);
  if (!value) return {{row, stitch, false, own}};
  std::vector<Edit> changes;
  for (int above = 1; above <= design.cells.rows(); ++above) {
    const bool repeated =
        design.row_band && above == design.row_band->first && row == design.row_band->last;
    if ((above == row + 1 || repeated) && RowColour(design, above) != own) {
      changes.push_back({row, stitch, true, RowColour(design, above)});
    }
  }
  return changes;
}

struct Tally {
  int with_edit = 0;
  int without = 0;
};

// Looks at the first `most` findings.
void HoldEdits(const Design& design, const CheckSettings& settings, int most, Tally& tally) {
  for (const Finding& finding : Check(design, settings).findings) {
    if (finding.stitch == 0) {
      ASSERT_FALSE(finding.edit.has_value());
      continue;
    }
    if (--most < 0) return;
    if (finding.edit.has_value()) {
      ++tally.with_edit;
      ASSERT_EQ(finding.edit->row, finding.row);
      ASSERT_TRUE(Covers(finding, finding.edit->stitch, design));
      ASSERT_NE(design.cells.at(finding.row, finding.edit->stitch), finding.edit->value);
      Design mended = design;
      Apply(*finding.edit, mended);
      ASSERT_TRUE(Validate(mended).ok()) << Validate(mended);
      ASSERT_FALSE(IsLeft(finding, design, mended, settings)) << Sentence(finding, design);
      continue;
    }
    ++tally.without;
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      if (!Covers(finding, stitch, design)) continue;
      for (const Edit& change : Changes(design, finding.row, stitch)) {
        Design changed = design;
        Apply(change, changed);
        ASSERT_TRUE(IsLeft(finding, design, changed, settings))
            << Sentence(finding, design) << " changed at stitch " << stitch;
      }
    }
  }
}

TEST(EditsOfFindings, EndThemAloneInRandomDesigns) {
  RandomDesigns random(77);
  Tally all;
  for (int i = 0; i < (kExhaustive ? 3000 : 500); ++i) {
    const Design design = random.Chance(80) ? random.NextOfAll(8, 10) : random.NextOfAll(5, 80);
    const CheckSettings settings{random.Pick(0, 6), random.Pick(0, 6), random.Pick(0, 6)};
    HoldEdits(design, settings, 12, all);
    if (HasFatalFailure()) return;
  }
  EXPECT_GT(all.with_edit, kExhaustive ? 500 : 250);
  EXPECT_GT(all.without, kExhaustive ? 50 : 25);
}

// Runs at the seams of a repeated band and at the join of a tube, on every row of up to eight
// stitches, with every band.
TEST(EditsOfFindings, EndRunsAtEverySeamAndJoin) {
  Tally tally;
  for (const Form form : {Form::kFlat, Form::kTube}) {
    for (int stitches = 4; stitches <= (kExhaustive ? 8 : 6); ++stitches) {
      for (int first = 1; first <= stitches; ++first) {
        for (int last = first; last <= stitches; ++last) {
          Design design;
          design.technique = Technique::kOverlay;
          design.form = form;
          design.ends = form == Form::kTube ? Ends::kWaiting : Ends::kCut;
          design.convention = Convention::kWorking;
          design.stitch_band = Band{first, last};
          design.sizes = {{"S", 1, 1}, {"M", 3, 1}};
          design.cells = Grid(3, stitches);
          for (uint64_t row = 0; row < uint64_t{1} << stitches; row += kExhaustive ? 1 : 3) {
            design.cells.mutable_row(3)[0] = row;
            for (const int longest : {1, 2, 3}) {
              HoldEdits(design, {.longest_flap = longest}, 4, tally);
              if (HasFatalFailure()) return;
            }
          }
        }
      }
    }
  }
  EXPECT_GT(tally.with_edit, 1000);
  EXPECT_GT(tally.without, 300);
}

std::optional<Edit> FirstEdit(const Design& design) {
  const auto findings = Check(design).findings;
  return findings.empty() ? std::nullopt : findings.front().edit;
}

TEST(EditsOfFindings, TakeAMarkAway) {
  EXPECT_EQ(FirstEdit(Working({"...", ".x.", "..."})), (Edit{2, 2, false}));
  EXPECT_EQ(FirstEdit(Picture({"BAB", "AAA", "BBB", "AAA"})), (Edit{4, 2, true}));
}

TEST(EditsOfFindings, SetTheDropThatAnEdgeColumnLacks) {
  EXPECT_EQ(FirstEdit(Working({"x..", "...", "...", "...", "x..", "...", "x..", "...", "..."})),
            (Edit{7, 3, true}));
}

TEST(EditsOfFindings, SplitARunInItsMiddleWhereTwoHalvesAreShortEnough) {
  Design design = Working({".xxxxxxx.", ".........", "........."});
  design.ends = Ends::kCarried;
  EXPECT_EQ(FirstEdit(design), (Edit{3, 5, false}));
  design.cells = FromText({".xxxxxxxxxxxx.", "..............", ".............."});
  EXPECT_EQ(FirstEdit(design), std::nullopt);  // twelve: no one stitch leaves five and five
}

TEST(EditsOfFindings, NameTheColourInAPictureThatNamesColours) {
  Design design = Picture({"....", "....", ".x..", "...."});
  design.row_colours = {Colour::kA, Colour::kB, Colour::kC, Colour::kA};
  for (int row = 1; row <= 4; ++row) {
    for (int stitch = 1; stitch <= 4; ++stitch) {
      design.picture_colours.push_back(RowColour(design, row));
    }
  }
  design.picture_colours[PictureCell(design, 2, 3)] = Colour::kA;
  ASSERT_TRUE(Validate(design).ok());
  const CheckResult result = Check(design);
  ASSERT_EQ(result.findings.front().code, FindingCode::kForeignColour);
  EXPECT_EQ(result.findings.front().edit, (Edit{2, 3, false, Colour::kB}));
}

}  // namespace
}  // namespace rowproof::chart
