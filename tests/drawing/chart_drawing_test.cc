#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <set>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/charts/pages.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using chart::Convention;
using chart::Hand;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::StartsWith;

DrawingRequest Options() {
  DrawingRequest options;
  options.title = "Tideline Throw (invented)";
  options.date = "2026-11-25";
  return options;
}

std::string Pdf(const chart::Design& design, const DrawingRequest& options) {
  auto bytes = DrawChart(design, options, DrawingFormat::kPdf);
  EXPECT_TRUE(bytes.ok()) << bytes.status();
  return bytes.ok() ? *bytes : "";
}

// A picture of a chart with its cells found again by their frame, not by the drawing's own sums:
// the topmost and leftmost long dark lines.
class CellsOfPicture {
 public:
  CellsOfPicture(const chart::Design& design, const DrawingRequest& options, int cell)
      : cell_(cell), rows_(design.cells.rows()), stitches_(design.cells.stitches()) {
    DrawingRequest request = options;
    request.cell_pixels = cell;
    auto bytes = DrawChart(design, request, DrawingFormat::kPng);
    EXPECT_TRUE(bytes.ok()) << bytes.status();
    image_ = DrawnFile(*bytes, ".png").Grey();
    const int wide = stitches_ * cell;
    for (int y = 0; y < image_.height && top_ < 0; ++y) {
      int run = 0;
      for (int x = 0; x < image_.width && top_ < 0; ++x) {
        run = image_.at(x, y) < 60 ? run + 1 : 0;
        if (run == wide) top_ = y, left_ = x - wide + 1;
      }
    }
    EXPECT_GE(top_, 0) << "no frame in the picture";
  }

  // Grey at a place in a cell, in fractions of the cell from its left and top edge. 2 pixels of
  // frame lie half inside the cells.
  int At(int row, int stitch, double right, double down) const {
    const int x = left_ + 1 + static_cast<int>((stitches_ - stitch + right) * cell_);
    const int y = top_ + 1 + static_cast<int>((rows_ - row + down) * cell_);
    return image_.at(x, y);
  }
  // The ground, beside any mark.
  int Ground(int row, int stitch) const { return At(row, stitch, 0.15, 0.8); }

 private:
  int cell_;
  int rows_;
  int stitches_;
  int top_ = -1;
  int left_ = -1;
  GreyImage image_;
};

TEST(ChartPng, ShowsALetterFTheRightWayRound) {
  const chart::Design design = LetterF();
  const CellsOfPicture picture(design, Options(), 20);
  // Read on paper, the letter's stem is at the left, which is stitch 6 of 7, and its top is row 8.
  for (int row = 2; row <= 8; ++row) EXPECT_LT(picture.Ground(row, 6), 100) << row;
  for (int stitch = 2; stitch <= 6; ++stitch) EXPECT_LT(picture.Ground(8, stitch), 100) << stitch;
  for (int row = 2; row <= 7; ++row) EXPECT_GT(picture.Ground(row, 2), 180) << row;
  EXPECT_LT(picture.Ground(5, 3), 100);
  EXPECT_GT(picture.Ground(3, 3), 180);
  int dark = 0;
  for (int row = 1; row <= 9; ++row) {
    for (int stitch = 1; stitch <= 7; ++stitch) {
      const bool is_dark = picture.Ground(row, stitch) < 100;
      EXPECT_EQ(is_dark, design.cells.at(row, stitch)) << row << " " << stitch;
      dark += is_dark ? 1 : 0;
    }
  }
  EXPECT_EQ(dark, 14);
}

TEST(ChartPng, MarksADropInAWorkingChartSoThatGreyShowsIt) {
  const chart::Design design = SampleDesign(20, 21, Convention::kWorking);
  const CellsOfPicture picture(design, Options(), 20);
  int drops = 0;
  for (int row = 1; row <= 20; ++row) {
    for (int stitch = 1; stitch <= 21; ++stitch) {
      const int middle = picture.At(row, stitch, 0.5, 0.35);
      if (design.cells.at(row, stitch)) {
        EXPECT_LT(middle, 60) << row << " " << stitch;
        ++drops;
      } else {
        EXPECT_GT(middle, 150) << row << " " << stitch;
      }
    }
  }
  EXPECT_GT(drops, 40);
  // Rows of A and B differ in their ground.
  EXPECT_GT(picture.Ground(1, 1) - picture.Ground(2, 1), 40);
}

