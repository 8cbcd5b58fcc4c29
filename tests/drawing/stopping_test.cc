// Drawing ends when it is told to, wherever it is.
#include <gtest/gtest.h>

#include "services/drawing/charts/drawing.h"
#include "services/drawing/sheets/errata_sheet.h"
#include "services/drawing/sheets/pattern_sheet.h"
#include "tests/drawing/sample_pattern.h"
#include "tests/support/expect_stops.h"

namespace rowproof::drawing {
namespace {

void ExpectDrawingStops(const DrawingRequest& request, DrawingFormat format) {
  const chart::Design design = SampleDesign(60, 80, chart::Convention::kPicture);
  ExpectStops(5,
              [&](const Stop& stop) { return DrawChart(design, request, format, stop).status(); });
}

TEST(Stopping, EndsADrawingOfAChart) {
  for (const DrawingFormat format :
       {DrawingFormat::kPng, DrawingFormat::kSvg, DrawingFormat::kPdf}) {
    ExpectDrawingStops({}, format);
  }
}

TEST(Stopping, EndsADrawingOverSeveralPages) {
  DrawingRequest request;
  request.cell_mm = 6;
  ExpectDrawingStops(request, DrawingFormat::kPdf);
}

TEST(Stopping, EndsADrawingOfAFace) {
  for (const DrawingKind face : {DrawingKind::kFaceOne, DrawingKind::kFaceTwo}) {
    DrawingRequest request;
    request.kind = face;
    for (const DrawingFormat format :
         {DrawingFormat::kPng, DrawingFormat::kSvg, DrawingFormat::kPdf}) {
      ExpectDrawingStops(request, format);
    }
  }
}

TEST(Stopping, EndsAPatternSheet) {
  const chart::Design design = SampleDesign(40, 50, chart::Convention::kPicture);
  const PatternSheet sheet = SampleSheet(design, 60);
  ExpectStops(20,
              [&](const Stop& stop) { return DrawPatternSheet(sheet, Paper::kA4, stop).status(); });
}

TEST(Stopping, EndsAnErrataSheet) {
  const auto sheet = SampleErrata(40);
  ExpectStops(10,
              [&](const Stop& stop) { return DrawErrataSheet(sheet, Paper::kA4, stop).status(); });
}

}  // namespace
}  // namespace rowproof::drawing
