#include "tests/images/drawn_charts.h"

#include <algorithm>
#include <random>

namespace rowproof::images {
namespace {

// Where the cells of one axis begin, and its length. Lines between cells i-1 and i (from the top or
// the left) are heavy where the number of cells behind is a multiple of ten.
struct Axis {
  std::vector<int> begins;
  std::vector<int> line_begins;  // before each cell; after the last
  std::vector<int> line_widths;
  int length = 0;
};

Axis AxisOf(int count, int inside, const Drawing& drawing, int before, int after) {
  Axis axis;
  int at = before;
  for (int i = 0; i <= count; ++i) {
    const bool outer = i == 0 || i == count;
    const int heavy = (count - i) % 10 == 0 ? drawing.heavy_line : drawing.line;
    const bool beside = outer || !drawing.over_cells;
    const int width = outer && !drawing.frame ? 0 : beside ? heavy : drawing.line;
    axis.line_begins.push_back(beside ? at : at - (heavy - width) / 2);
    axis.line_widths.push_back(beside ? width : heavy);
    at += width;
    if (i == count) break;
    axis.begins.push_back(at);
    at += inside;
  }
  axis.length = at + after;
  return axis;
}

class Canvas {
 public:
  Canvas(int width, int height, Rgb ground)
      : width_(width),
        height_(height),
        pixels_(static_cast<size_t>(width) * static_cast<size_t>(height), ground) {}
  void Fill(int x, int y, int width, int height, Rgb colour) {
    for (int j = std::max(y, 0); j < std::min(y + height, height_); ++j) {
      for (int i = std::max(x, 0); i < std::min(x + width, width_); ++i) {
        pixels_[static_cast<size_t>(j) * static_cast<size_t>(width_) + static_cast<size_t>(i)] =
            colour;
      }
    }
  }
  std::string Ppm() const {
    std::string ppm = "P6\n" + std::to_string(width_) + " " + std::to_string(height_) + "\n255\n";
    for (const Rgb& pixel : pixels_) {
      ppm += static_cast<char>(pixel.red);
      ppm += static_cast<char>(pixel.green);
      ppm += static_cast<char>(pixel.blue);
    }
    return ppm;
  }

 private:
  int width_;
  int height_;
  std::vector<Rgb> pixels_;
};

// Something like digits with soft edges: 5 x 7 pixels of random greys.
void Scribble(Canvas& canvas, int x, int y, std::mt19937& random) {
  for (int j = 0; j < 7; ++j) {
    for (int i = 0; i < 5; ++i) {
      const auto grey = static_cast<uint8_t>(random() % 256);
      if (random() % 2 == 0) canvas.Fill(x + i, y + j, 1, 1, {grey, grey, grey});
    }
  }
}

}  // namespace

std::string Draw(int rows, int stitches, const std::vector<int>& cells, const Drawing& drawing,
                 uint32_t seed) {
  std::mt19937 random(seed);
  const Margins& margin = drawing.margin;
  const Axis x = AxisOf(stitches, drawing.cell_width, drawing, margin.left, margin.right);
  const Axis y = AxisOf(rows, drawing.cell_height, drawing, margin.top, margin.bottom);
  Canvas canvas(x.length, y.length, drawing.ground);
  const int width = x.length - margin.left - margin.right;
  const int height = y.length - margin.top - margin.bottom;
  for (int j = 0; j < rows; ++j) {
    for (int i = 0; i < stitches; ++i) {
      const auto cell = static_cast<size_t>(cells[static_cast<size_t>(j * stitches + i)]);
      canvas.Fill(x.begins[static_cast<size_t>(i)], y.begins[static_cast<size_t>(j)],
                  drawing.cell_width, drawing.cell_height, drawing.colours[cell]);
    }
  }
  // Heavy lines last, over the others.
  for (const bool heavy : {false, true}) {
    const Rgb colour = heavy ? drawing.heavy_colour : drawing.line_colour;
    for (int i = 0; i <= stitches; ++i) {
      if (((stitches - i) % 10 == 0) != heavy) continue;
      const auto at = static_cast<size_t>(i);
      canvas.Fill(x.line_begins[at], margin.top, x.line_widths[at], height, colour);
    }
    for (int j = 0; j <= rows; ++j) {
      if (((rows - j) % 10 == 0) != heavy) continue;
      const auto at = static_cast<size_t>(j);
      canvas.Fill(margin.left, y.line_begins[at], width, y.line_widths[at], colour);
    }
  }
  if (drawing.numbers) {
    for (const int begin : y.begins) {
      if (margin.left >= 10)
        Scribble(canvas, 2 + static_cast<int>(random() % 3), begin + 2, random);
      if (margin.right >= 10) Scribble(canvas, x.length - 7, begin + 2, random);
    }
    for (const int begin : x.begins) {
      if (margin.top >= 10) Scribble(canvas, begin + 2, 1, random);
      if (margin.bottom >= 10) Scribble(canvas, begin + 2, y.length - 8, random);
    }
  }
  return canvas.Ppm();
}

std::string Draw(const chart::Grid& cells, const Drawing& drawing, uint32_t seed) {
  std::vector<int> classes;
  for (int row = cells.rows(); row >= 1; --row) {
    for (int stitch = cells.stitches(); stitch >= 1; --stitch) {
      classes.push_back(cells.at(row, stitch) ? 1 : 0);
    }
  }
  return Draw(cells.rows(), cells.stitches(), classes, drawing, seed);
}

}  // namespace rowproof::images
