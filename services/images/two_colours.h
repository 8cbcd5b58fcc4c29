// Which two colours a picture has, and which of them each of its pixels is.
#ifndef ROWPROOF_SERVICES_IMAGES_TWO_COLOURS_H_
#define ROWPROOF_SERVICES_IMAGES_TWO_COLOURS_H_

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "absl/container/flat_hash_map.h"
#include "absl/status/statusor.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

struct CountedColour {
  Rgb colour;
  int64_t pixels = 0;
};

// How many pixels a picture has of each colour. Not thread-safe.
class ColourCounts {
 public:
  // False, and nothing counted, where this would be colour number kMostColours + 1.
  bool Add(Rgb colour, int64_t pixels);
  size_t size() const { return pixels_.size(); }
  // Most frequent first; equally frequent ones by red, green, blue.
  std::vector<CountedColour> Sorted() const;

 private:
  absl::flat_hash_map<uint32_t, int64_t> pixels_;
};

// The two colours and, for each colour that was counted, whether it is read as B. A value type.
struct TwoColours {
  Rgb colour_a;
  Rgb colour_b;
  absl::flat_hash_map<uint32_t, bool> reads_as_b;  // by Packed
  bool IsB(Rgb colour) const { return reads_as_b.at(Packed(colour)); }
};

// As ImportSettings says. INVALID_ARGUMENT, field "image": colours that are neither A nor B within
// the tolerance, listed with their pixels, the most frequent first, twelve at most.
absl::StatusOr<TwoColours> FindTwoColours(const ColourCounts& counts,
                                          const ImportSettings& settings);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_TWO_COLOURS_H_
