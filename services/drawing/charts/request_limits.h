// What a drawing may be asked for. Thread-safe.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_REQUEST_LIMITS_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_REQUEST_LIMITS_H_

#include "absl/status/status.h"
#include "services/drawing/charts/drawing.h"

namespace rowproof::drawing {

// INVALID_ARGUMENT with the field's name (date, cell_mm, colours[1], names[0],
// gauge.rows_per_decimetre, wrong_side_share, ...), the value and what is accepted.
absl::Status Validate(const DrawingRequest& request);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_REQUEST_LIMITS_H_
