// The key of a chart: what its cells, lines and labels mean.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_KEY_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_KEY_H_

#include "services/drawing/charts/drawing.h"
#include "services/drawing/charts/model.h"
#include "services/drawing/charts/painter.h"
#include "services/drawing/legend.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// The key of a chart in a font of `font` user units. The look is taken by value: its cells get the
// size of the words. Names of colours longer than two lines are cut.
Legend ChartKey(const Typesetter& typesetter, const ChartModel& model, ChartLook look,
                const DrawingRequest& request, double font, double width);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_KEY_H_
