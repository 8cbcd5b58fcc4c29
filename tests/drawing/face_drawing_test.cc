// Faces of the finished fabric, read back pixel by pixel. A is drawn in pure red and B in pure
// blue, so that fabric is told from paper, words and one colour from the other without knowing how
// a stitch is drawn.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/faces/model.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/png_pixels.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using chart::Ends;
using chart::Facing;
using chart::Form;
using chart::Technique;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr int kCell = 24;

struct Manner {
  const char* name;
  Technique technique;
  Facing facing;
  Ends ends;
  Form form;
};
constexpr std::array<Manner, 6> kManners = {{
    {"spike, one-face", Technique::kSpike, Facing::kOneFace, Ends::kCut, Form::kFlat},
    {"spike, two-face", Technique::kSpike, Facing::kTwoFace, Ends::kCarried, Form::kFlat},
    {"spike, paired", Technique::kSpike, Facing::kPaired, Ends::kWaiting, Form::kFlat},
    {"spike, tube", Technique::kSpike, Facing::kOneFace, Ends::kWaiting, Form::kTube},
    {"overlay", Technique::kOverlay, Facing::kOneFace, Ends::kCut, Form::kFlat},
    {"inset", Technique::kInset, Facing::kTwoFace, Ends::kWaiting, Form::kFlat},
}};

chart::Design LetterIn(const Manner& manner) {
  chart::Design design = WorkableF();
  design.technique = manner.technique;
  design.facing = manner.facing;
  design.ends = manner.ends;
  design.form = manner.form;
  return design;
}

DrawingRequest Face(int face) {
  DrawingRequest request;
  request.kind = face == 1 ? DrawingKind::kFaceOne : DrawingKind::kFaceTwo;
  request.cell_pixels = kCell;
  request.colours = {{1, 0, 0}, {0, 0, 1}};
  request.gauge = DrawnGauge{16, 16};
  return request;
}

bool IsRed(const Pixel& p) { return p.red > p.blue + 40; }
bool IsBlue(const Pixel& p) { return p.blue > p.red + 40; }

// The fabric in a picture: the first box of coloured pixels from the top.
class Fabric {
 public:
  Fabric(const chart::Design& design, const DrawingRequest& request)
      : png_(Bytes(design, request)) {
    for (int y = 0; y < png_.height() && top_ < 0; ++y) {
      for (int x = 0; x < png_.width(); ++x) {
        if (!Coloured(x, y)) continue;
        top_ = y;
        left_ = x;
        break;
      }
    }
    EXPECT_GE(top_, 0) << "no fabric in the picture";
    while (left_ + width_ < png_.width() && Coloured(left_ + width_, top_)) ++width_;
    while (top_ + height_ < png_.height() && Coloured(left_, top_ + height_)) ++height_;
  }

  int width() const { return width_; }
  int height() const { return height_; }
  Pixel at(int x, int y) const { return png_.at(left_ + x, top_ + y); }

  // Share of blue in a box of the fabric, less a pixel at its edges.
  double Blue(double left, double top, double width, double height) const {
    int blue = 0;
    int all = 0;
    for (int y = static_cast<int>(top) + 1; y < static_cast<int>(top + height) - 1; ++y) {
      for (int x = static_cast<int>(left) + 1; x < static_cast<int>(left + width) - 1; ++x) {
        blue += IsBlue(at(x, y)) ? 1 : 0;
        ++all;
      }
    }
    EXPECT_GT(all, 0);
    return static_cast<double>(blue) / all;
  }
  // The same of column `column` from the left, strip `strip` from the bottom, strips of one height.
  double BlueCell(int strip, int column, double high = kCell) const {
    return Blue(column * kCell, height_ - strip * high, kCell, high);
  }

 private:
  static std::string Bytes(const chart::Design& design, const DrawingRequest& request) {
    auto bytes = DrawChart(design, request, DrawingFormat::kPng);
    EXPECT_TRUE(bytes.ok()) << bytes.status();
    return bytes.ok() ? *bytes : "";
  }
  bool Coloured(int x, int y) const {
    const Pixel p = png_.at(x, y);
    return IsRed(p) || IsBlue(p);
  }

  PngPixels png_;
  int top_ = -1;
  int left_ = -1;
  int width_ = 0;
  int height_ = 0;
};

