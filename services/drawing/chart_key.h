// The key of a chart: what its cells, lines and labels mean.
#ifndef ROWPROOF_SERVICES_DRAWING_CHART_KEY_H_
#define ROWPROOF_SERVICES_DRAWING_CHART_KEY_H_

#include <cairo.h>

#include <functional>
#include <string>
#include <vector>

#include "services/drawing/chart_drawing.h"
#include "services/drawing/chart_model.h"
#include "services/drawing/chart_painter.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// Set once for a width; painted any number of times. Dies before its
// typesetter. Stays in its place.
class ChartKey {
 public:
  ChartKey(const ChartKey&) = delete;
  ChartKey& operator=(const ChartKey&) = delete;
  // `font` in user units; names of colours longer than two lines are cut.
  ChartKey(const Typesetter& typesetter, const ChartModel& model, const ChartLook& look,
           const DrawingRequest& request, double font, double width);

  double height() const { return height_; }
  void Paint(cairo_t* cr, double x, double y) const;

 private:
  using Swatch = std::function<void(cairo_t*, double x, double y)>;
  struct Entry {
    Swatch swatch;
    Text text;
    double y;
  };
  void Add(const std::string& text, Swatch swatch);
  void AddPictureCells(const ChartModel& model, const DrawingRequest& request);
  void AddWorkingCells(const ChartModel& model, const DrawingRequest& request);
  void AddRows(const ChartModel& model);
  void AddRepeats(const ChartModel& model);
  // Cells side by side, at most three, each with the mark.
  Swatch Cells(const ChartModel& model, std::vector<size_t> colours, CellMark mark);

  const Typesetter& typesetter_;
  ChartLook look_;
  double font_;
  double width_;
  double height_ = 0;
  std::vector<Entry> entries_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHART_KEY_H_
