// Writes a PNG with a palette.
#ifndef ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_WRITER_H_
#define ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_WRITER_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/stop.h"
#include "services/images/colour.h"

namespace rowproof::images {

struct PngLines {
  int width = 0;      // pixels
  int bit_depth = 1;  // 1, 2 or 4
  std::vector<Rgb> palette;
  // Packed pixels, the most significant bits of a byte first; each line is written `times` times.
  std::vector<std::vector<uint8_t>> lines;
  int times = 1;
};

// The dimensions have passed CheckDimensions. `note`: ASCII, stored as FileNote says.
// No file if the work has to stop.
std::string WritePng(const PngLines& lines, std::string note, const Stop& stop = {});

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_WRITER_H_
