// The note that an exported picture carries, so that it is imported again unchanged. Pure.
#ifndef ROWPROOF_SERVICES_IMAGES_FILE_NOTE_H_
#define ROWPROOF_SERVICES_IMAGES_FILE_NOTE_H_

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/images/colour.h"

namespace rowproof::images {

struct FileNote {
  chart::Convention convention = chart::Convention::kPicture;
  int rows = 0;
  int stitches = 0;
  int cell_scale = 1;
  std::vector<Rgb> colours;  // A first
  bool operator==(const FileNote&) const = default;
};

// One line of ASCII, such as
// "rowproof-chart picture 12 rows 18 stitches 3 pixels #ffffff #000000".
std::string WriteNote(const FileNote& note);

// No value for any other text, or numbers that no chart has.
std::optional<FileNote> ReadNote(std::string_view text);

// The note of a PNG's first tEXt chunk named Comment before its pixels, or of a PNM's first
// comment. No value: none, or not ours.
std::optional<FileNote> FindPngNote(std::string_view bytes);
std::optional<FileNote> FindPnmNote(std::string_view bytes);

inline constexpr char kPngNoteKeyword[] = "Comment";

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FILE_NOTE_H_
