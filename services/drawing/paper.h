// Paper and colours of everything that is drawn.
#ifndef ROWPROOF_SERVICES_DRAWING_PAPER_H_
#define ROWPROOF_SERVICES_DRAWING_PAPER_H_

#include <cstdint>

#include "services/quantities/units.h"

namespace rowproof::drawing {

// ISO 216 A4 (210 x 297 mm) and US Letter (8.5 x 11 in), upright.
enum class Paper : uint8_t { kA4, kLetter };

// 72 points an inch of 25.4 mm.
inline constexpr double kPointsPerMm = 72 / quantities::kMmPerInch;

// A colour in sRGB, each part from 0 to 1.
struct Rgb {
  double red = 0;
  double green = 0;
  double blue = 0;
  bool operator==(const Rgb&) const = default;
};

// A drawn document has at most this many pages; a larger one is refused
// (OverLimit).
inline constexpr int kMostPages = 400;
// A drawn picture has at most this many pixels, and at most so many along a
// side.
inline constexpr int64_t kMostPixels = 40'000'000;
inline constexpr int kMostPictureSide = 30'000;

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_PAPER_H_
