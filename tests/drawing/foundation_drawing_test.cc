// A foundation of worked stitches in its declared colour, below row 1 of charts and faces. A is
// drawn in red, B in blue, C in green.
#include <algorithm>
#include <cmath>
#include <string>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/faces/model.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/png_pixels.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using chart::Colour;
using chart::Facing;
using chart::Side;
using chart::Technique;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr int kCell = 20;

chart::Design OnFoundation(Colour colour) {
  chart::Design design = WorkableF();  // 13 rows of 9 stitches
  design.foundation_colour = colour;
  return design;
}

DrawingRequest Request(DrawingKind kind) {
  DrawingRequest request;
  request.kind = kind;
  request.cell_pixels = kCell;
  request.colours = {{1, 0, 0}, {0, 0, 1}, {0, 1, 0}};
  request.gauge = DrawnGauge{16, 16};
  request.wrong_side_share = 1;
  return request;
}

std::string Draw(const chart::Design& design, const DrawingRequest& request, DrawingFormat format) {
  auto bytes = DrawChart(design, request, format);
  EXPECT_TRUE(bytes.ok()) << bytes.status();
  return bytes.ok() ? *bytes : "";
}

bool IsGreen(const Pixel& p) { return p.green > p.red + 40 && p.green > p.blue + 40; }

// The box of green pixels that is as wide as the fabric.
struct Strip {
  int left = 0;
  int width = 0;
  int top = -1;
  int height = 0;
};
Strip GreenStrip(const PngPixels& png) {
  Strip strip;
  for (int y = 0; y < png.height(); ++y) {
    int run = 0;
    int longest = 0;
    int left = 0;
    for (int x = 0; x < png.width(); ++x) {
      run = IsGreen(png.at(x, y)) ? run + 1 : 0;
      if (run > longest) longest = run, left = x - run + 1;
    }
    if (longest < 8 * kCell) continue;
    strip.left = left;
    if (strip.top < 0) strip.top = y;
    strip.width = std::max(strip.width, longest);
    strip.height = y + 1 - strip.top;
  }
  return strip;
}

TEST(FoundationInAPictureChart, IsAStripOfItsColourBelowRowOne) {
  const PngPixels png(
      Draw(OnFoundation(Colour::kC), Request(DrawingKind::kPictureChart), DrawingFormat::kPng));
  const Strip strip = GreenStrip(png);
  EXPECT_NEAR(strip.width, 9 * kCell, 4);
  EXPECT_NEAR(strip.height, 0.6 * kCell, 4);
  // Right above it lies row 1, in A.
  const Pixel above = png.at(strip.left + strip.width / 2 + 3, strip.top - kCell / 2);
  EXPECT_GT(above.red, above.green + 100);
  // Without a declared foundation there is none.
  const PngPixels without(
      Draw(WorkableF(), Request(DrawingKind::kPictureChart), DrawingFormat::kPng));
  EXPECT_EQ(GreenStrip(without).width, 0);
  EXPECT_GT(png.height(), without.height() + 10);
}

TEST(FoundationInAChart, IsNumberedAndNamedInBothHands) {
  for (const auto kind : {DrawingKind::kPictureChart, DrawingKind::kWorkingChart}) {
    for (const chart::Hand hand : {chart::Hand::kRight, chart::Hand::kLeft}) {
      for (const int first : {1, 2}) {
        chart::Design design = OnFoundation(Colour::kC);
        design.first_row_number = first;  // some writers count the foundation as row 1
        DrawingRequest request = Request(kind);
        request.hand = hand;
        const DrawnFile file(Draw(design, request, DrawingFormat::kPdf), ".pdf");
        const std::string zero = std::to_string(first - 1);
        const std::string one = std::to_string(first);
        EXPECT_THAT(file.Text(),
                    HasSubstr("Strip below row " + one + ": the worked foundation (row " + zero +
                              ") in colour C."));
        // Its number stands below row 1's, at the edge where that starts; the letter beside it.
        double middle = 0;
        for (const Word& word : file.Words()) {
          if (word.text == "RS" && word.middle() > middle) middle = word.middle();
        }
        ASSERT_GT(middle, 0);
        Word number_of_one;
        Word number_of_zero;
        Word letter;
        for (const Word& word : file.Words()) {
          if (word.text == one && std::abs(word.middle() - middle) < 2) number_of_one = word;
        }
        for (const Word& word : file.Words()) {
          const double below = word.middle() - middle;
          if (below < 4 || below > 20) continue;
          if (word.text == zero && std::abs(word.left - number_of_one.left) < 12) {
            number_of_zero = word;
          }
          if (word.text == "C") letter = word;
        }
        ASSERT_FALSE(number_of_zero.text.empty()) << first;
        ASSERT_FALSE(letter.text.empty());
        EXPECT_EQ(letter.left < number_of_zero.left, hand == chart::Hand::kRight);
        EXPECT_LT(std::abs(letter.left - number_of_zero.left), 40);
      }
    }
  }
}

