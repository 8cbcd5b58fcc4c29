// A face of the finished fabric on flowing pages: filling one page, or with stitches of a chosen
// size and then, if it does not fit, split over pages as a chart is.
#ifndef ROWPROOF_SERVICES_DRAWING_FACES_PAGES_H_
#define ROWPROOF_SERVICES_DRAWING_FACES_PAGES_H_

#include "absl/status/status.h"
#include "services/drawing/charts/page_plan.h"
#include "services/drawing/extent.h"
#include "services/drawing/faces/model.h"
#include "services/drawing/faces/painter.h"
#include "services/drawing/flow.h"
#include "services/drawing/legend.h"

namespace rowproof::drawing {

// Outlives the painting of the flow that it was added to.
class FacePages {
 public:
  FacePages(const Typesetter& typesetter, FaceModel model, const DrawingRequest& request,
            const Extent& extent);

  // The flow is on its first page, with at most a title above it. INVALID_ARGUMENT for `cell_mm` if
  // a page does not hold two stitches and two rows of that size, OverLimit over kMostPages.
  absl::Status AddTo(Flow& flow);

 private:
  FaceLook LookAt(double cell) const;
  // Of the rows of a part, in points.
  double HeightOf(const ChartPart& part, const FaceLook& look) const;
  // The largest stitch with which all of it fits `width` x `height` points, numbers included.
  double LargestWhole(double width, double height) const;
  absl::StatusOr<PagePlan> PlanFor(const Flow& flow, double cell) const;
  // The fabric at the centre, `caption_` below; with a plan its pages' numbers over it.
  void AddWhole(Flow& flow, double cell, const std::optional<PagePlan>& plan);
  void AddPart(Flow& flow, const PagePlan& plan, int index);

  const Typesetter& typesetter_;
  const FaceModel model_;
  const DrawingRequest request_;
  const Extent extent_;
  const std::vector<double> heights_;  // FaceModel::Heights
  std::optional<Legend> caption_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_FACES_PAGES_H_
