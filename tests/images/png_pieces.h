// PNG files put together by hand from the format's published description (W3C, "Portable Network
// Graphics (PNG) Specification", second edition), sound or damaged as a test wants them.
#ifndef ROWPROOF_TESTS_IMAGES_PNG_PIECES_H_
#define ROWPROOF_TESTS_IMAGES_PNG_PIECES_H_

#include <cstdint>
#include <string>
#include <string_view>

namespace rowproof::images {

// Numbers in the format's byte order.
std::string BigEndian(uint32_t value);

// Length, type, content and CRC.
std::string Chunk(const std::string& type, const std::string& content);

// A zlib stream of stored blocks.
std::string Stored(std::string_view content);

struct PngHeader {
  uint32_t width = 1;
  uint32_t height = 1;
  int bit_depth = 8;
  int colour_type = 2;  // 0 grey, 2 colour, 3 palette, 4 grey and alpha, 6 colour and alpha
  int interlace = 0;
};

std::string Signature();
std::string HeaderChunk(const PngHeader& header);

// Signature, header, `before` (whole chunks), one IDAT of stored `lines` (each with its filter
// byte) and IEND.
std::string Png(const PngHeader& header, std::string_view lines, const std::string& before = "");

}  // namespace rowproof::images

#endif  // ROWPROOF_TESTS_IMAGES_PNG_PIECES_H_
