// Yarn in one stitch: the length of an idealised loop path, L = across * w + up * h + wraps * d mm,
// with stitch pitch w, row pitch h and yarn diameter d.
// Source: the project's own reasoning (strands across, legs up, wraps round a strand of the same
// diameter at centre distance d, 2 pi d each); an assumption until calibrated. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_PATH_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_PATH_H_

#include <array>
#include <cstddef>
#include <cstdint>
#include <numbers>

namespace rowproof::estimate {

enum class StitchKind : uint8_t {
  kChain,
  kSingleCrochet,
  kSpikeSingleCrochet,
  kDoubleTwoRowsDown,
  kDoubleThreeRowsDown,
  kSlipStitch,
};
inline constexpr size_t kStitchKinds = 6;

struct StitchPath {
  double across = 0;     // times the stitch pitch
  double up = 0;         // times the row pitch
  double diameters = 0;  // times the yarn's diameter
  bool operator==(const StitchPath&) const = default;
};

// Indexed by StitchKind.
using StitchPaths = std::array<StitchPath, kStitchKinds>;

inline constexpr StitchPaths kPriorPaths = {{
    {3, 0, std::numbers::pi},      // two legs and a bump along the chain, half a wrap
    {3, 2, 2 * std::numbers::pi},  // two strands of top loop, a bar across, two legs, one wrap
    {3, 6, 2 * std::numbers::pi},  // as sc; two strands before and two behind, one row longer
    {4, 6, 3 * std::numbers::pi},  // one strand across more, three strands up two rows, 1.5 wraps
    {4, 9, 3 * std::numbers::pi},  // as above, three rows
    {2, 0, std::numbers::pi},      // the top loop only
}};

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
