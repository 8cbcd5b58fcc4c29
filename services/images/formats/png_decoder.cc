#include "services/images/formats/png_decoder.h"

#include <png.h>

#include <algorithm>
#include <array>
#include <csetjmp>
#include <cstddef>
#include <cstdio>
#include <cstring>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/images/chart_file.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

constexpr size_t kSignatureBytes = 8;
constexpr size_t kHeaderBytes = kSignatureBytes + 4 + 4 + 13;  // up to the end of IHDR's content
// zlib, "Technical Details": deflate packs at most 1032 bytes into one.
constexpr uint64_t kMostBytesInOne = 1032;

constexpr char kRemedy[] = "save it again as a PNG";

// What libpng's callbacks share with the reader. Nothing in it needs a destructor, because libpng
// leaves its callbacks by longjmp.
struct Source {
  const char* next;
  size_t left;
  char fault[120];
};

void Read(png_structp png, png_bytep out, size_t count) {
  auto* const source = static_cast<Source*>(png_get_io_ptr(png));
  if (count > source->left) png_error(png, "the file ends too early");
  std::memcpy(out, source->next, count);
  source->next += count;
  source->left -= count;
}

[[noreturn]] void Fail(png_structp png, png_const_charp message) {
  auto* const source = static_cast<Source*>(png_get_error_ptr(png));
  std::snprintf(source->fault, sizeof(source->fault), "%s", message);
  png_longjmp(png, 1);
}

void Ignore(png_structp /*png*/, png_const_charp /*message*/) {}

// Runs one step of libpng; false if libpng gave up. The step and all that it calls hold nothing
// with a destructor: longjmp passes over it.
template <typename Step>
bool Succeeds(png_structp png, Step step) {
  if (setjmp(png_jmpbuf(png)) != 0) return false;
  step();
  return true;
}

class Reader {
 public:
  explicit Reader(std::string_view bytes) : source_{bytes.data(), bytes.size(), {}} {
    png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, &source_, Fail, Ignore);
    if (png_ != nullptr) info_ = png_create_info_struct(png_);
  }
  ~Reader() { png_destroy_read_struct(&png_, &info_, nullptr); }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;

  // Reads up to the first pixel; every line will come as red, green, blue, alpha of 8 bits each.
  bool Start() {
    if (png_ == nullptr || info_ == nullptr) return false;
    return Succeeds(png_, [this] {
      png_set_read_fn(png_, &source_, Read);
      png_set_user_limits(png_, kMostPixelsAcross, kMostPixelsAcross);
      png_set_chunk_malloc_max(png_, kMostFileBytes);
      png_set_chunk_cache_max(png_, 1);  // 1: none
      png_set_crc_action(png_, PNG_CRC_ERROR_QUIT, PNG_CRC_ERROR_QUIT);
      png_set_benign_errors(png_, 0);  // what libpng would only warn of is damage too
      png_set_keep_unknown_chunks(png_, PNG_HANDLE_CHUNK_NEVER, nullptr, -1);
      png_read_info(png_, info_);
      if (png_get_color_type(png_, info_) == PNG_COLOR_TYPE_PALETTE) {
        png_set_packing(png_);
        ReadPalette();
      } else {
        png_set_expand(png_);
        png_set_scale_16(png_);
        png_set_gray_to_rgb(png_);
        png_set_add_alpha(png_, 0xff, PNG_FILLER_AFTER);
      }
      png_read_update_info(png_, info_);
    });
  }
  // The next `columns` pixels. Interlacing is left to the caller: the lines of each pass come one
  // after the other.
  bool ReadLine(size_t columns, uint8_t* rgba) {
    if (!Succeeds(png_, [this, rgba] { png_read_row(png_, rgba, nullptr); })) return false;
    return palette_size_ == 0 || LookUp(columns, rgba);
  }
  bool Finish() {
    return Succeeds(png_, [this] { png_read_end(png_, nullptr); });
  }

  bool interlaced() const { return png_get_interlace_type(png_, info_) == PNG_INTERLACE_ADAM7; }
  bool Matches(const PngSize& size) const {
    return png_get_image_width(png_, info_) == static_cast<png_uint_32>(size.width) &&
           png_get_image_height(png_, info_) == static_cast<png_uint_32>(size.height) &&
           png_get_rowbytes(png_, info_) ==
               (palette_size_ == 0 ? size_t{4} : size_t{1}) * static_cast<size_t>(size.width);
  }
  absl::Status Damage() const {
    const char* const fault = source_.fault[0] != '\0' ? source_.fault : "it cannot be read";
    return Refusal("content", fmt::format("The PNG is damaged ({}); {}.", fault, kRemedy));
  }

 private:
  void ReadPalette() {
    png_colorp colours = nullptr;
    int size = 0;
    png_get_PLTE(png_, info_, &colours, &size);
    png_bytep alphas = nullptr;
    int alpha_count = 0;
    png_get_tRNS(png_, info_, &alphas, &alpha_count, nullptr);
    palette_size_ = static_cast<size_t>(std::clamp(size, 0, 256));
    for (size_t i = 0; i < palette_size_; ++i) {
      const png_color& colour = colours[i];
      const bool has_alpha = alphas != nullptr && i < static_cast<size_t>(alpha_count);
      palette_[i] = {colour.red, colour.green, colour.blue, has_alpha ? alphas[i] : uint8_t{255}};
    }
  }
  // From indexes, a byte each, to colours, in place. libpng would take an index beyond the palette
  // for black.
  bool LookUp(size_t columns, uint8_t* line) {
    for (size_t i = columns; i-- > 0;) {
      const size_t index = line[i];
      if (index >= palette_size_) {
        std::snprintf(source_.fault, sizeof(source_.fault), "a pixel beyond the palette");
        return false;
      }
      std::copy(palette_[index].begin(), palette_[index].end(), line + i * 4);
    }
    return true;
  }

  Source source_;
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
  // Red, green, blue, alpha; no entries unless the picture has a palette.
  std::array<std::array<uint8_t, 4>, 256> palette_{};
  size_t palette_size_ = 0;
};

