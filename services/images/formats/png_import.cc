#include "services/images/formats/png_import.h"

#include "services/images/chart_file.h"
#include "services/images/file_note.h"
#include "services/images/formats/png_decoder.h"
#include "services/images/import_settings.h"
#include "services/images/picture.h"
#include "services/images/picture_reading.h"
#include "services/images/refusal.h"

namespace rowproof::images {

absl::StatusOr<ImportedChart> ImportPng(std::string_view bytes, const ImportSettings& settings,
                                        const Stop& stop) {
  if (auto status = CheckSettings(settings); !status.ok()) return status;
  if (auto status = CheckFileBytes("content", bytes.size()); !status.ok()) return status;
  const auto size = ReadPngSize(bytes);
  if (!size.ok()) return size.status();

  Picture picture(size->width, size->height, &stop);
  bool too_many = false;
  auto status = DecodePng(bytes, *size, [&](const PngPixels& pixels) {
    if (stop.After(pixels.count())) return false;
    for (int i = 0; i < pixels.count() && !too_many; ++i) {
      too_many = !picture.Set(pixels.first + i * pixels.step, pixels.y, pixels.colour(i));
    }
    return !too_many;
  });
  if (!status.ok()) return status;
  if (!stop.status().ok()) return stop.status();
  if (too_many) return TooManyColours();
  return ReadPicture(picture, settings, FileFormat::kPng, FindPngNote(bytes));
}

}  // namespace rowproof::images
