// A chart on paper: sizes written out, cells of the chosen size, and pages that share a row or
// stitch.
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/drawing/charts/drawing.h"
#include "tests/drawing/drawn_chart.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using ::testing::HasSubstr;

TEST(Chart, ShowsOneSizeWithItsBandsWrittenOut) {
  chart::Design design = BandedDesign(chart::Convention::kPicture);
  design.sizes = {{"one", 1, 1}, {"two", 3, 2}};
  DrawingRequest request;
  request.kind = DrawingKind::kWorkingChart;
  request.size = 1;
  const DrawnFile file(Draw(design, request, DrawingFormat::kPdf), ".pdf");
  EXPECT_THAT(file.Text(),
              HasSubstr("Size two with its repeats written out: 60 rows of 53 stitches."));
  std::set<int> numbers;
  for (const ReadRowLabel& label : RowLabelsOf(file)) numbers.insert(label.number);
  EXPECT_EQ(numbers.size(), 60u);
  EXPECT_EQ(*numbers.rbegin(), 60);
}

TEST(Chart, HasCellsOfTheChosenSizeOnBothPapers) {
  for (const Paper paper : {Paper::kA4, Paper::kLetter}) {
    for (const double mm : {3.0, 5.0, 11.0}) {
      DrawingRequest request;
      request.kind = DrawingKind::kPictureChart;
      request.paper = paper;
      request.cell_mm = mm;
      const DrawnFile file(
          Draw(SampleDesign(40, 30, chart::Convention::kPicture), request, DrawingFormat::kPdf),
          ".pdf");
      EXPECT_THAT(file.Info("Page size"),
                  HasSubstr(paper == Paper::kA4 ? "595.276 x 841.89" : "612 x 792"));
      // Stitch numbers 5 and 10, the lowest above the foot, stand five cells apart on some page.
      const double foot = (paper == Paper::kA4 ? 841.89 : 792) - 45;
      std::map<std::pair<int, std::string>, Word> bottom;
      for (const Word& word : file.Words()) {
        auto& lowest = bottom[{word.page, word.text}];
        if (word.top < foot && word.top > lowest.top) lowest = word;
      }
      bool found = false;
      for (const auto& [key, ten] : bottom) {
        if (key.second != "10" || ten.top == 0) continue;
        const Word five = bottom[{key.first, "5"}];
        if (std::abs(five.middle() - ten.middle()) > 0.5) continue;
        const double apart = (five.left + five.right - ten.left - ten.right) / 2;
        EXPECT_NEAR(apart, 5 * mm * 72 / 25.4, 0.6) << mm;
        found = true;
        break;
      }
      EXPECT_TRUE(found) << mm;
    }
  }
}

struct ChartPage {
  int number, first_row, last_row, first_stitch, last_stitch;
  std::string text;
  int pdf_page;
};
std::vector<ChartPage> ChartPagesOf(const DrawnFile& file) {
  std::vector<ChartPage> pages;
  const std::vector<std::string> texts = file.Pages();
  for (size_t i = 0; i < texts.size(); ++i) {
    const size_t at = texts[i].find("Chart page ");
    if (at == std::string::npos) continue;
    ChartPage page{};
    int of = 0;
    EXPECT_EQ(
        std::sscanf(texts[i].c_str() + at, "Chart page %d of %d: rows %d to %d, stitches %d to %d",
                    &page.number, &of, &page.first_row, &page.last_row, &page.first_stitch,
                    &page.last_stitch),
        6);
    page.text = texts[i];
    page.pdf_page = static_cast<int>(i) + 1;
    pages.push_back(page);
  }
  return pages;
}

