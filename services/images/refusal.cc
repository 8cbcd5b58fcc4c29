#include "services/images/refusal.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

absl::Status Refusal(const std::string& field, std::string sentence) {
  return InvalidFields({{field, std::move(sentence)}});
}

absl::Status CheckDimensions(const std::string& field, uint64_t width, uint64_t height) {
  constexpr uint64_t kSide = kMostPixelsAcross;
  // The sides are held to their limit first, so that the product cannot overflow.
  if (width >= 1 && height >= 1 && width <= kSide && height <= kSide &&
      width * height <= uint64_t{kMostPixels}) {
    return absl::OkStatus();
  }
  return Refusal(field,
                 fmt::format("The picture has {} x {} pixels; it may have 1 to {} a side and "
                             "{} in all.",
                             width, height, kSide, kMostPixels));
}

absl::Status CheckFileBytes(const std::string& field, size_t count) {
  if (count >= 1 && count <= kMostFileBytes) return absl::OkStatus();
  if (count == 0) return Refusal(field, "The file is empty.");
  return Refusal(field,
                 fmt::format("The file has {} bytes; it may have {}.", count, kMostFileBytes));
}

absl::Status TooManyColours() {
  return Refusal("content",
                 fmt::format("The picture has more than {} colours; save it as a PNG with "
                             "one flat colour per yarn.",
                             kMostPictureColours));
}

std::string Shown(char byte) {
  const auto code = static_cast<unsigned char>(byte);
  if (code > 0x20 && code < 0x7f) return fmt::format("\"{}\"", byte);
  return fmt::format("the byte 0x{:02x}", code);
}

}  // namespace rowproof::images
