// Colours A to H of a chart: told apart in grey and by shape, named in the key and at their rows.
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/palette.h"
#include "tests/drawing/drawn_chart.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/png_pixels.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using ::testing::HasSubstr;

int Unlike(const std::vector<bool>& a, const std::vector<bool>& b) {
  int unlike = 0;
  for (size_t i = 0; i < a.size(); ++i) unlike += a[i] != b[i] ? 1 : 0;
  return unlike;
}

TEST(Palette, KeepsAAndBFarApartInGrey) {
  // A photocopy keeps 0.6 of the whole range between them; the marks differ in shape as well.
  const Palette palette = PaletteOf(DrawingRequest{});
  EXPECT_GT(Lightness(palette[0]) - Lightness(palette[1]), 0.6);
  EXPECT_GT(Lightness(Tints()[0]) - Lightness(Tints()[1]), 0.2);
}

TEST(PictureChart, TellsEightColoursApartByShapeAloneOrByTone) {
  DrawingRequest request;
  request.kind = DrawingKind::kPictureChart;
  const chart::Design design = EightColours();
  const DrawnCells cells(design, request);
  // Stitch 1 is plain: rows 1 to 8 show A to H.
  for (int a = 1; a <= 8; ++a) {
    for (int b = a + 1; b <= 8; ++b) {
      EXPECT_GT(Unlike(cells.Shape(a, 1), cells.Shape(b, 1)), 20)
          << chart::Name(chart::RowColour(design, a)) << " and "
          << chart::Name(chart::RowColour(design, b));
    }
  }
  // The wedge stands out on every one of them: in row r, stitch 4 or 8 is of the next row's colour.
  for (int row = 2; row <= 15; ++row) {
    const int off = row % 2 == 0 ? 8 : 4;
    const int plain = row % 2 == 0 ? 10 : 8;
    ASSERT_TRUE(design.cells.at(row, off));
    ASSERT_FALSE(design.cells.at(row, plain));
    const double contrast =
        std::abs(cells.At(row, off, 0.5, 0.33).Lightness() - cells.Ground(row, off));
    EXPECT_GT(contrast, 80) << row;
  }
}

TEST(PictureChart, ShowsTheColourThatEachCellNames) {
  DrawingRequest request;
  request.kind = DrawingKind::kPictureChart;
  const chart::Design design = EightColours();
  const DrawnCells cells(design, request);
  const Palette palette = PaletteOf(request);
  for (int row = 1; row <= 16; ++row) {
    for (int stitch = 1; stitch <= 20; ++stitch) {
      const Rgb wanted =
          palette[IndexOf(design.picture_colours[chart::PictureCell(design, row, stitch)])];
      const Pixel seen = cells.At(row, stitch, 0.14, 0.3);
      EXPECT_NEAR(seen.red, 255 * wanted.red, 1) << row << " " << stitch;
      EXPECT_NEAR(seen.green, 255 * wanted.green, 1) << row << " " << stitch;
      EXPECT_NEAR(seen.blue, 255 * wanted.blue, 1) << row << " " << stitch;
    }
  }
}

TEST(Chart, NamesEightColoursInTheKeyAndAtTheirRows) {
  DrawingRequest request;
  request.names = {"Oat", "Ink", "Clay", "Moss", "Mist", "Plum", "Honey", "Ash"};
  for (const auto kind : {DrawingKind::kPictureChart, DrawingKind::kWorkingChart}) {
    request.kind = kind;
    const DrawnFile file(Draw(EightColours(), request, DrawingFormat::kPdf), ".pdf");
    const std::string text = file.Text();
    std::map<std::string, int> letters;
    for (const Word& word : file.Words()) {
      if (word.text.size() == 1 && word.left > 595.276 / 2) ++letters[word.text];
    }
    for (size_t i = 0; i < 8; ++i) {
      EXPECT_THAT(text, HasSubstr(fmt::format("colour {}, {}", LetterOf(i), request.names[i])));
      EXPECT_EQ(letters[LetterOf(i)], 2) << i;  // two rows of each
    }
  }
}

}  // namespace
}  // namespace rowproof::drawing
