// A face of the finished fabric on paper: whole on one page, or split with stitches of a chosen
// size, every page read back.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/faces/model.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/png_pixels.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

DrawingRequest Face(int face) {
  DrawingRequest request;
  request.kind = face == 1 ? DrawingKind::kFaceOne : DrawingKind::kFaceTwo;
  request.colours = {{1, 0, 0}, {0, 0, 1}};
  return request;
}

std::string Pdf(const chart::Design& design, const DrawingRequest& request) {
  auto bytes = DrawChart(design, request, DrawingFormat::kPdf);
  EXPECT_TRUE(bytes.ok()) << bytes.status();
  return bytes.ok() ? *bytes : "";
}

struct FacePage {
  int pdf_page = 0;
  int number = 0;
  int first_row = 0;
  int last_row = 0;
  int first_stitch = 0;
  int last_stitch = 0;
  std::string text;
};

std::vector<FacePage> PagesOf(const DrawnFile& file, int face) {
  std::vector<FacePage> pages;
  const std::vector<std::string> texts = file.Pages();
  for (size_t i = 0; i < texts.size(); ++i) {
    const size_t at = texts[i].find(fmt::format("Face {}, page ", face));
    if (at == std::string::npos) continue;
    FacePage page;
    int of = 0;
    EXPECT_EQ(std::sscanf(texts[i].c_str() + at + 8,
                          "page %d of %d: rows %d to %d, stitches %d to %d", &page.number, &of,
                          &page.first_row, &page.last_row, &page.first_stitch, &page.last_stitch),
              6);
    page.pdf_page = static_cast<int>(i) + 1;
    page.text = texts[i];
    pages.push_back(page);
    EXPECT_EQ(of, file.PageCount() - 1);
  }
  return pages;
}

// The fabric on a page, 2 pixels a point: the box of red and blue pixels below the heading.
class PageFabric {
 public:
  PageFabric(const DrawnFile& file, int page)
      : png_(file.Run(fmt::format("pdftoppm -r 144 -f {0} -l {0} -png FILE", page))) {
    for (int y = 0; y < png_.height(); ++y) {
      for (int x = 0; x < png_.width(); ++x) {
        if (!Red(x, y) && !Blue(x, y)) continue;
        if (right_ < 0) left_ = x, top_ = y;
        left_ = std::min(left_, x);
        right_ = std::max(right_, x + 1);
        bottom_ = y + 1;
      }
    }
  }
  double width() const { return (right_ - left_) / 2.0; }  // points
  double height() const { return (bottom_ - top_) / 2.0; }
  // Which colour most of a box has, in points from the fabric's lower left corner.
  int ColourIn(double x, double y, double wide, double high) const {
    int blue = 0;
    int red = 0;
    const auto from = [](double points) { return static_cast<int>(2 * points) + 1; };
    for (int dy = from(y); dy < from(y + high) - 1; ++dy) {
      for (int dx = from(x); dx < from(x + wide) - 1; ++dx) {
        blue += Blue(left_ + dx, bottom_ - 1 - dy) ? 1 : 0;
        red += Red(left_ + dx, bottom_ - 1 - dy) ? 1 : 0;
      }
    }
    EXPECT_GT(red + blue, 0);
    return blue > red ? 1 : 0;
  }

 private:
  bool Red(int x, int y) const { return png_.at(x, y).red > png_.at(x, y).blue + 60; }
  bool Blue(int x, int y) const { return png_.at(x, y).blue > png_.at(x, y).red + 60; }
  PngPixels png_;
  int left_ = 0;
  int right_ = -1;
  int top_ = 0;
  int bottom_ = 0;
};

