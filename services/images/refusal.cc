#include "services/images/refusal.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

absl::Status Refusal(const std::string& field, const std::string& met,
                     const std::string& accepted) {
  return InvalidFields({{field, fmt::format("{}; accepted is {}", met, accepted)}});
}

absl::Status CheckDimensions(const std::string& field, uint64_t width, uint64_t height) {
  constexpr uint64_t kSide = kMostPixelsAcross;
  // The sides are held to their limit first, so that the product cannot overflow.
  if (width >= 1 && height >= 1 && width <= kSide && height <= kSide &&
      width * height <= uint64_t{kMostPixels}) {
    return absl::OkStatus();
  }
  return Refusal(field, fmt::format("a picture of {} x {} pixels was met", width, height),
                 fmt::format("1 to {} pixels a side and {} in all", kSide, kMostPixels));
}

absl::Status CheckFileBytes(const std::string& field, size_t count) {
  if (count >= 1 && count <= kMostFileBytes) return absl::OkStatus();
  return Refusal(field, fmt::format("a file of {} bytes was met", count),
                 fmt::format("1 to {} bytes", kMostFileBytes));
}

absl::Status TooManyColours() {
  return Refusal("image",
                 fmt::format("a picture of more than {} colours was met", kMostPictureColours),
                 "a picture of few colours");
}

std::string Shown(char byte) {
  const auto code = static_cast<unsigned char>(byte);
  if (code > 0x20 && code < 0x7f) return fmt::format("\"{}\"", byte);
  return fmt::format("the byte 0x{:02x}", code);
}

}  // namespace rowproof::images