// A picture's cell looks B or A in the face's box: all of it, whatever the stitches look like.
void ExpectPicture(const Fabric& fabric, const chart::Design& design, int worked_rows,
                   bool mirrored, const std::string& where) {
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      const int column = mirrored ? stitch - 1 : design.cells.stitches() - stitch;
      for (int k = 0; k < worked_rows; ++k) {
        const double blue = fabric.BlueCell(worked_rows * (row - 1) + k + 1, column);
        EXPECT_EQ(blue > 0.5, design.cells.at(row, stitch)) << where << " " << row << " " << stitch;
        EXPECT_TRUE(blue < 0.02 || blue > 0.98) << where << " " << row << " " << stitch;
      }
    }
  }
}

TEST(FaceOne, ShowsTheLetterUprightInEveryTechniqueAndFacingForBothHands) {
  for (const Manner& manner : kManners) {
    const chart::Design design = LetterIn(manner);
    const int worked = manner.technique == Technique::kInset ? 2 : 1;
    for (const chart::Hand hand : {chart::Hand::kRight, chart::Hand::kLeft}) {
      DrawingRequest request = Face(1);
      request.hand = hand;
      request.wrong_side_share = 1;
      const Fabric fabric(design, request);
      EXPECT_EQ(fabric.width(), 9 * kCell) << manner.name;
      EXPECT_EQ(fabric.height(), 13 * worked * kCell) << manner.name;
      ExpectPicture(fabric, design, worked, false, manner.name);
    }
  }
}

TEST(FaceTwo, ShowsTheLetterMirroredWhereSpikesCoverBothFaces) {
  for (const Manner& manner : kManners) {
    if (manner.technique != Technique::kSpike) continue;
    const chart::Design design = LetterIn(manner);
    DrawingRequest request = Face(2);
    request.wrong_side_share = 1;
    ExpectPicture(Fabric(design, request), design, 1, true, manner.name);
  }
}

TEST(FaceTwo, ShowsOverlayInStripesOfOneRow) {
  const chart::Design design = LetterIn(kManners[4]);
  const Fabric fabric(design, Face(2));
  for (int row = 1; row <= 13; ++row) {
    for (int column = 0; column < 9; ++column) {
      EXPECT_EQ(fabric.BlueCell(row, column), row % 2 == 0 ? 1 : 0) << row << " " << column;
    }
  }
}

TEST(FaceTwo, ShowsInsetInStripesOfTwoRows) {
  const chart::Design design = LetterIn(kManners[5]);
  const Fabric fabric(design, Face(2));
  for (int row = 1; row <= 26; ++row) {
    for (int column = 0; column < 9; ++column) {
      EXPECT_EQ(fabric.BlueCell(row, column), (row - 1) / 2 % 2 == 1 ? 1 : 0)
          << row << " " << column;
    }
  }
}

// Where two cells of one colour differ in their drawing, by the greatest difference of a pixel.
double Difference(const Fabric& fabric, int strip, int column, int other_strip, int other_column) {
  double most = 0;
  for (int y = 1; y < kCell - 1; ++y) {
    for (int x = 1; x < kCell - 1; ++x) {
      const Pixel a = fabric.at(column * kCell + x, fabric.height() - strip * kCell + y);
      const Pixel b =
          fabric.at(other_column * kCell + x, fabric.height() - other_strip * kCell + y);
      most = std::max(most, std::abs(a.Lightness() - b.Lightness()));
    }
  }
  return most;
}

TEST(Face, DrawsRightAndWrongSideRowsApart) {
  // Paired: row 1 RS and row 3 WS, both A and plain; row 1 again is like itself in every column.
  const Fabric one(LetterIn(kManners[2]), Face(1));
  EXPECT_EQ(Difference(one, 1, 0, 1, 5), 0);
  EXPECT_GT(Difference(one, 1, 4, 3, 4), 8);
  // Seen from behind they change places: row 3 looks as row 1 did, but for the loops on its top.
  const Fabric two(LetterIn(kManners[2]), Face(2));
  EXPECT_GT(Difference(two, 1, 4, 3, 4), 8);
  // Inset: the two rows of one colour.
  const Fabric inset(LetterIn(kManners[5]), Face(1));
  EXPECT_GT(Difference(inset, 1, 4, 2, 4), 8);
  // Overlay: every row is a RS row, and rows of one colour are alike (but for the rounding of
  // strokes that lie elsewhere).
  const Fabric overlay(LetterIn(kManners[4]), Face(1));
  EXPECT_LT(Difference(overlay, 3, 8, 5, 8), 2);
}

