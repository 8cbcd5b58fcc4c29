// A picture of two tones, a bit a pixel, and the cells of a chart that it shows.
#ifndef ROWPROOF_SERVICES_IMAGES_TWO_TONE_PICTURE_H_
#define ROWPROOF_SERVICES_IMAGES_TWO_TONE_PICTURE_H_

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

// Pixels are counted from 0 at the top left corner. Bit x of a line's words is pixel x; bits past
// the last pixel are zero. A value type; const access from several threads is safe.
class TwoTonePicture {
 public:
  // All pixels zero. The dimensions have passed CheckDimensions.
  TwoTonePicture(int width, int height);

  int width() const { return width_; }
  int height() const { return height_; }

  bool at(int x, int y) const { return (words_[Index(x, y)] >> (x % 64) & 1) != 0; }
  void set(int x, int y, bool value) {
    uint64_t& word = words_[Index(x, y)];
    const uint64_t mask = uint64_t{1} << (x % 64);
    word = value ? word | mask : word & ~mask;
  }
  int64_t CountSet() const;
  // Every zero becomes `zero`, every one `one`.
  void Recode(bool zero, bool one);

  // Columns x > 0 in which some line differs from its pixel to the left; lines y > 0 that differ
  // from the line above. Ascending.
  std::vector<int> ChangingColumns() const;
  std::vector<int> ChangingLines() const;

 private:
  size_t Index(int x, int y) const {
    return static_cast<size_t>(y) * words_per_line_ + static_cast<size_t>(x) / 64;
  }

  int width_;
  int height_;
  size_t words_per_line_;
  std::vector<uint64_t> words_;
};

// What a scale that is not given is.
enum class ScaleRule : uint8_t { kFound, kOne };

// Turns pixels into cells (one pixel: set) as the settings say; fills everything of the result but
// format and colours. INVALID_ARGUMENT: a given scale that does not divide the sides, or that
// leaves a cell with two colours ("cell_scale"); more cells than a chart may have (`field`).
absl::StatusOr<ImportedChart> ChartOf(const TwoTonePicture& picture, ScaleRule rule,
                                      const ImportSettings& settings, const std::string& field);

// INVALID_ARGUMENT with "tolerance", "cell_scale" or "colour_b".
absl::Status CheckSettings(const ImportSettings& settings);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_TWO_TONE_PICTURE_H_