TEST(SplitFace, HasEveryStitchInItsPlaceOnItsPageInBothFacesOnBothPapers) {
  const chart::Design design = SampleDesign(61, 34, chart::Convention::kPicture);
  for (const int face : {1, 2}) {
    for (const Paper paper : {Paper::kA4, Paper::kLetter}) {
      DrawingRequest request = Face(face);
      request.paper = paper;
      request.cell_mm = 8;
      const DrawnFile file(Pdf(design, request), ".pdf");
      file.Run("qpdf --check FILE");
      const FaceModel model = FaceModel::Make(design, request);
      const std::vector<double> heights = model.Heights();
      const double cell = 8 * kPointsPerMm;
      const double row = cell * 14 / 16;  // the assumed gauge
      const std::vector<FacePage> pages = PagesOf(file, face);
      ASSERT_GE(pages.size(), 4u);  // two across, two up on A4
      for (const FacePage& page : pages) {
        const PageFabric fabric(file, page.pdf_page);
        const double bottom = heights[static_cast<size_t>(page.first_row - 1)];
        EXPECT_NEAR(fabric.width(), cell * (page.last_stitch - page.first_stitch + 1), 1);
        EXPECT_NEAR(fabric.height(), row * (heights[static_cast<size_t>(page.last_row)] - bottom),
                    1);
        for (int strip = page.first_row; strip <= page.last_row; ++strip) {
          const double low = heights[static_cast<size_t>(strip - 1)] - bottom;
          for (int stitch = page.first_stitch; stitch <= page.last_stitch; ++stitch) {
            const int column = face == 1 ? page.last_stitch - stitch : stitch - page.first_stitch;
            ASSERT_EQ(fabric.ColourIn(column * cell, low * row, cell,
                                      row * model.strips[static_cast<size_t>(strip - 1)].height),
                      model.colours[model.At(strip, stitch)])
                << "face " << face << " page " << page.number << " " << strip << " " << stitch;
          }
        }
      }
    }
  }
}

TEST(SplitFace, SharesOneRowOrStitchAndSaysWhere) {
  for (const int face : {1, 2}) {
    DrawingRequest request = Face(face);
    request.cell_mm = 8;
    const DrawnFile file(Pdf(SampleDesign(61, 34, chart::Convention::kPicture), request), ".pdf");
    EXPECT_THAT(file.Pages().front(), HasSubstr("The face takes 4 pages"));
    const std::vector<FacePage> pages = PagesOf(file, face);
    ASSERT_EQ(pages.size(), 4u);
    for (const FacePage& page : pages) {
      const int across = (page.number - 1) % 2;
      const int up = (page.number - 1) / 2;
      const FacePage& beside = pages[static_cast<size_t>(2 * up)];
      const FacePage& below = pages[static_cast<size_t>(across)];
      EXPECT_EQ(page.first_stitch, across == 0 ? 1 : beside.last_stitch);
      EXPECT_EQ(page.last_stitch == 34, across == 1);
      EXPECT_EQ(page.first_row, up == 0 ? 1 : below.last_row);
      EXPECT_EQ(page.last_row == 61, up == 1);
      // Stitch 1 of face 2, and so its first page, is at the left.
      const char* const from = face == 1 ? "right" : "left";
      const char* const to = face == 1 ? "left" : "right";
      EXPECT_THAT(page.text, HasSubstr(fmt::format("column {} of 2 from the {}, row {} of 2",
                                                   across + 1, from, up + 1)));
      EXPECT_THAT(
          page.text,
          HasSubstr(across == 0 ? fmt::format("{} stitch also on page {}", to, page.number + 1)
                                : fmt::format("{} stitch also on page {}", from, page.number - 1)));
      EXPECT_THAT(page.text,
                  HasSubstr(fmt::format("{} row also on page {}", up == 0 ? "top" : "bottom",
                                        up == 0 ? page.number + 2 : page.number - 2)));
    }
    // The map in the corner of page 1: page 2 lies where the fabric goes on.
    double one = 0;
    double two = 0;
    for (const Word& word : file.Words()) {
      if (word.page != pages[0].pdf_page || word.top > 95 || word.left < 400) continue;
      if (word.text == "1") one = word.left;
      if (word.text == "2") two = word.left;
    }
    ASSERT_GT(one, 0);
    ASSERT_GT(two, 0);
    EXPECT_EQ(one > two, face == 1);
  }
}

