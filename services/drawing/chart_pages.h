// A chart on flowing pages: whole where it fits, else split over pages with a map of them.
#ifndef ROWPROOF_SERVICES_DRAWING_CHART_PAGES_H_
#define ROWPROOF_SERVICES_DRAWING_CHART_PAGES_H_

#include <memory>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "services/drawing/chart_drawing.h"
#include "services/drawing/chart_key.h"
#include "services/drawing/chart_model.h"
#include "services/drawing/chart_painter.h"
#include "services/drawing/flow.h"

namespace rowproof::drawing {

// How a chart is cut into pages.
struct PagePlan {
  double cell = 0;
  int pages_down = 1;
  int pages_across = 1;
  int rows_per_page = 0;
  int stitches_per_page = 0;
  int pages() const { return pages_down * pages_across; }
};

// The part on page `index` (from 0): page 0 has row 1 and stitch 1, the next lie to its left, then
// above. Neighbouring parts share one row or stitch.
ChartPart PartOf(const PagePlan& plan, const ChartModel& model, int index);

// How the labels and lines of a chart look on paper at a size of cell, in points.
ChartLook PaperLook(double cell, const ChartOptions& options);

// Outlives the painting of the flow that it was added to.
class ChartPages {
 public:
  ChartPages(const Typesetter& typesetter, ChartModel model, const ChartOptions& options);

  // OverLimit where the chart alone takes more than kMostPages.
  absl::Status AddTo(Flow& flow, const std::string& heading);

 private:
  bool FitsOnePage(const PageShape& shape, double cell) const;
  PagePlan PlanFor(const PageShape& shape) const;
  void AddWhole(Flow& flow, const std::string& heading, double cell);
  void AddMap(Flow& flow, const std::string& heading, const PagePlan& plan);
  void PaintMap(cairo_t* cr, const PagePlan& plan, double x, double y, double scale) const;
  void AddPart(Flow& flow, const PagePlan& plan, int index);

  const Typesetter& typesetter_;
  const ChartModel model_;
  const ChartOptions options_;
  std::unique_ptr<ChartKey> key_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHART_PAGES_H_
