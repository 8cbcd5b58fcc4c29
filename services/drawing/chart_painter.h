// Paints a part of a chart with its labels; the only routine that does, for paper and pictures.
#ifndef ROWPROOF_SERVICES_DRAWING_CHART_PAINTER_H_
#define ROWPROOF_SERVICES_DRAWING_CHART_PAINTER_H_

#include <cairo.h>

#include <cstdint>

#include "services/drawing/chart_model.h"
#include "services/drawing/paper.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// Lengths in user units.
struct ChartLook {
  double cell = 12;
  double font = 7;
  double thin = 0.35;
  double heavy = 1.0;
  bool whole_pixels = false;  // lines on whole pixels
  Rgb colour_a;
  Rgb colour_b;
};

// Rows and stitches first..last, from 1, both inclusive.
struct ChartPart {
  int first_row = 1;
  int last_row = 1;
  int first_stitch = 1;
  int last_stitch = 1;
  int rows() const { return last_row - first_row + 1; }
  int stitches() const { return last_stitch - first_stitch + 1; }
};
ChartPart WholeChart(const ChartModel& model);

// Space that the labels and brackets need around the cells.
struct ChartRoom {
  double left = 0;
  double right = 0;
  double above = 0;
  double below = 0;
};
ChartRoom RoomAround(const ChartModel& model, const ChartLook& look);

// (x, y) is the top left corner of the cells.
void PaintChart(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
                const ChartLook& look, const ChartPart& part, double x, double y);

enum class CellKind : uint8_t { kA, kB, kMarkOnA, kMarkOnB };
// One cell as the chart shows it, for the key.
void PaintCell(cairo_t* cr, chart::Convention shown, const ChartLook& look, CellKind kind, double x,
               double y);
// A triangle that points the way a row is read.
void PaintArrow(cairo_t* cr, double x, double middle, double size, bool to_the_left);

// Perceived lightness by the weights of ITU-R BT.709, from 0 to 1 (parts not linearised: two
// colours are compared as a photocopier sees them).
double Lightness(const Rgb& colour);
// Black or white, whichever stands out.
Rgb Contrasting(const Rgb& ground);
// The ground of a cell of colour A or B.
Rgb Ground(chart::Convention shown, const ChartLook& look, bool colour_b);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHART_PAINTER_H_