TEST(Face, FillsOnePageWhereNoSizeIsAskedForAndStaysThereWhereASmallOneIs) {
  const chart::Design design = SampleDesign(61, 34, chart::Convention::kPicture);
  DrawingRequest request = Face(1);
  EXPECT_EQ(DrawnFile(Pdf(design, request), ".pdf").PageCount(), 1);
  request.cell_mm = 3;
  const DrawnFile file(Pdf(design, request), ".pdf");
  EXPECT_EQ(file.PageCount(), 1);
  // The numbers of stitches 5 and 30 stand in one line, 25 stitches apart.
  int pairs = 0;
  for (const Word& thirty : file.Words()) {
    if (thirty.text != "30") continue;
    for (const Word& five : file.Words()) {
      if (five.text != "5" || std::abs(five.middle() - thirty.middle()) > 0.5) continue;
      EXPECT_NEAR((five.left + five.right - thirty.left - thirty.right) / 2, 75 * kPointsPerMm,
                  0.6);
      ++pairs;
    }
  }
  EXPECT_EQ(pairs, 1);
}

TEST(Face, OfManyCellsFillsItsPageWithoutStitchesAndIsSplitWithThem) {
  DrawingRequest request = Face(1);
  const chart::Design design = SampleDesign(400, 300, chart::Convention::kPicture);
  const DrawnFile whole(Pdf(design, request), ".pdf");
  EXPECT_EQ(whole.PageCount(), 1);
  EXPECT_THAT(whole.Text(), HasSubstr("Stitches are too small to draw"));
  const chart::Design fewer = SampleDesign(200, 150, chart::Convention::kPicture);
  request.cell_mm = 4;
  const DrawnFile split(Pdf(fewer, request), ".pdf");
  EXPECT_GT(split.PageCount(), 9);
  EXPECT_THAT(split.Text(), Not(HasSubstr("too small to draw")));
}

TEST(SplitFace, NeedsRoomForTwoRowsAndSaysHowLargeStitchesMayBe) {
  const chart::Design design = SampleDesign(13, 9, chart::Convention::kPicture);
  DrawingRequest request = Face(1);
  request.gauge = DrawnGauge{50, 5};  // rows ten times as high as stitches are wide
  request.cell_mm = 20;
  const ErrorDetail detail = DetailOf(DrawChart(design, request, DrawingFormat::kPdf).status());
  ASSERT_EQ(detail.fields.size(), 1u);
  EXPECT_EQ(detail.fields[0].field, "cell_size_mm");
  const std::string& words = detail.fields[0].description;
  const size_t at = words.find("at most ");
  ASSERT_NE(at, std::string::npos) << words;
  // What is named as the most is taken, and a little more is not.
  request.cell_mm = std::stod(words.substr(at + 8));
  EXPECT_GT(*request.cell_mm, 5);
  const DrawnFile file(Pdf(design, request), ".pdf");
  for (const FacePage& page : PagesOf(file, 1)) EXPECT_EQ(page.last_row, page.first_row + 1);
  *request.cell_mm += 0.02;
  EXPECT_FALSE(DrawChart(design, request, DrawingFormat::kPdf).ok());
}

TEST(SplitFace, IsRefusedWhereItWouldTakeTooManyPages) {
  const chart::Design design = SampleDesign(500, 500, chart::Convention::kPicture);
  DrawingRequest request = Face(2);
  EXPECT_TRUE(DrawChart(design, request, DrawingFormat::kPdf).ok());
  request.cell_mm = 25;
  EXPECT_EQ(DrawChart(design, request, DrawingFormat::kPdf).status().code(),
            absl::StatusCode::kResourceExhausted);
}

}  // namespace
}  // namespace rowproof::drawing
