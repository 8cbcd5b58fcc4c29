// Which colours a chart's cells have, and what each means.
#ifndef ROWPROOF_SERVICES_IMAGES_CELL_COLOURS_H_
#define ROWPROOF_SERVICES_IMAGES_CELL_COLOURS_H_

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/images/chart_file.h"
#include "services/images/picture.h"

namespace rowproof::images {

// What a colour of the palette means: 0 is A, 1 is B, ...; kNoClass: nothing.
using CellClass = uint8_t;
inline constexpr CellClass kNoClass = 0xff;

struct CellColours {
  std::vector<CellClass> class_of;  // by number in the palette
  Rgb colour_a = kWhite;
  Rgb colour_b = kBlack;
  std::vector<TakenColour> taken;  // most frequent first; all of them
};

// Letters that the settings allow: 2 to 8.
size_t CountOfLetters(const ImportSettings& settings);
// The given meanings, colour_a and colour_b among them.
std::vector<ColourMeaning> GivenMeanings(const ImportSettings& settings);

// Numbers of the colours that occur, most frequent first; equally frequent ones by red, green,
// blue.
std::vector<size_t> ByFrequency(const std::vector<Rgb>& palette, const PixelCounts& counts);

// As ImportSettings says, of the picture's colours that occur in the cells. INVALID_ARGUMENT, field
// "content": colours without a meaning within the tolerance, listed with their pixels, the most
// frequent first, twelve at most. The stop's status if the work has to stop.
absl::StatusOr<CellColours> FindCellColours(const Picture& picture, const PixelCounts& counts,
                                            const ImportSettings& settings);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_CELL_COLOURS_H_