TEST(Face, DrawsChainsOverTheSkippedStitchesOfInsetFromBehind) {
  const chart::Design design = LetterIn(kManners[5]);
  const Fabric fabric(design, Face(2));
  // Chart row 4 is worked rows 7 and 8: stitch 5 is skipped there, stitch 7 is worked.
  EXPECT_GT(Difference(fabric, 7, 4, 7, 6), 8);
  EXPECT_GT(Difference(fabric, 8, 4, 8, 6), 8);
  const FaceModel model = FaceModel::Make(design, Face(2));
  int chains = 0;
  for (int stitch = 1; stitch <= 9; ++stitch) {
    const bool off = design.cells.at(4, stitch) != true;  // row 4 is B
    EXPECT_EQ(model.looks[model.At(7, stitch)] == StitchLook::kChain, off) << stitch;
    EXPECT_EQ(model.looks[model.At(8, stitch)] == StitchLook::kChain, off) << stitch;
    chains += off ? 1 : 0;
  }
  EXPECT_EQ(chains, 6);
}

TEST(Face, HasTheProportionsOfTheGauge) {
  const chart::Design design = LetterIn(kManners[0]);
  for (const auto& [stitches, rows] : {std::pair{10.0, 20.0}, {20.0, 10.0}, {14.0, 16.0}}) {
    DrawingRequest request = Face(1);
    request.gauge = DrawnGauge{stitches, rows};
    const Fabric fabric(design, request);
    EXPECT_EQ(fabric.width(), 9 * kCell);
    EXPECT_NEAR(fabric.height(), 13 * kCell * stitches / rows, 1) << stitches;
  }
}

// Heights of the stripes down the edge at stitch 1, which shows each row's own colour; top first.
std::vector<int> EdgeStripes(const Fabric& fabric, bool mirrored) {
  const int x = mirrored ? 0 : fabric.width() - 1;
  std::vector<int> runs;
  bool blue = false;
  for (int y = 0; y < fabric.height(); ++y) {
    const bool now = IsBlue(fabric.at(x, y));
    if (runs.empty() || now != blue) runs.push_back(0);
    blue = now;
    ++runs.back();
  }
  return runs;
}

TEST(Face, ShowsTheSetShareOfEachWrongSideRowInTwoFaceWork) {
  const chart::Design design = LetterIn(kManners[1]);
  for (const double share : {0.25, 0.5, 1.0}) {
    for (const int face : {1, 2}) {
      DrawingRequest request = Face(face);
      request.wrong_side_share = share;
      const std::vector<int> stripes = EdgeStripes(Fabric(design, request), face == 2);
      ASSERT_EQ(stripes.size(), 13u);
      // Face 1: the 6 WS rows are the even ones. Face 2: the 7 odd ones have that part.
      const int hidden = face == 1 ? 6 : 7;
      const double rest = (13 - hidden * share) / (13 - hidden);
      for (int row = 1; row <= 13; ++row) {
        const bool away = (row % 2 == 0) == (face == 1);
        EXPECT_NEAR(stripes[static_cast<size_t>(13 - row)], kCell * (away ? share : rest), 1.01)
            << share << " face " << face << " row " << row;
      }
    }
  }
  // Nothing but two-face work is drawn so.
  DrawingRequest request = Face(1);
  request.wrong_side_share = 0.25;
  for (const int stripe : EdgeStripes(Fabric(LetterIn(kManners[2]), request), false)) {
    EXPECT_EQ(stripe, kCell);
  }
}

std::string Words(const chart::Design& design, const DrawingRequest& request) {
  auto bytes = DrawChart(design, request, DrawingFormat::kPdf);
  EXPECT_TRUE(bytes.ok()) << bytes.status();
  if (!bytes.ok()) return "";
  const DrawnFile file(*bytes, ".pdf");
  file.Run("qpdf --check FILE");
  EXPECT_EQ(file.PageCount(), 1);
  return file.Text();
}

