// The cells of a chart in either convention, with as many colours as it has.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_CELLS_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_CELLS_H_

#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/stop.h"

namespace rowproof::drawing {

// What follows is not whole if the work has to stop, which the caller asks.

// Index of each chart row's colour, bottom first; A is 0.
std::vector<uint8_t> RowColourIndices(const chart::Design& design);

// The cells of the picture chart whose colour is not their row's.
chart::Grid OffColourCells(const chart::Design& design, const Stop& stop = {});

// The drops of the working chart. An off-colour cell in a picture's last row
// has none.
chart::Grid DropCells(const chart::Design& design, const Stop& stop = {});

// Index of the colour that each cell of the picture chart shows, row by row
// from row 1, stitch 1 first: as the picture names it, or else as a working
// chart's drops make it.
std::vector<uint8_t> PictureColours(const chart::Design& design, const Stop& stop = {});

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_CELLS_H_