TEST(SplitChart, SaysOnEachPageWhichPageOfWhichGridItIsAndWhatItShares) {
  DrawingRequest request;
  request.kind = DrawingKind::kWorkingChart;
  const DrawnFile file(
      Draw(SampleDesign(150, 120, chart::Convention::kPicture), request, DrawingFormat::kPdf),
      ".pdf");
  const std::vector<ChartPage> pages = ChartPagesOf(file);
  ASSERT_EQ(pages.size(), 6u);  // three across, two up
  EXPECT_EQ(file.PageCount(), 7);
  const std::vector<Word> words = file.Words();
  for (const ChartPage& page : pages) {
    const int across = (page.number - 1) % 3;
    const int up = (page.number - 1) / 3;
    EXPECT_THAT(page.text,
                HasSubstr(fmt::format("Page {} is column {} of 3 from the right, row {} of 2 from "
                                      "the bottom.",
                                      page.number, across + 1, up + 1)));
    EXPECT_EQ(page.first_row == 1, up == 0);
    EXPECT_EQ(page.last_row == 150, up == 1);
    EXPECT_EQ(page.first_stitch == 1, across == 0);
    EXPECT_EQ(page.last_stitch == 120, across == 2);
    for (const auto& [exists, line] :
         {std::pair{up > 0, fmt::format("bottom row also on page {}", page.number - 3)},
          {up < 1, fmt::format("top row also on page {}", page.number + 3)},
          {across > 0, fmt::format("right stitch also on page {}", page.number - 1)},
          {across < 2, fmt::format("left stitch also on page {}", page.number + 1)}}) {
      EXPECT_EQ(page.text.find(line) != std::string::npos, exists) << page.number << line;
    }
    // The map has all six pages' numbers in the upper right corner: page 1 right and low.
    std::map<std::string, Word> map;
    for (const Word& word : words) {
      if (word.page == page.pdf_page && word.top < 95 && word.left > 400 && word.text.size() == 1) {
        map[word.text] = word;
      }
    }
    ASSERT_EQ(map.size(), 6u) << page.number;
    EXPECT_GT(map["1"].left, map["2"].left);
    EXPECT_GT(map["2"].left, map["3"].left);
    EXPECT_GT(map["1"].middle(), map["4"].middle());
  }
}

TEST(SplitChart, HasTheSharedRowOnBothPagesWithTheSameCells) {
  DrawingRequest request;
  request.kind = DrawingKind::kPictureChart;
  const chart::Design design = SampleDesign(150, 20, chart::Convention::kPicture);
  const DrawnFile file(Draw(design, request, DrawingFormat::kPdf), ".pdf");
  const std::vector<ChartPage> pages = ChartPagesOf(file);
  ASSERT_GE(pages.size(), 2u);
  EXPECT_EQ(pages[0].last_row, pages[1].first_row);
  const int shared = pages[0].last_row;
  std::array<std::vector<bool>, 2> rows;
  for (size_t i = 0; i < 2; ++i) {
    // The row's label gives its height on the page, the stitch numbers the columns.
    const int page = pages[i].pdf_page;
    // The lowest words of their kind: headings and other rows' labels stand higher.
    std::map<std::string, Word> lowest;
    for (const Word& word : file.Words()) {
      if (word.page != page || word.top > 790) continue;
      Word& known = lowest[word.text];
      if (word.top > known.top) known = word;
    }
    const double middle = lowest[std::to_string(shared)].middle();
    std::map<int, double> columns;
    for (const int stitch : {5, 15}) {
      const Word& word = lowest[std::to_string(stitch)];
      columns[stitch] = (word.left + word.right) / 2;
    }
    ASSERT_GT(middle, 0);
    const double cell = (columns[5] - columns[15]) / 10;
    const GreyImage image = [&] {
      const std::string ppm =
          file.Run(fmt::format("pdftoppm -r 144 -f {0} -l {0} -png FILE", page));
      return DrawnFile(ppm, ".png").Grey();
    }();
    for (int stitch = 1; stitch <= 20; ++stitch) {
      const double x = columns[5] + (5 - stitch) * cell - 0.3 * cell;
      rows[i].push_back(
          image.at(static_cast<int>(2 * x), static_cast<int>(2 * (middle + 0.3 * cell))) < 128);
    }
  }
  EXPECT_EQ(rows[0], rows[1]);
  for (int stitch = 1; stitch <= 20; ++stitch) {
    EXPECT_EQ(rows[0][static_cast<size_t>(stitch - 1)], design.cells.at(shared, stitch)) << stitch;
  }
}

}  // namespace
}  // namespace rowproof::drawing
