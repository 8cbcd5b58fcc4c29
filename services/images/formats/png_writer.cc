#include "services/images/formats/png_writer.h"

#include <png.h>

#include <csetjmp>
#include <cstddef>

#include "services/domain/check.h"
#include "services/images/file_note.h"

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

  // False if memory ran out. Nothing with a destructor lives where libpng may longjmp.
  bool Write(const PngLines& lines, const png_color* palette, png_text* note, const Stop& stop) {
    if (setjmp(png_jmpbuf(png_)) != 0) return false;
    png_set_IHDR(
        png_, info_, static_cast<png_uint_32>(lines.width),
        static_cast<png_uint_32>(lines.lines.size()) * static_cast<png_uint_32>(lines.times),
        lines.bit_depth, PNG_COLOR_TYPE_PALETTE, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
        PNG_FILTER_TYPE_DEFAULT);
    png_set_PLTE(png_, info_, palette, static_cast<int>(lines.palette.size()));
    png_set_text(png_, info_, note, 1);
    png_write_info(png_, info_);
    for (const auto& line : lines.lines) {
      for (int i = 0; i < lines.times; ++i) {
        if (stop.After(lines.width)) return true;
        png_write_row(png_, line.data());
      }
    }
    png_write_end(png_, info_);
    return true;
  }

 private:
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

}  // namespace

std::string WritePng(const PngLines& lines, std::string note, const Stop& stop) {
  std::vector<png_color> palette;
  palette.reserve(lines.palette.size());
  for (const Rgb colour : lines.palette) {
    palette.push_back({colour.red, colour.green, colour.blue});
  }
  std::string keyword = kPngNoteKeyword;
  png_text text{};
  text.compression = PNG_TEXT_COMPRESSION_NONE;
  text.key = keyword.data();
  text.text = note.data();
  text.text_length = note.size();
  std::string png;
  ROWPROOF_CHECK(Writer(&png).Write(lines, palette.data(), &text, stop));
  return png;
}

}  // namespace rowproof::images
