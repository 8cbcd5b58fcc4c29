// Paints a part of a chart with its labels; the only routine that does, for
// paper and pictures.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_PAINTER_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_PAINTER_H_

#include <cairo.h>

#include <cstdint>

#include "services/drawing/charts/drawing.h"
#include "services/drawing/charts/model.h"
#include "services/drawing/charts/page_plan.h"
#include "services/drawing/palette.h"
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
  bool ruled = true;          // thin lines around every cell
  Palette grounds{};          // of the cells, by colour
  bool textured = false;      // tone alone does not distinguish the colours
};

// How the labels and lines of a chart look on paper at a size of cell, in
// points.
ChartLook PaperLook(double cell, const ChartModel& model, const DrawingRequest& request);
// The same in a picture of pixels, with words of PixelFont.
double PixelFont(int cell);
ChartLook PixelLook(int cell, const ChartModel& model, const DrawingRequest& request);

ChartPart WholeChart(const ChartModel& model);

// Where the cells of a part are.
struct ChartFrame {
  ChartPart part;
  double cell = 0;
  double left = 0;
  double top = 0;
  double foundation = 0;  // height of the strip of row 0, below row 1
  double right() const { return left + part.stitches() * cell; }
  double bottom() const { return top + part.rows() * cell; }
  // Where the labels below begin.
  double foot() const { return bottom() + foundation; }
  // Left and top edge of a cell.
  double X(int stitch) const { return left + (part.last_stitch - stitch) * cell; }
  double Y(int row) const { return top + (part.last_row - row) * cell; }
};

// Height of the strip that shows a declared foundation of worked stitches below row 1; 0 without.
double FoundationHeight(const ChartModel& model, const ChartLook& look);

// (x, y) is the top left corner of the cells; the labels are around them (charts/labels.h).
void PaintChart(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
                const ChartLook& look, const ChartPart& part, double x, double y);

enum class CellMark : uint8_t { kNone, kDrop, kChain };
// One cell as the chart shows it, for the key.
void PaintCell(cairo_t* cr, chart::Convention shown, const ChartLook& look, size_t colour,
               CellMark mark, double x, double y);

// Lines of a thickness as rectangles added to the path, on whole pixels if
// the look asks for it.
void AddVerticalLine(cairo_t* cr, const ChartLook& look, double x, double from, double to,
                     double thickness);
void AddHorizontalLine(cairo_t* cr, const ChartLook& look, double y, double from, double to,
                       double thickness);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_PAINTER_H_
