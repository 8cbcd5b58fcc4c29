// A chart on flowing pages: whole if it fits, else split over pages, each
// with a map of them.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_PAGES_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_PAGES_H_

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/charts/model.h"
#include "services/drawing/charts/page_plan.h"
#include "services/drawing/charts/painter.h"
#include "services/drawing/flow.h"
#include "services/drawing/legend.h"

namespace rowproof::drawing {

// Outlives the painting of the flow that it was added to.
class ChartPages {
 public:
  ChartPages(const Typesetter& typesetter, ChartModel model, const DrawingRequest& request);

  // The first page has `taken` points less for the chart, so that a title stays with it. OverLimit
  // if the chart alone takes more than kMostPages.
  absl::Status AddTo(Flow& flow, const std::string& heading, double taken = 0);

 private:
  bool FitsOnePage(const PageShape& shape, double cell, double taken) const;
  PagePlan PlanFor(const PageShape& shape) const;
  // The size that the request asks for, in points.
  std::optional<double> ChosenCell() const;
  void AddWhole(Flow& flow, const std::string& heading, double cell);
  void AddMap(Flow& flow, const std::string& heading, const PagePlan& plan);
  void PaintMap(cairo_t* cr, const PagePlan& plan, double x, double y, double scale) const;
  void AddPart(Flow& flow, const PagePlan& plan, int index);
  std::string PartHeading(const PagePlan& plan, const ChartPart& part, int index) const;

  const Typesetter& typesetter_;
  const ChartModel model_;
  const DrawingRequest request_;
  std::unique_ptr<Legend> key_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_PAGES_H_
