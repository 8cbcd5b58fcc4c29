// Limits of what is drawn, checked before anything is drawn.
#ifndef ROWPROOF_SERVICES_DRAWING_EXTENT_H_
#define ROWPROOF_SERVICES_DRAWING_EXTENT_H_

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/drawing/charts/drawing.h"

namespace rowproof::drawing {

bool IsFace(const DrawingRequest& request);

// Cells across and up of what is drawn: of the chart as drawn or of one size,
// of a face worked rows, with a foundation of worked stitches.
struct Extent {
  int stitches = 0;
  int rows = 0;
  // Height of a row in widths of a stitch: 1 in a chart, the gauge's in a face.
  double row_height = 1;
};

// INVALID_ARGUMENT for `size`; OverLimit if the cells alone exceed kMostPixels, the longest side of
// a picture or kMostVectorCells. The design is valid.
absl::StatusOr<Extent> ExtentOf(const chart::Design& design, const DrawingRequest& request,
                                DrawingFormat format);

// The size of cell of a PNG: as asked for, or else 16 pixels, or fewer (at
// least 4) that keep the picture within kMostPixels.
int CellPixels(const Extent& extent, const DrawingRequest& request);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_EXTENT_H_