// One of the seven passes of an interlaced picture, or the only one of any other.
struct Pass {
  int first_x = 0;
  int first_y = 0;
  int step_x = 1;
  int step_y = 1;
};

std::vector<Pass> Passes(bool interlaced) {
  if (!interlaced) return {Pass{}};
  std::vector<Pass> passes;
  passes.reserve(PNG_INTERLACE_ADAM7_PASSES);
  for (int i = 0; i < PNG_INTERLACE_ADAM7_PASSES; ++i) {
    passes.push_back({PNG_PASS_START_COL(i), PNG_PASS_START_ROW(i), 1 << PNG_PASS_COL_SHIFT(i),
                      1 << PNG_PASS_ROW_SHIFT(i)});
  }
  return passes;
}

uint8_t OnWhite(int channel, int alpha) {
  return static_cast<uint8_t>((channel * alpha + 255 * (255 - alpha) + 127) / 255);
}

uint32_t BigEndian(std::string_view bytes) {
  uint32_t value = 0;
  for (const char c : bytes.substr(0, 4)) value = value << 8 | static_cast<unsigned char>(c);
  return value;
}

// Bits per pixel; 1 for a colour type that does not exist, which libpng will refuse.
uint64_t BitsOfPixel(int bit_depth, int colour_type) {
  const auto depth = static_cast<uint64_t>(std::clamp(bit_depth, 1, 16));
  switch (colour_type) {
    case PNG_COLOR_TYPE_GRAY_ALPHA:
      return 2 * depth;
    case PNG_COLOR_TYPE_RGB:
      return 3 * depth;
    case PNG_COLOR_TYPE_RGB_ALPHA:
      return 4 * depth;
    case PNG_COLOR_TYPE_GRAY:
    case PNG_COLOR_TYPE_PALETTE:
      return depth;
    default:
      return 1;
  }
}

}  // namespace

Rgb PngPixels::colour(int i) const {
  const uint8_t* const pixel = rgba.data() + static_cast<size_t>(i) * 4;
  if (pixel[3] == 255) return {pixel[0], pixel[1], pixel[2]};
  return {OnWhite(pixel[0], pixel[3]), OnWhite(pixel[1], pixel[3]), OnWhite(pixel[2], pixel[3])};
}

bool HasPngSignature(std::string_view bytes) {
  return bytes.substr(0, kSignatureBytes) == std::string_view("\x89PNG\r\n\x1a\n", kSignatureBytes);
}

absl::StatusOr<PngSize> ReadPngSize(std::string_view bytes) {
  if (!HasPngSignature(bytes) || bytes.size() < kHeaderBytes || BigEndian(bytes.substr(8)) != 13 ||
      bytes.substr(12, 4) != "IHDR") {
    return Refusal("content", fmt::format("The PNG's header is cut short; {}.", kRemedy));
  }
  const uint32_t width = BigEndian(bytes.substr(16));
  const uint32_t height = BigEndian(bytes.substr(20));
  if (auto status = CheckDimensions("content", width, height); !status.ok()) return status;
  const uint64_t bits = uint64_t{width} * height * BitsOfPixel(bytes[24], bytes[25]);
  if (bits / 8 > kMostBytesInOne * bytes.size()) {
    return Refusal("content",
                   fmt::format("The PNG is damaged ({} bytes cannot hold {} x {} pixels); {}.",
                               bytes.size(), width, height, kRemedy));
  }
  return PngSize{static_cast<int>(width), static_cast<int>(height)};
}

absl::Status DecodePng(std::string_view bytes, const PngSize& size,
                       absl::FunctionRef<bool(const PngPixels&)> take) {
  std::vector<uint8_t> line(static_cast<size_t>(size.width) * 4);
  Reader reader(bytes);
  if (!reader.Start() || !reader.Matches(size)) return reader.Damage();
  for (const Pass& pass : Passes(reader.interlaced())) {
    // A pass that has no pixels is left out of the file.
    const int columns = (size.width - pass.first_x + pass.step_x - 1) / pass.step_x;
    if (columns <= 0) continue;
    for (int y = pass.first_y; y < size.height; y += pass.step_y) {
      if (!reader.ReadLine(static_cast<size_t>(columns), line.data())) return reader.Damage();
      const std::span<const uint8_t> rgba(line.data(), static_cast<size_t>(columns) * 4);
      if (!take({y, pass.first_x, pass.step_x, rgba})) return absl::OkStatus();
    }
  }
  return reader.Finish() ? absl::OkStatus() : reader.Damage();
}

}  // namespace rowproof::images
