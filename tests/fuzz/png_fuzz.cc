#include <zlib.h>

#include <string>
#include <string_view>

#include "tests/fuzz/chart_round_trip.h"

namespace {

uint32_t BigEndian(std::string_view bytes) {
  uint32_t value = 0;
  for (const char c : bytes.substr(0, 4)) value = value << 8 | static_cast<unsigned char>(c);
  return value;
}

// The same file with the right check sum after each whole chunk: else nearly every change would be
// refused by its sum, and what lies behind never be reached.
std::string WithRightSums(std::string_view bytes) {
  std::string file(bytes);
  size_t at = 8;  // after the signature
  while (file.size() >= at + 12) {
    const size_t length = BigEndian(std::string_view(file).substr(at));
    if (file.size() - at - 12 < length) break;
    const auto* const chunk = reinterpret_cast<const Bytef*>(file.data()) + at + 4;
    const auto sum = static_cast<uint32_t>(crc32(0, chunk, static_cast<uInt>(length + 4)));
    for (size_t i = 0; i < 4; ++i) {
      file[at + 8 + length + i] = static_cast<char>(sum >> (24 - 8 * i) & 0xff);
    }
    at += 12 + length;
  }
  return file;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace rowproof::images;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  // Settings other than the usual, by the bytes in the middle.
  const uint8_t choice = size == 0 ? 0 : data[size / 2];
  const uint8_t more = size == 0 ? 0 : data[size / 3];
  for (const std::string& file : {std::string(bytes), WithRightSums(bytes)}) {
    ReadBothWays([&](const ImportSettings& settings) { return ImportChart(file, settings); },
                 choice, more);
  }
  return 0;
}
