// A face of the finished fabric as a file.
#ifndef ROWPROOF_SERVICES_DRAWING_FACES_DRAWING_H_
#define ROWPROOF_SERVICES_DRAWING_FACES_DRAWING_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/extent.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// The design and the request are valid, `extent` is theirs. The stop is also the typesetter's.
// Errors: as FacePages; the stop's status.
absl::StatusOr<std::string> DrawFace(const Typesetter& typesetter, const chart::Design& design,
                                     const DrawingRequest& request, const Extent& extent,
                                     DrawingFormat format, const Stop& stop);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_FACES_DRAWING_H_
