#include "services/drawing/breakdown_drawing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "tests/drawing/drawn_file.h"

namespace rowproof::drawing {
namespace {

using estimate::PartKind;
using estimate::YarnColour;
using ::testing::StartsWith;

// Invented: yarns of 100, 60 and 40 m in parts of known length.
estimate::SizeEstimate Sample() {
  estimate::SizeEstimate size;
  size.size = "wide";
  const auto add = [&size](YarnColour colour, std::vector<estimate::Part> parts) {
    estimate::ColourEstimate yarn;
    yarn.colour = colour;
    for (const auto& part : parts) yarn.length_mm += part.length_mm;
    for (auto& part : parts) part.share = part.length_mm / yarn.length_mm;
    yarn.parts = parts;
    size.colours.push_back(yarn);
  };
  add(YarnColour::kA, {{PartKind::kStitches, 80'000}, {PartKind::kTails, 20'000}});
  add(YarnColour::kB, {{PartKind::kStitches, 48'000}, {PartKind::kCarried, 12'000}});
  add(YarnColour::kC, {{PartKind::kStitches, 30'000}, {PartKind::kBorder, 10'000}});
  return size;
}

struct Frame {
  int y = 0;
  int left = 0;
  int width = 0;
};

// Horizontal lines of ink longer than `least` pixels, the first of those that touch.
std::vector<Frame> FrameLines(const GreyImage& image, int least) {
  std::vector<Frame> lines;
  for (int y = 0; y < image.height; ++y) {
    for (int x = 0; x < image.width; ++x) {
      int run = 0;
      while (x + run < image.width && image.at(x + run, y) < 50) ++run;
      if (run > least && (lines.empty() || y > lines.back().y + 2)) lines.push_back({y, x, run});
      x += run;
    }
  }
  return lines;
}

// Every bar has a frame: an upper and a lower line as long as the bar. They come in the order of
// the parts, and the longest bar's length stands for its 80 m.
TEST(BreakdownDrawing, BarsAreAsLongAsTheirParts) {
  const std::string png = BreakdownPng(Sample()).value();
  const GreyImage image = DrawnFile(png, ".png").Grey();
  const std::vector<Frame> lines = FrameLines(image, 40);
  const double metres[] = {80, 20, 48, 12, 30, 10};
  ASSERT_EQ(lines.size(), 12u);
  for (size_t bar = 0; bar < 6; ++bar) {
    for (const Frame& line : {lines[2 * bar], lines[2 * bar + 1]}) {
      EXPECT_NEAR(line.width, lines[0].width * metres[bar] / 80, 3) << bar;
      EXPECT_EQ(line.left, lines[0].left);
    }
  }
}

// Without colour: the insides of the bars of A, B and C are well apart in grey.
TEST(BreakdownDrawing, TellsYarnsApartWithoutColour) {
  const std::string png = BreakdownPng(Sample()).value();
  const GreyImage image = DrawnFile(png, ".png").Grey();
  const std::vector<Frame> lines = FrameLines(image, 40);
  ASSERT_EQ(lines.size(), 12u);
  std::vector<int> greys;
  for (const size_t bar : {size_t{0}, size_t{2}, size_t{4}}) {
    const Frame& top = lines[2 * bar];
    greys.push_back(image.at(top.left + 20, (top.y + lines[2 * bar + 1].y) / 2));
  }
  std::sort(greys.begin(), greys.end());
  EXPECT_GT(greys[1] - greys[0], 60);
  EXPECT_GT(greys[2] - greys[1], 60);
}

TEST(BreakdownDrawing, GivesTheSameBytesForTheSameEstimate) {
  const std::string svg = BreakdownSvg(Sample()).value();
  EXPECT_EQ(svg, BreakdownSvg(Sample()).value());
  EXPECT_THAT(svg, StartsWith("<?xml"));
  EXPECT_EQ(BreakdownPng(Sample()).value(), BreakdownPng(Sample()).value());
  estimate::SizeEstimate other = Sample();
  other.colours[0].parts[0].length_mm += 5000;
  EXPECT_NE(svg, BreakdownSvg(other).value());
}

TEST(BreakdownDrawing, DrawsAllNineYarnsAndAnEstimateWithoutAny) {
  estimate::SizeEstimate size;
  EXPECT_TRUE(BreakdownPng(size).ok());
  for (const YarnColour colour : estimate::kYarnColoursAsListed) {
    estimate::ColourEstimate yarn;
    yarn.colour = colour;
    yarn.length_mm = 10'000;
    yarn.parts = {{PartKind::kStitches, 10'000, 1}};
    size.colours.push_back(yarn);
  }
  EXPECT_EQ(FrameLines(DrawnFile(BreakdownPng(size).value(), ".png").Grey(), 400).size(), 18u);
}

}  // namespace
}  // namespace rowproof::drawing
