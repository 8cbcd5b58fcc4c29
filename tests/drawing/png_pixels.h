// A PNG read back by libpng, for tests that look at single pixels.
#ifndef ROWPROOF_TESTS_DRAWING_PNG_PIXELS_H_
#define ROWPROOF_TESTS_DRAWING_PNG_PIXELS_H_

#include <cstdint>
#include <string>
#include <vector>

namespace rowproof::drawing {

struct Pixel {
  int red = 0;
  int green = 0;
  int blue = 0;
  // By the weights of ITU-R BT.709, from 0 to 255.
  double Lightness() const { return 0.2126 * red + 0.7152 * green + 0.0722 * blue; }
  bool operator==(const Pixel&) const = default;
};

class PngPixels {
 public:
  explicit PngPixels(const std::string& bytes);

  int width() const { return width_; }
  int height() const { return height_; }
  Pixel at(int x, int y) const;

 private:
  int width_ = 0;
  int height_ = 0;
  std::vector<uint8_t> rgb_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_TESTS_DRAWING_PNG_PIXELS_H_
