#include "services/images/colour.h"

#include <algorithm>
#include <cstdlib>

#include "fmt/format.h"

namespace rowproof::images {

std::string Text(Rgb colour) { return fmt::format("#{:06x}", Packed(colour)); }

std::optional<Rgb> ParseRgb(std::string_view text) {
  if (text.size() != 7 || text.front() != '#') return std::nullopt;
  uint32_t packed = 0;
  for (const char c : text.substr(1)) {
    packed <<= 4;
    if (c >= '0' && c <= '9') {
      packed |= static_cast<uint32_t>(c - '0');
    } else if (c >= 'a' && c <= 'f') {
      packed |= static_cast<uint32_t>(c - 'a' + 10);
    } else if (c >= 'A' && c <= 'F') {
      packed |= static_cast<uint32_t>(c - 'A' + 10);
    } else {
      return std::nullopt;
    }
  }
  return Unpacked(packed);
}

int Distance(Rgb one, Rgb other) {
  return std::max({std::abs(one.red - other.red), std::abs(one.green - other.green),
                   std::abs(one.blue - other.blue)});
}

int Luma1000(Rgb colour) { return 299 * colour.red + 587 * colour.green + 114 * colour.blue; }

}  // namespace rowproof::images
