// Reads a PNG's pixels line by line, so that a picture costs the memory of one line.
#ifndef ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_DECODER_H_
#define ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_DECODER_H_

#include <cstdint>
#include <span>
#include <string_view>

#include "absl/functional/function_ref.h"
#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/images/colour.h"

namespace rowproof::images {

bool HasPngSignature(std::string_view bytes);

struct PngSize {
  int width = 0;
  int height = 0;
};

// The sides, from the header alone. INVALID_ARGUMENT, field "content": no PNG header, sides that
// CheckDimensions refuses, or more pixels than so many bytes can hold.
absl::StatusOr<PngSize> ReadPngSize(std::string_view bytes);

// Pixels of line y at x = first, first + step, ...: every pixel of a line once, but an interlaced
// picture's lines come in up to seven parts. Valid during the call only.
struct PngPixels {
  int y = 0;
  int first = 0;
  int step = 1;
  // Four bytes per pixel: red, green, blue, alpha.
  std::span<const uint8_t> rgba;
  int count() const { return static_cast<int>(rgba.size() / 4); }
  // A pixel's colour, laid on white.
  Rgb colour(int i) const;
};

// Calls `take` with all pixels, unless it returns false, which ends the reading (OK).
// INVALID_ARGUMENT, field "content": the file is damaged or cut short, even if that shows only
// after the last pixel.
absl::Status DecodePng(std::string_view bytes, const PngSize& size,
                       absl::FunctionRef<bool(const PngPixels&)> take);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_DECODER_H_
