// What is printed around the cells of a chart: row labels, stitch numbers, brackets of repeated
// bands.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_LABELS_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_LABELS_H_

#include <cairo.h>

#include "services/drawing/charts/model.h"
#include "services/drawing/charts/painter.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// Space that the labels and brackets need around the cells.
struct ChartRoom {
  double left = 0;
  double right = 0;
  double above = 0;
  double below = 0;
};
ChartRoom RoomAround(const ChartModel& model, const ChartLook& look);

void PaintLabels(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
                 const ChartLook& look, const ChartFrame& frame);

// A triangle that points the way a row is read.
void PaintArrow(cairo_t* cr, double x, double middle, double size, bool to_the_left);

// The least round step such that numbers it divides, `pitch` apart from one to
// the next, get room of `needed` each.
int LabelStep(double pitch, double needed);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_LABELS_H_