TEST(ChartPng, MarksAnOffColourCellOfAPictureByItsShape) {
  const chart::Design design = SampleDesign(20, 21, Convention::kPicture);
  const CellsOfPicture picture(design, Options(), 20);
  for (int row = 1; row <= 20; ++row) {
    for (int stitch = 1; stitch <= 21; ++stitch) {
      const bool row_is_b = row % 2 == 0;
      const bool off_colour = design.cells.at(row, stitch) != row_is_b;
      const int contrast =
          std::abs(picture.At(row, stitch, 0.5, 0.4) - picture.Ground(row, stitch));
      if (off_colour) {
        EXPECT_GT(contrast, 100) << row << " " << stitch;
      } else {
        EXPECT_LT(contrast, 10) << row << " " << stitch;
      }
    }
  }
}

TEST(ChartPng, StrokesColourBWhereBothColoursLookAlikeInGrey) {
  DrawingRequest options = Options();
  options.colours = {{0.85, 0.20, 0.20}, {0.10, 0.40, 0.20}};
  const chart::Design design = LetterF();
  const CellsOfPicture picture(design, options, 24);
  EXPECT_LT(std::abs(picture.At(7, 7, 0.2, 0.2) - picture.At(8, 3, 0.2, 0.2)), 40);
  // The stroke runs from the lower left to the upper right of each cell of B, and in none of A.
  EXPECT_GT(std::abs(picture.At(8, 3, 0.5, 0.47) - picture.At(8, 3, 0.2, 0.2)), 80);
  EXPECT_LT(std::abs(picture.At(9, 3, 0.5, 0.47) - picture.At(9, 3, 0.2, 0.2)), 10);
}

// Words of the rows' numbers at both edges of a chart of 30 rows and 12 stitches.
void ExpectRowNumbers(Hand hand) {
  DrawingRequest options = Options();
  options.hand = hand;
  const DrawnFile file(Pdf(SampleDesign(30, 12, Convention::kPicture), options), ".pdf");
  const std::vector<Word> words = file.Words();
  double previous = std::numeric_limits<double>::max();
  for (int row = 13; row <= 30; ++row) {  // up to 12 the numbers are stitch numbers as well
    const auto number = std::find_if(words.begin(), words.end(), [row](const Word& word) {
      return word.text == std::to_string(row);
    });
    ASSERT_NE(number, words.end()) << row;
    const bool right_side = row % 2 == 1;
    const bool at_right = right_side == (hand == Hand::kRight);
    EXPECT_EQ(number->left > 595.276 / 2, at_right) << row;
    EXPECT_LT(number->middle(), previous) << row;  // each row above the one before
    previous = number->middle();
    // Its side stands on the same line, further out.
    const auto side = std::find_if(words.begin(), words.end(), [&](const Word& word) {
      return word.text == (right_side ? "RS" : "WS") &&
             std::abs(word.middle() - number->middle()) < 1.5 &&
             (at_right ? word.left > number->right : word.right < number->left);
    });
    EXPECT_NE(side, words.end()) << row;
  }
}

TEST(ChartPdf, NumbersEachRowWhereARightHandedMakerStartsIt) { ExpectRowNumbers(Hand::kRight); }
TEST(ChartPdf, NumbersEachRowWhereALeftHandedMakerStartsIt) { ExpectRowNumbers(Hand::kLeft); }

TEST(ChartPdf, NumbersTheStitchesFromTheRightAlongTheBottom) {
  DrawingRequest options = Options();
  const DrawnFile file(Pdf(SampleDesign(4, 30, Convention::kPicture), options), ".pdf");
  double previous = std::numeric_limits<double>::max();
  const std::vector<Word> words = file.Words();
  double line = 0;
  for (int stitch = 5; stitch <= 30; ++stitch) {
    const auto number = std::find_if(words.begin(), words.end(), [stitch](const Word& word) {
      return word.text == std::to_string(stitch);
    });
    ASSERT_NE(number, words.end()) << stitch;
    EXPECT_LT(number->right, previous) << stitch;  // each to the left of the one before
    previous = number->left;
    if (line > 0) {
      EXPECT_NEAR(number->middle(), line, 0.5);
    }
    line = number->middle();
  }
}

TEST(ChartPdf, NamesRepeatsAndColoursInTheKey) {
  DrawingRequest options = Options();
  options.names = {"Oat", "Ink"};
  const DrawnFile file(Pdf(BandedDesign(Convention::kWorking), options), ".pdf");
  EXPECT_EQ(file.PageCount(), 1);
  const std::string text = file.Text();
  EXPECT_THAT(text,
              HasSubstr("repeat rows 13 to 28: 4 (7) times; stitches 11 to 18: 12 (18) times; "
                        "sizes throw (blanket)"));
  EXPECT_THAT(text, HasSubstr("Plain stitch in colour A, Oat"));
  EXPECT_THAT(text, HasSubstr("Wedge: drop stitch"));
}

