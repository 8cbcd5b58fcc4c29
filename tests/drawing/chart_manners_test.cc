// The letter F as a chart: every cell, mark and label in its place, in both hands and in every
// technique, facing and form.
#include <array>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/drawing/charts/drawing.h"
#include "tests/drawing/drawn_chart.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using chart::Ends;
using chart::Facing;
using chart::Form;
using chart::Hand;
using chart::Technique;
using ::testing::HasSubstr;

struct Manner {
  const char* name;
  Technique technique;
  Facing facing;
  Ends ends;
  Form form;
  // Whether worked row r (index (r-1) % 4) is a RS row, by the words of the rules.
  std::array<bool, 4> right_side;
};
constexpr std::array<Manner, 6> kManners = {{
    {"spike, one-face",
     Technique::kSpike,
     Facing::kOneFace,
     Ends::kCut,
     Form::kFlat,
     {true, true, true, true}},
    {"spike, two-face",
     Technique::kSpike,
     Facing::kTwoFace,
     Ends::kCarried,
     Form::kFlat,
     {true, false, true, false}},
    {"spike, paired",
     Technique::kSpike,
     Facing::kPaired,
     Ends::kWaiting,
     Form::kFlat,
     {true, true, false, false}},
    {"spike, tube",
     Technique::kSpike,
     Facing::kOneFace,
     Ends::kWaiting,
     Form::kTube,
     {true, true, true, true}},
    {"overlay",
     Technique::kOverlay,
     Facing::kOneFace,
     Ends::kCut,
     Form::kFlat,
     {true, true, true, true}},
    {"inset",
     Technique::kInset,
     Facing::kTwoFace,
     Ends::kWaiting,
     Form::kFlat,
     {true, false, true, false}},
}};

chart::Design LetterIn(const Manner& manner) {
  chart::Design design = WorkableF();
  design.technique = manner.technique;
  design.facing = manner.facing;
  design.ends = manner.ends;
  design.form = manner.form;
  return design;
}

TEST(PictureChart, HasTheLettersCellsInTheirPlacesInEveryMannerForBothHands) {
  for (const Manner& manner : kManners) {
    for (const Hand hand : {Hand::kRight, Hand::kLeft}) {
      DrawingRequest request;
      request.kind = DrawingKind::kPictureChart;
      request.hand = hand;
      const chart::Design design = LetterIn(manner);
      const DrawnCells cells(design, request);
      for (int row = 1; row <= 13; ++row) {
        for (int stitch = 1; stitch <= 9; ++stitch) {
          const bool b = design.cells.at(row, stitch);
          EXPECT_EQ(cells.Ground(row, stitch) < 100, b) << manner.name << row << " " << stitch;
          // Off-colour cells carry the wedge, by contrast with their ground.
          const double mark = cells.At(row, stitch, 0.5, 0.4).Lightness();
          EXPECT_EQ(std::abs(mark - cells.Ground(row, stitch)) > 100, b != (row % 2 == 0))
              << manner.name << row << " " << stitch;
        }
      }
    }
  }
}

TEST(WorkingChart, HasDropsOneRowHigherAndChainsOverTheSkipsOfInset) {
  for (const Manner& manner : kManners) {
    DrawingRequest request;
    request.kind = DrawingKind::kWorkingChart;
    const chart::Design design = LetterIn(manner);
    const DrawnCells cells(design, request);
    const bool inset = manner.technique == Technique::kInset;
    int drops = 0;
    int chains = 0;
    const auto off = [&](int row, int stitch) {
      return row >= 1 && design.cells.at(row, stitch) != (row % 2 == 0);
    };
    for (int row = 1; row <= 13; ++row) {
      for (int stitch = 1; stitch <= 9; ++stitch) {
        // The wedge is dark high in the cell, the links dark at their ends and open inside.
        const bool wedge = cells.At(row, stitch, 0.5, 0.2).Lightness() < 60;
        const bool link = !wedge && cells.At(row, stitch, 0.09, 0.5).Lightness() < 110;
        EXPECT_EQ(wedge, off(row - 1, stitch)) << manner.name << " " << row << " " << stitch;
        EXPECT_EQ(link, inset && off(row, stitch)) << manner.name << " " << row << " " << stitch;
        drops += wedge ? 1 : 0;
        chains += link ? 1 : 0;
      }
    }
    EXPECT_EQ(drops, 27) << manner.name;
    EXPECT_EQ(chains, inset ? 27 : 0) << manner.name;
  }
}

TEST(Chart, NumbersEachWorkedRowAtTheEdgeWhereItStartsInEveryMannerForBothHands) {
  for (const Manner& manner : kManners) {
    for (const Hand hand : {Hand::kRight, Hand::kLeft}) {
      DrawingRequest request;
      request.kind = DrawingKind::kWorkingChart;
      request.hand = hand;
      const DrawnFile file(Draw(LetterIn(manner), request, DrawingFormat::kPdf), ".pdf");
      const std::vector<ReadRowLabel> labels = RowLabelsOf(file);
      std::set<int> numbers;
      for (const ReadRowLabel& label : labels) {
        numbers.insert(label.number);
        const bool rs = manner.right_side[static_cast<size_t>((label.number - 1) % 4)];
        EXPECT_EQ(label.right_side, rs) << manner.name << " row " << label.number;
        EXPECT_EQ(label.at_right, rs == (hand == Hand::kRight))
            << manner.name << " row " << label.number;
      }
      const size_t rows = manner.technique == Technique::kInset ? 26 : 13;
      EXPECT_EQ(labels.size(), rows) << manner.name;
      EXPECT_EQ(numbers.size(), rows) << manner.name;
      EXPECT_EQ(*numbers.rbegin(), static_cast<int>(rows)) << manner.name;
      if (manner.form == Form::kTube) {
        EXPECT_THAT(file.Text(), HasSubstr("read every round in the direction of the arrow"));
      }
      if (hand == Hand::kLeft) {
        EXPECT_THAT(file.Text(), HasSubstr("numbered for left-"));
      }
    }
  }
}

}  // namespace
}  // namespace rowproof::drawing
