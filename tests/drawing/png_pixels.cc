#include "tests/drawing/png_pixels.h"

#include <png.h>

#include "gtest/gtest.h"

namespace rowproof::drawing {

PngPixels::PngPixels(const std::string& bytes) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  EXPECT_NE(png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()), 0)
      << image.message;
  image.format = PNG_FORMAT_RGB;
  rgb_.resize(PNG_IMAGE_SIZE(image));
  EXPECT_NE(png_image_finish_read(&image, nullptr, rgb_.data(), 0, nullptr), 0) << image.message;
  width_ = static_cast<int>(image.width);
  height_ = static_cast<int>(image.height);
}

Pixel PngPixels::at(int x, int y) const {
  if (x < 0 || y < 0 || x >= width_ || y >= height_) {
    ADD_FAILURE() << x << ", " << y << " lies outside the picture";
    return {};
  }
  const size_t place =
      3 * (static_cast<size_t>(y) * static_cast<size_t>(width_) + static_cast<size_t>(x));
  return {rgb_[place], rgb_[place + 1], rgb_[place + 2]};
}

}  // namespace rowproof::drawing