TEST(ChartPdf, SplitsALargeChartWithOneRowOrStitchShared) {
  chart::Design design = SampleDesign(150, 120, Convention::kPicture);
  const std::string bytes = Pdf(design, Options());
  const DrawnFile file(bytes, ".pdf");
  file.Run("qpdf --check FILE");
  const std::vector<std::string> texts = file.Pages();
  const int pages = file.PageCount();
  ASSERT_EQ(texts.size(), static_cast<size_t>(pages));
  EXPECT_GT(pages, 4);
  EXPECT_THAT(texts.at(0), HasSubstr(fmt::format("takes {} pages, numbered", pages - 1)));
  std::set<std::pair<int, int>> cells;
  int first_row = 0, last_row = 0, first = 0, last = 0;
  std::vector<std::array<int, 4>> parts;
  for (int page = 2; page <= pages; ++page) {
    const std::string& text = texts[static_cast<size_t>(page - 1)];
    const size_t at = text.find("Chart page ");
    ASSERT_NE(at, std::string::npos) << text.substr(0, 200);
    int number = 0, of = 0;
    ASSERT_EQ(
        std::sscanf(text.c_str() + at, "Chart page %d of %d: rows %d to %d, stitches %d to %d",
                    &number, &of, &first_row, &last_row, &first, &last),
        6);
    EXPECT_EQ(number, page - 1);
    EXPECT_EQ(of, pages - 1);
    parts.push_back({first_row, last_row, first, last});
    for (int row = first_row; row <= last_row; ++row) {
      for (int stitch = first; stitch <= last; ++stitch) cells.insert({row, stitch});
    }
  }
  EXPECT_EQ(cells.size(), 150u * 120u);  // no cell is missing
  EXPECT_EQ(parts.front()[0], 1);
  EXPECT_EQ(parts.front()[2], 1);
  for (size_t i = 1; i < parts.size(); ++i) {
    if (parts[i][0] == parts[i - 1][0]) {
      EXPECT_EQ(parts[i][2], parts[i - 1][3]);  // next to the left: one stitch shared
    } else {
      EXPECT_EQ(parts[i][0], parts[i - 1][1]);  // next above: one row shared
    }
  }
}

TEST(ChartPdf, NumbersEveryRowOfASplitChart) {
  const DrawnFile file(Pdf(SampleDesign(150, 120, Convention::kPicture), Options()), ".pdf");
  std::set<std::string> numbers;
  for (const Word& word : file.Words()) {
    if (word.page > 1) numbers.insert(word.text);
  }
  for (int row = 1; row <= 150; ++row) EXPECT_EQ(numbers.count(std::to_string(row)), 1u) << row;
}

TEST(PartOf, CoversEveryCellOfAnyChartWithOneShared) {
  for (const int count : {2, 3, 5, 10, 11, 97}) {
    PagePlan plan;
    plan.rows = count;
    plan.stitches = 7;
    plan.rows_per_page = 5;
    plan.stitches_per_page = 7;
    plan.pages_down = count <= 5 ? 1 : (count - 2) / 4 + 1;
    int next = 1;
    for (int i = 0; i < plan.pages(); ++i) {
      const ChartPart part = PartOf(plan, i);
      EXPECT_EQ(part.first_row, next);
      EXPECT_GE(part.rows(), 2);
      next = part.last_row;
    }
    EXPECT_EQ(next, count);
  }
}

TEST(Drawing, GivesTheSameBytesEachTime) {
  const chart::Design design = BandedDesign(Convention::kPicture);
  for (const auto format : {DrawingFormat::kPdf, DrawingFormat::kPng, DrawingFormat::kSvg}) {
    const auto first = DrawChart(design, Options(), format);
    ASSERT_TRUE(first.ok()) << first.status();
    ASSERT_TRUE(DrawChart(LetterF(), Options(), format).ok());  // something else in between
    EXPECT_EQ(*DrawChart(design, Options(), format), *first);
  }
}

TEST(ChartSvg, IsWellFormedXmlOfTheChartsColours) {
  const auto svg = DrawChart(LetterF(), Options(), DrawingFormat::kSvg);
  ASSERT_TRUE(svg.ok()) << svg.status();
  EXPECT_THAT(*svg, StartsWith("<?xml"));
  const DrawnFile file(*svg, ".svg");
  EXPECT_THAT(file.Run("python3 -c \"import sys, xml.dom.minidom as m; "
                       "print(m.parse(sys.argv[1]).documentElement.tagName)\" FILE"),
              StartsWith("svg"));
  EXPECT_THAT(*svg, HasSubstr("rgb(13%,24%,35%)"));  // colour B
}

