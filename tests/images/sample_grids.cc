#include "tests/images/sample_grids.h"

#include <random>

#include "services/images/chart_export.h"

namespace rowproof::images {

chart::Grid RandomGrid(int rows, int stitches, uint32_t seed) {
  std::mt19937 random(seed);
  chart::Grid cells(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    for (int stitch = 1; stitch <= stitches; ++stitch) cells.set(row, stitch, random() % 2 == 0);
  }
  return cells;
}

chart::Grid GridOf(const std::vector<std::string>& lines) {
  chart::Grid cells(static_cast<int>(lines.size()), static_cast<int>(lines.front().size()));
  for (int row = 1; row <= cells.rows(); ++row) {
    const std::string& line = lines[static_cast<size_t>(cells.rows() - row)];
    for (int stitch = 1; stitch <= cells.stitches(); ++stitch) {
      cells.set(row, stitch, line[static_cast<size_t>(cells.stitches() - stitch)] == 'x');
    }
  }
  return cells;
}

std::string Drawn(const chart::Grid& cells) {
  std::string drawn;
  for (int row = cells.rows(); row >= 1; --row) {
    for (int stitch = cells.stitches(); stitch >= 1; --stitch) {
      drawn += cells.at(row, stitch) ? 'x' : '.';
    }
    drawn += '\n';
  }
  return drawn;
}

std::string FileOf(const chart::Grid& cells, FileFormat format, int cell_scale) {
  chart::Design design;
  design.cells = cells;
  ExportSettings settings;
  settings.format = format;
  settings.cell_scale = cell_scale;
  return ExportChart(design, settings).value();
}

std::string PngOf(const chart::Grid& cells, int cell_scale, Rgb colour_a, Rgb colour_b) {
  chart::Design design;
  design.cells = cells;
  ExportSettings settings;
  settings.cell_scale = cell_scale;
  settings.colours = {colour_a, colour_b};
  return ExportChart(design, settings).value();
}

std::string PlainPngOf(const chart::Grid& cells, int cell_scale, Rgb colour_a, Rgb colour_b) {
  std::string png = PngOf(cells, cell_scale, colour_a, colour_b);
  const size_t type = png.find("tEXt");
  const size_t length = static_cast<unsigned char>(png[type - 2]) * size_t{256} +
                        static_cast<unsigned char>(png[type - 1]);
  return png.erase(type - 4, length + 12);
}

}  // namespace rowproof::images
