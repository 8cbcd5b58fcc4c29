#include <png.h>

#include <csetjmp>
#include <cstddef>
#include <vector>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

// Where libpng writes to. An exception may not pass through libpng, nor longjmp out of a handler.
void Append(png_structp png, png_bytep bytes, size_t count) {
  auto* const out = static_cast<std::string*>(png_get_io_ptr(png));
  bool full = false;
  try {
    out->append(reinterpret_cast<const char*>(bytes), count);
  } catch (...) {
    full = true;
  }
  if (full) png_error(png, "out of memory");
}

void Flush(png_structp /*png*/) {}

[[noreturn]] void Fail(png_structp png, png_const_charp /*message*/) { png_longjmp(png, 1); }

void Ignore(png_structp /*png*/, png_const_charp /*message*/) {}

png_color Entry(Rgb colour) { return {colour.red, colour.green, colour.blue}; }

class Writer {
 public:
  explicit Writer(std::string* out) {
    png_ = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, Fail, Ignore);
    if (png_ != nullptr) info_ = png_create_info_struct(png_);
    ROWPROOF_CHECK(png_ != nullptr && info_ != nullptr);
    png_set_write_fn(png_, out, Append, Flush);
  }
  ~Writer() { png_destroy_write_struct(&png_, &info_); }
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

  // `lines`: for each row of cells, top first, one line of pixels, to be written `scale` times.
  // False where memory ran out. Nothing with a destructor lives where libpng may longjmp.
  bool Write(png_uint_32 width, const std::vector<std::vector<uint8_t>>& lines, int scale,
             const png_color (&palette)[2]) {
    if (setjmp(png_jmpbuf(png_)) != 0) return false;
    png_set_IHDR(png_, info_, width,
                 static_cast<png_uint_32>(lines.size()) * static_cast<png_uint_32>(scale), 1,
                 PNG_COLOR_TYPE_PALETTE, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                 PNG_FILTER_TYPE_DEFAULT);
    png_set_PLTE(png_, info_, palette, 2);
    png_write_info(png_, info_);
    for (const auto& line : lines) {
      for (int i = 0; i < scale; ++i) png_write_row(png_, line.data());
    }
    png_write_end(png_, info_);
    return true;
  }

 private:
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

// One line of pixels, the most significant bit of a byte first.
std::vector<uint8_t> LineOf(const chart::Grid& cells, int row, int scale) {
  std::vector<uint8_t> line((static_cast<size_t>(cells.stitches() * scale) + 7) / 8, 0);
  size_t x = 0;
  for (int stitch = cells.stitches(); stitch >= 1; --stitch) {
    const bool set = cells.at(row, stitch);
    for (int i = 0; i < scale; ++i, ++x) {
      if (set) line[x / 8] = static_cast<uint8_t>(line[x / 8] | 0x80 >> x % 8);
    }
  }
  return line;
}

}  // namespace

absl::StatusOr<std::string> ExportPng(const chart::Grid& cells, int cell_scale, Rgb colour_a,
                                      Rgb colour_b) {
  ROWPROOF_CHECK(!cells.empty());
  if (cell_scale < 1 || cell_scale > kLargestCellScale) {
    return InvalidField("cell_scale", fmt::format("{}", cell_scale),
                        fmt::format("1 to {} pixels a cell", kLargestCellScale));
  }
  if (colour_a == colour_b) {
    return InvalidField("colour_b", Text(colour_b), "a colour other than colour A");
  }
  const auto scale = static_cast<uint64_t>(cell_scale);
  const uint64_t width = static_cast<uint64_t>(cells.stitches()) * scale;
  const uint64_t height = static_cast<uint64_t>(cells.rows()) * scale;
  if (auto status = CheckDimensions("cell_scale", width, height); !status.ok()) return status;

  std::vector<std::vector<uint8_t>> lines;
  lines.reserve(static_cast<size_t>(cells.rows()));
  for (int row = cells.rows(); row >= 1; --row) lines.push_back(LineOf(cells, row, cell_scale));
  std::string png;
  const png_color palette[2] = {Entry(colour_a), Entry(colour_b)};
  ROWPROOF_CHECK(Writer(&png).Write(static_cast<png_uint_32>(width), lines, cell_scale, palette));
  return png;
}

}  // namespace rowproof::images