TEST(FaceCaption, SaysWhatIsSeenAndWhatIsAssumed) {
  const chart::Design two_face = LetterIn(kManners[1]);
  DrawingRequest request;
  request.kind = DrawingKind::kFaceTwo;
  const std::string assumed = Words(two_face, request);
  EXPECT_THAT(assumed, HasSubstr("Face 2 of the finished fabric, seen from behind"));
  EXPECT_THAT(assumed, HasSubstr("stitch 1 is at the left"));
  EXPECT_THAT(assumed, HasSubstr("the picture shows here too, mirrored"));
  EXPECT_THAT(assumed, HasSubstr("The colours of the WS rows lead."));
  EXPECT_THAT(assumed, HasSubstr("No gauge was given; assumed proportions: 14 "
                                 "stitches and 16 rows in 100 mm."));
  EXPECT_THAT(assumed, HasSubstr("Assumed: 40 % of a RS row's height shows"));
  request.kind = DrawingKind::kFaceOne;
  request.gauge = DrawnGauge{12.5, 7.25};
  request.wrong_side_share = 0.3;
  const std::string given = Words(two_face, request);
  EXPECT_THAT(given, HasSubstr("Proportions of the gauge: 12.5 stitches and 7.25 rows"));
  EXPECT_THAT(given, HasSubstr("As set: 30 % of a WS row's height shows"));
  EXPECT_THAT(given, Not(HasSubstr("ssumed")));
  request.kind = DrawingKind::kFaceTwo;
  EXPECT_THAT(Words(LetterIn(kManners[4]), request), HasSubstr("plain stripes of one row."));
  EXPECT_THAT(Words(LetterIn(kManners[5]), request), HasSubstr("plain stripes of two rows"));
}

TEST(FaceCaption, CountsTheCellsThatCannotLookAsDrawn) {
  DrawingRequest request;
  request.kind = DrawingKind::kFaceOne;
  EXPECT_THAT(Words(WorkableF(), request), Not(HasSubstr("cannot be worked")));
  chart::Design design = WorkableF();
  design.cells.set(13, 5, true);  // B in the last row, which is A: nothing covers it
  EXPECT_THAT(Words(design, request), HasSubstr("1 cell of the picture cannot be worked as drawn"));
}

TEST(Face, ShowsOneSizeWithItsBandsWrittenOut) {
  chart::Design design = WorkableF();
  design.stitch_band = chart::Band{3, 3};
  design.row_band = chart::Band{5, 6};
  design.sizes = {{"narrow", 1, 1}, {"wide", 4, 3}};
  DrawingRequest request = Face(1);
  EXPECT_EQ(Fabric(design, request).width(), 9 * kCell);
  request.size = 1;
  request.wrong_side_share = 1;
  const Fabric fabric(design, request);
  EXPECT_EQ(fabric.width(), 12 * kCell);
  EXPECT_EQ(fabric.height(), 17 * kCell);
  EXPECT_THAT(Words(design, request), HasSubstr("Size wide: 17 rows of 12 stitches."));
}

TEST(Face, IsRefusedWhereItWouldBeTooLarge) {
  const chart::Design design = SampleDesign(4000, 4000, chart::Convention::kWorking);
  for (const auto kind : {DrawingKind::kFaceOne, DrawingKind::kFaceTwo}) {
    for (const auto format : {DrawingFormat::kPng, DrawingFormat::kSvg, DrawingFormat::kPdf}) {
      DrawingRequest request;
      request.kind = kind;
      EXPECT_EQ(DrawChart(design, request, format).status().code(),
                absl::StatusCode::kResourceExhausted);
    }
  }
}

TEST(Face, GivesTheSameBytesEachTime) {
  const chart::Design design = LetterIn(kManners[5]);
  for (const auto format : {DrawingFormat::kPng, DrawingFormat::kSvg, DrawingFormat::kPdf}) {
    const auto first = DrawChart(design, Face(2), format);
    ASSERT_TRUE(first.ok());
    ASSERT_TRUE(DrawChart(LetterF(), Face(1), format).ok());
    EXPECT_EQ(*DrawChart(design, Face(2), format), *first);
  }
}

TEST(Face, IsWellFormedSvg) {
  const auto svg = DrawChart(LetterIn(kManners[1]), Face(1), DrawingFormat::kSvg);
  ASSERT_TRUE(svg.ok()) << svg.status();
  const DrawnFile file(*svg, ".svg");
  EXPECT_THAT(file.Run("python3 -c \"import sys, xml.dom.minidom as m; "
                       "print(m.parse(sys.argv[1]).documentElement.tagName)\" FILE"),
              ::testing::StartsWith("svg"));
}

}  // namespace
}  // namespace rowproof::drawing