TEST(ChartPdf, HasTheFixedDateAndOnlyThePinnedFont) {
  const DrawnFile file(Pdf(BandedDesign(Convention::kPicture), Options()), ".pdf");
  file.Run("qpdf --check FILE");
  EXPECT_THAT(file.Info("CreationDate"), HasSubstr("Nov 25 00:00:00 2026"));
  EXPECT_EQ(file.Info("ModDate"), "");
  EXPECT_THAT(file.Fonts(), Each(StartsWith("DejaVuSans")));
  EXPECT_FALSE(file.Fonts().empty());
}

std::string FieldOf(const absl::Status& status) {
  const ErrorDetail detail = DetailOf(status);
  return detail.fields.empty() ? "" : detail.fields.front().field;
}

std::string RefusedField(const DrawingRequest& request) {
  return FieldOf(DrawChart(LetterF(), request, DrawingFormat::kSvg).status());
}

TEST(DrawingRequest, IsRefusedByField) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  DrawingRequest request = Options();
  for (const char* date : {"", "2026-02-30", "25.11.2026", "2026-11-25T00:00", "2026-13-01"}) {
    request.date = date;
    EXPECT_EQ(RefusedField(request), "date") << date;
  }
  for (const double green : {nan, 1.01, -0.01}) {
    request = Options();
    request.colours = {{1, 1, 1}, {0, green, 0}};
    EXPECT_EQ(RefusedField(request), "colours[1]") << green;
  }
  request.colours = std::vector<Rgb>(9);
  EXPECT_EQ(RefusedField(request), "colours");
  request = Options();
  request.names = {"", std::string(kLongestTitle + 1, 'x')};
  EXPECT_EQ(RefusedField(request), "colour_names[1]");
  request = Options();
  request.title = std::string(kLongestTitle + 1, 'x');
  EXPECT_EQ(RefusedField(request), "title");
  for (const int pixels : {3, 65, -1}) {
    request = Options();
    request.cell_pixels = pixels;
    EXPECT_EQ(RefusedField(request), "cell_size_px") << pixels;
  }
  for (const double mm : {1.49, 25.1, nan, -4.0}) {
    request = Options();
    request.cell_mm = mm;
    EXPECT_EQ(RefusedField(request), "cell_size_mm") << mm;
  }
  for (const double share : {0.09, 1.01, nan}) {
    request = Options();
    request.wrong_side_share = share;
    EXPECT_EQ(RefusedField(request), "wrong_side_share") << share;
  }
  request = Options();
  request.gauge = DrawnGauge{0.5, 16};
  EXPECT_EQ(RefusedField(request), "gauge.stitches_per_decimetre");
  request.gauge = DrawnGauge{14, nan};
  EXPECT_EQ(RefusedField(request), "gauge.rows_per_decimetre");
  request.gauge = DrawnGauge{5, 51};
  EXPECT_EQ(RefusedField(request), "gauge");
  for (const int size : {-1, 1}) {
    request = Options();
    request.size = size;
    EXPECT_EQ(RefusedField(request), "size") << size;
  }
  EXPECT_EQ(FieldOf(DrawChart(chart::Design{}, Options(), DrawingFormat::kPdf).status()), "cells");
}

TEST(ChartLimits, RefuseWhatWouldFillTooManyPagesOrPixels) {
  const chart::Design design = SampleDesign(4000, 4000, Convention::kWorking);
  DrawingRequest request = Options();
  for (const auto format : {DrawingFormat::kPdf, DrawingFormat::kPng, DrawingFormat::kSvg}) {
    EXPECT_EQ(DrawChart(design, request, format).status().code(),
              absl::StatusCode::kResourceExhausted);
  }
}

TEST(ChartPdf, DrawsTheThinnestCharts) {
  for (const auto& [rows, stitches] : {std::pair{1, 1}, {1, 4000}, {4000, 1}, {2, 2}}) {
    chart::Design design;
    design.cells = chart::Grid(rows, stitches);
    const DrawnFile file(Pdf(design, Options()), ".pdf");
    file.Run("qpdf --check FILE");
    EXPECT_GE(file.PageCount(), 1) << rows << " x " << stitches;
  }
}

}  // namespace
}  // namespace rowproof::drawing
