#include "tests/images/png_pieces.h"

#include <algorithm>

namespace rowproof::images {
namespace {

// W3C PNG Specification, annex D: CRC-32 with the polynomial 0xedb88320.
uint32_t Crc(std::string_view bytes) {
  uint32_t crc = 0xffffffff;
  for (const char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int i = 0; i < 8; ++i) crc = (crc & 1) != 0 ? crc >> 1 ^ 0xedb88320 : crc >> 1;
  }
  return ~crc;
}

// RFC 1950, section 9.
uint32_t Adler(std::string_view bytes) {
  uint32_t a = 1;
  uint32_t b = 0;
  for (const char c : bytes) {
    a = (a + static_cast<unsigned char>(c)) % 65521;
    b = (b + a) % 65521;
  }
  return b << 16 | a;
}

char Byte(uint32_t value) { return static_cast<char>(value & 0xff); }

}  // namespace

std::string BigEndian(uint32_t value) {
  return {Byte(value >> 24), Byte(value >> 16), Byte(value >> 8), Byte(value)};
}

std::string Chunk(const std::string& type, const std::string& content) {
  return BigEndian(static_cast<uint32_t>(content.size())) + type + content +
         BigEndian(Crc(type + content));
}

std::string Stored(std::string_view content) {
  std::string out = "\x78\x01";
  std::string_view left = content;
  do {
    const auto length = static_cast<uint32_t>(std::min<size_t>(left.size(), 65535));
    const bool last = length == left.size();
    out += last ? '\x01' : '\x00';
    out += {Byte(length), Byte(length >> 8), Byte(~length), Byte(~length >> 8)};
    out += left.substr(0, length);
    left.remove_prefix(length);
  } while (!left.empty());
  return out + BigEndian(Adler(content));
}

std::string Signature() { return {"\x89PNG\r\n\x1a\n", 8}; }

std::string HeaderChunk(const PngHeader& header) {
  return Chunk("IHDR", BigEndian(header.width) + BigEndian(header.height) +
                           std::string{static_cast<char>(header.bit_depth),
                                       static_cast<char>(header.colour_type), '\0', '\0',
                                       static_cast<char>(header.interlace)});
}

std::string Png(const PngHeader& header, std::string_view lines, const std::string& before) {
  return Signature() + HeaderChunk(header) + before + Chunk("IDAT", Stored(lines)) +
         Chunk("IEND", "");
}

}  // namespace rowproof::images
