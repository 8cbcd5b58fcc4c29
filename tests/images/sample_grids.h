// Charts for the tests of files.
#ifndef ROWPROOF_TESTS_IMAGES_SAMPLE_GRIDS_H_
#define ROWPROOF_TESTS_IMAGES_SAMPLE_GRIDS_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/chart/grid.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

// Each cell set with even odds. The same seed gives the same chart.
chart::Grid RandomGrid(int rows, int stitches, uint32_t seed);

// Lines as they are drawn, top row first; x: set.
chart::Grid GridOf(const std::vector<std::string>& lines);

// The inverse of GridOf, for messages.
std::string Drawn(const chart::Grid& cells);

// A picture chart of these cells in a file.
std::string FileOf(const chart::Grid& cells, FileFormat format, int cell_scale = 1);
std::string PngOf(const chart::Grid& cells, int cell_scale, Rgb colour_a, Rgb colour_b);
// The same without the note that says how it was made.
std::string PlainPngOf(const chart::Grid& cells, int cell_scale, Rgb colour_a, Rgb colour_b);

// An unlike pair of corners, odd sizes, a word of 64 cells and its neighbours.
struct Shape {
  int rows;
  int stitches;
};
inline const std::vector<Shape> kShapes = {{1, 1}, {1, 7},   {7, 1},   {2, 3},   {5, 5},
                                           {9, 8}, {13, 31}, {33, 63}, {20, 64}, {17, 65}};

}  // namespace rowproof::images

#endif  // ROWPROOF_TESTS_IMAGES_SAMPLE_GRIDS_H_
