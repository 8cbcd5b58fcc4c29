// Pages into a PDF with running header, page numbers and fixed metadata.
#ifndef ROWPROOF_SERVICES_DRAWING_DOCUMENT_H_
#define ROWPROOF_SERVICES_DRAWING_DOCUMENT_H_

#include <cairo.h>

#include <functional>
#include <string>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/drawing/flow.h"

namespace rowproof::drawing {

struct DocumentFacts {
  std::string title;
  std::string author;        // may be empty
  std::string header_right;  // next to the title in the running header
  std::string footer_left;
  std::string date;  // civil date YYYY-MM-DD
};

// INVALID_ARGUMENT for `field` unless `date` is a civil date written
// YYYY-MM-DD.
absl::Status ValidateDate(const std::string& field, const std::string& date);

// The same flow and facts give the same bytes. Errors: OverLimit if the flow
// is over kMostPages, INTERNAL if cairo fails, the stop's status if the
// drawing has to end.
absl::StatusOr<std::string> WritePdf(const Flow& flow, const DocumentFacts& facts);

// One picture. `paint` draws in units of the picture: pixels of a PNG (its
// sides are rounded up), points of an SVG. OverLimit for a PNG over kMostPixels
// or kMostPictureSide; the stop's status if the typesetter's drawing has to end.
absl::StatusOr<std::string> WritePng(const Typesetter& typesetter, double width, double height,
                                     const std::function<void(cairo_t*)>& paint);
absl::StatusOr<std::string> WriteSvg(const Typesetter& typesetter, double width, double height,
                                     const std::function<void(cairo_t*)>& paint);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_DOCUMENT_H_
