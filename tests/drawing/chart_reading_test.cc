// A chart as its reader needs it: every cell, mark and label in its place, in both hands, every
// technique and facing, up to eight colours, in grey, and over several pages.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/drawing/chart_drawing.h"
#include "services/drawing/palette.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/png_pixels.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using chart::Ends;
using chart::Facing;
using chart::Form;
using chart::Hand;
using chart::Technique;
using ::testing::HasSubstr;

constexpr int kCell = 30;

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

std::string Draw(const chart::Design& design, const DrawingRequest& request, DrawingFormat format) {
  auto bytes = DrawChart(design, request, format);
  EXPECT_TRUE(bytes.ok()) << bytes.status();
  return bytes.ok() ? *bytes : "";
}

// The cells of a PNG, found by their frame: the first dark line of the chart's width.
class Cells {
 public:
  Cells(const chart::Design& design, DrawingRequest request)
      : rows_(design.cells.rows()), stitches_(design.cells.stitches()), png_(Png(design, request)) {
    for (int y = 0; y < png_.height() && top_ < 0; ++y) {
      int run = 0;
      for (int x = 0; x < png_.width() && top_ < 0; ++x) {
        run = png_.at(x, y).Lightness() < 60 ? run + 1 : 0;
        if (run == stitches_ * kCell) top_ = y, left_ = x - run + 1;
      }
    }
    EXPECT_GE(top_, 0) << "no frame in the picture";
  }

  // A place in a cell, in fractions from its left and top edge; frames are 3 pixels.
  Pixel At(int row, int stitch, double right, double down) const {
    return png_.at(left_ + 1 + static_cast<int>((stitches_ - stitch + right) * kCell),
                   top_ + 1 + static_cast<int>((rows_ - row + down) * kCell));
  }
  double Ground(int row, int stitch) const { return At(row, stitch, 0.14, 0.3).Lightness(); }
  // A cell as the signs of its pixels against its ground: what is left when all tone is gone.
  std::vector<bool> Shape(int row, int stitch) const {
    std::vector<bool> shape;
    const double ground = Ground(row, stitch);
    for (int y = 3; y < kCell - 3; ++y) {
      for (int x = 3; x < kCell - 3; ++x) {
        const double here = At(row, stitch, (x + 0.5) / kCell, (y + 0.5) / kCell).Lightness();
        shape.push_back(std::abs(here - ground) > 60);
      }
    }
    return shape;
  }

 private:
  static std::string Png(const chart::Design& design, DrawingRequest request) {
    request.cell_pixels = kCell;
    return Draw(design, request, DrawingFormat::kPng);
  }
  int rows_;
  int stitches_;
  PngPixels png_;
  int top_ = -1;
  int left_ = -1;
};

int Unlike(const std::vector<bool>& a, const std::vector<bool>& b) {
  int unlike = 0;
  for (size_t i = 0; i < a.size(); ++i) unlike += a[i] != b[i] ? 1 : 0;
  return unlike;
}

TEST(PictureChart, HasTheLettersCellsInTheirPlacesInEveryMannerForBothHands) {
  for (const Manner& manner : kManners) {
    for (const Hand hand : {Hand::kRight, Hand::kLeft}) {
      DrawingRequest request;
      request.kind = DrawingKind::kPictureChart;
      request.hand = hand;
      const chart::Design design = LetterIn(manner);
      const Cells cells(design, request);
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
    const Cells cells(design, request);
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

// A number with RS or WS beside it, further out from the cells.
struct Label {
  int number;
  bool right_side;
  bool at_right;
};
std::vector<Label> LabelsOf(const DrawnFile& file) {
  std::vector<Label> labels;
  const std::vector<Word> words = file.Words();
  for (const Word& side : words) {
    if (side.text != "RS" && side.text != "WS") continue;
    const bool at_right = side.left > 595.276 / 2;
    const Word* nearest = nullptr;
    for (const Word& word : words) {
      if (word.page != side.page || std::abs(word.middle() - side.middle()) > 1.5) continue;
      if (word.text.find_first_not_of("0123456789") != std::string::npos) continue;
      const double gap = at_right ? side.left - word.right : word.left - side.right;
      if (gap < 0 || gap > 20) continue;
      if (nearest == nullptr ||
          (at_right ? word.right > nearest->right : word.left < nearest->left)) {
        nearest = &word;
      }
    }
    if (nearest == nullptr) continue;  // a word of the key
    labels.push_back({std::stoi(nearest->text), side.text == "RS", at_right});
  }
  return labels;
}

TEST(Chart, NumbersEachWorkedRowAtTheEdgeWhereItStartsInEveryMannerForBothHands) {
  for (const Manner& manner : kManners) {
    for (const Hand hand : {Hand::kRight, Hand::kLeft}) {
      DrawingRequest request;
      request.kind = DrawingKind::kWorkingChart;
      request.hand = hand;
      const DrawnFile file(Draw(LetterIn(manner), request, DrawingFormat::kPdf), ".pdf");
      const std::vector<Label> labels = LabelsOf(file);
      std::set<int> numbers;
      for (const Label& label : labels) {
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
        EXPECT_THAT(file.Text(), HasSubstr("every round is read alike"));
      }
      if (hand == Hand::kLeft) {
        EXPECT_THAT(file.Text(), HasSubstr("numbered for left-handed makers"));
      }
    }
  }
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
  const Cells cells(design, request);
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
  const Cells cells(design, request);
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

TEST(Chart, ShowsOneSizeWithItsBandsWrittenOut) {
  chart::Design design = BandedDesign(chart::Convention::kPicture);
  design.sizes = {{"one", 1, 1}, {"two", 3, 2}};
  DrawingRequest request;
  request.kind = DrawingKind::kWorkingChart;
  request.size = 1;
  const DrawnFile file(Draw(design, request, DrawingFormat::kPdf), ".pdf");
  EXPECT_THAT(file.Text(), HasSubstr("Size two, its repeats written out: 60 rows of 53 stitches"));
  std::set<int> numbers;
  for (const Label& label : LabelsOf(file)) numbers.insert(label.number);
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

TEST(ChartLimits, AreKeptBeforeAnythingIsDrawn) {
  const chart::Design design = SampleDesign(1000, 1000, chart::Convention::kWorking);
  DrawingRequest request;
  request.cell_pixels = 7;
  EXPECT_EQ(DrawChart(design, request, DrawingFormat::kPng).status().code(),
            absl::StatusCode::kResourceExhausted);
  // Repeats that are written out count.
  chart::Design small = WorkableF();
  small.stitch_band = chart::Band{5, 5};
  small.row_band = chart::Band{5, 6};
  small.sizes = {{"small", 1, 1}, {"huge", 3900, 1900}};
  DrawingRequest huge;
  huge.size = 1;
  for (const auto format : {DrawingFormat::kPng, DrawingFormat::kSvg, DrawingFormat::kPdf}) {
    EXPECT_EQ(DrawChart(small, huge, format).status().code(), absl::StatusCode::kResourceExhausted);
    huge.size = 0;
    EXPECT_TRUE(DrawChart(small, huge, format).ok());
    huge.size = 1;
  }
}

TEST(DrawingRequest, PicksASmallerCellWhereTheUsualOneWouldNotFit) {
  const chart::Design design = SampleDesign(1200, 1200, chart::Convention::kWorking);
  const PngPixels png(Draw(design, DrawingRequest{}, DrawingFormat::kPng));
  EXPECT_LE(static_cast<int64_t>(png.width()) * png.height(), kMostPixels);
  EXPECT_GT(png.width(), 4 * 1200);
}

}  // namespace
}  // namespace rowproof::drawing
