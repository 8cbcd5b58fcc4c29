// Charts too large to draw are refused before anything is drawn, large ones get smaller cells.
#include <cstdint>

#include "gtest/gtest.h"
#include "services/drawing/charts/drawing.h"
#include "tests/drawing/drawn_chart.h"
#include "tests/drawing/png_pixels.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

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
