// Charts as drawing programs export them: with grid lines, margins and numbers. Drawn here pixel by
// pixel; nothing of ours is used for it.
#ifndef ROWPROOF_TESTS_IMAGES_DRAWN_CHARTS_H_
#define ROWPROOF_TESTS_IMAGES_DRAWN_CHARTS_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/chart/grid.h"
#include "services/images/colour.h"
#include "services/images/import_report.h"

namespace rowproof::images {

struct Drawing {
  int cell_width = 12;  // inside the lines
  int cell_height = 12;
  int line = 1;
  int heavy_line = 1;       // every tenth, from the right and from below
  bool over_cells = false;  // heavy lines keep the pitch and lie over the cells beside them
  bool frame = true;        // lines at the outer sides
  Margins margin;
  bool numbers = false;  // marks of many greys in the margins
  Rgb line_colour{128, 128, 128};
  Rgb heavy_colour{128, 128, 128};
  Rgb ground = kWhite;
  std::vector<Rgb> colours = {kWhite, kBlack};  // of the cells
};

// A raw PPM.
std::string Draw(const chart::Grid& cells, const Drawing& drawing, uint32_t seed = 1);
// The same for cells of up to eight colours, top line first.
std::string Draw(int rows, int stitches, const std::vector<int>& cells, const Drawing& drawing,
                 uint32_t seed);

}  // namespace rowproof::images

#endif  // ROWPROOF_TESTS_IMAGES_DRAWN_CHARTS_H_