TEST(FoundationInAFace, IsTheLowestRowOfTheFabric) {
  for (const auto kind : {DrawingKind::kFaceOne, DrawingKind::kFaceTwo}) {
    const chart::Design design = OnFoundation(Colour::kC);
    const PngPixels png(Draw(design, Request(kind), DrawingFormat::kPng));
    const Strip strip = GreenStrip(png);
    EXPECT_NEAR(strip.width, 9 * kCell, 1);
    EXPECT_NEAR(strip.height, kCell, 1);
    EXPECT_FALSE(IsGreen(png.at(strip.left + strip.width / 2, strip.top - 2)));
    // Below it there is no more fabric, and above lie thirteen rows.
    const PngPixels without(Draw(WorkableF(), Request(kind), DrawingFormat::kPng));
    EXPECT_GE(png.height(), without.height() + kCell);
  }
}

TEST(FoundationInAFace, HasTheSideOfTheRowBeforeRowOneAndSaysThatThisIsAssumed) {
  struct Way {
    Technique technique;
    Facing facing;
    Side side;
  };
  for (const Way& way : {Way{Technique::kSpike, Facing::kOneFace, Side::kRightSide},
                         {Technique::kSpike, Facing::kTwoFace, Side::kWrongSide},
                         {Technique::kSpike, Facing::kPaired, Side::kWrongSide},
                         {Technique::kOverlay, Facing::kOneFace, Side::kRightSide},
                         {Technique::kInset, Facing::kTwoFace, Side::kWrongSide}}) {
    chart::Design design = OnFoundation(Colour::kB);
    design.technique = way.technique;
    design.facing = way.facing;
    for (const auto kind : {DrawingKind::kFaceOne, DrawingKind::kFaceTwo}) {
      const DrawingRequest request = Request(kind);
      const FaceModel model = FaceModel::Make(design, request);
      const int worked = way.technique == Technique::kInset ? 26 : 13;
      ASSERT_EQ(model.rows(), worked + 1);
      EXPECT_EQ(model.strips[0].number, 0);
      EXPECT_EQ(model.strips[1].number, 1);
      EXPECT_EQ(model.strips[0].side, way.side);
      for (int stitch = 1; stitch <= 9; ++stitch) EXPECT_EQ(model.colours[model.At(1, stitch)], 1);
      // The rows above look as they do without it.
      chart::Design on_chain = design;
      on_chain.foundation_colour.reset();
      const FaceModel plain = FaceModel::Make(on_chain, request);
      EXPECT_TRUE(std::equal(plain.colours.begin(), plain.colours.end(), model.colours.begin() + 9,
                             model.colours.end()));
      EXPECT_TRUE(std::equal(plain.looks.begin(), plain.looks.end(), model.looks.begin() + 9,
                             model.looks.end()));
      const DrawnFile file(Draw(design, request, DrawingFormat::kPdf), ".pdf");
      EXPECT_THAT(file.Text(),
                  HasSubstr(std::string("Row 0, at the bottom, is the worked foundation "
                                        "(assumed to be a ") +
                            chart::Name(way.side) + " row)."));
      const DrawnFile chain(Draw(on_chain, request, DrawingFormat::kPdf), ".pdf");
      EXPECT_THAT(chain.Text(), HasSubstr("Not shown: the foundation chain, tails"));
      EXPECT_THAT(chain.Text(), Not(HasSubstr("Row 0")));
    }
  }
}

}  // namespace
}  // namespace rowproof::drawing
