// The yarn of one size as bars: a group for each yarn, a bar for each part, in metres and yards.
//
// It can be read without colour: every bar is labelled with part, length and share, and each yarn
// has its own hatching. The same input gives the same bytes. Thread-safe, as charts/drawing.h.
#ifndef ROWPROOF_SERVICES_DRAWING_BREAKDOWN_DRAWING_H_
#define ROWPROOF_SERVICES_DRAWING_BREAKDOWN_DRAWING_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/estimate/estimate.h"

namespace rowproof::drawing {

// Error: INTERNAL if fonts are missing or cairo fails.
absl::StatusOr<std::string> BreakdownSvg(const estimate::SizeEstimate& estimate);
absl::StatusOr<std::string> BreakdownPng(const estimate::SizeEstimate& estimate);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_BREAKDOWN_DRAWING_H_
