// Yarn in one stitch: the length of an idealised loop path, L = across * w + up * h + wraps * d mm,
// with stitch pitch w, row pitch h and yarn diameter d.
// Source: the project's own reasoning (strands across, legs up, wraps round a strand of the same
// diameter at centre distance d, 2 pi d each); an assumption until calibrated. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_PATH_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_PATH_H_

#include <array>
#include <cstddef>

#include "services/domain/chart/techniques/stitches.h"

namespace rowproof::estimate {

using chart::kStitchKinds;
using chart::StitchKind;
using chart::StitchPath;

// No stitch takes more of its pitch, row pitch or diameter than this many times.
inline constexpr double kLargestCoefficient = 20;

// Indexed by StitchKind.
using StitchPaths = std::array<StitchPath, kStitchKinds>;

inline constexpr StitchPaths kPriorPaths = [] {
  StitchPaths paths;
  for (size_t i = 0; i < kStitchKinds; ++i) paths[i] = chart::kStitchFacts[i].path;
  return paths;
}();

// mm.
constexpr double PathLengthMm(const StitchPath& path, double w_mm, double h_mm, double d_mm) {
  return path.across * w_mm + path.up * h_mm + path.diameters * d_mm;
}

constexpr const StitchPath& PathOf(const StitchPaths& paths, StitchKind kind) {
  return paths[static_cast<size_t>(kind)];
}

// "ch", "sc", "ssc", "dc2", "dc3", "sl st".
const char* Name(StitchKind kind);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_PATH_H_
