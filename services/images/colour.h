// A colour of a picture's pixels, as stored: eight bits a channel, no gamma. Thread-safe.
#ifndef ROWPROOF_SERVICES_IMAGES_COLOUR_H_
#define ROWPROOF_SERVICES_IMAGES_COLOUR_H_

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rowproof::images {

struct Rgb {
  uint8_t red = 0;
  uint8_t green = 0;
  uint8_t blue = 0;
  bool operator==(const Rgb&) const = default;
};

inline constexpr Rgb kWhite{255, 255, 255};
inline constexpr Rgb kBlack{0, 0, 0};

// "#rrggbb", in small letters; and back, from letters of either case. No value for any other text.
std::string Text(Rgb colour);
std::optional<Rgb> ParseRgb(std::string_view text);

// 0x00rrggbb.
inline uint32_t Packed(Rgb colour) {
  return uint32_t{colour.red} << 16 | uint32_t{colour.green} << 8 | uint32_t{colour.blue};
}
inline Rgb Unpacked(uint32_t packed) {
  return {static_cast<uint8_t>(packed >> 16 & 0xff), static_cast<uint8_t>(packed >> 8 & 0xff),
          static_cast<uint8_t>(packed & 0xff)};
}

// The largest of the differences in red, green and blue, 0 to 255.
int Distance(Rgb one, Rgb other);

// Luma 0 to 255 with the weights of ITU-R BT.601 (0.299, 0.587, 0.114), times 1000.
int Luma1000(Rgb colour);

// Darker than the middle of black and white.
inline bool IsDark(Rgb colour) { return 2 * Luma1000(colour) < 255'000; }

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_COLOUR_H_
