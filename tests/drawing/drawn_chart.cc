#include "tests/drawing/drawn_chart.h"

#include <cmath>
#include <string>
#include <vector>

#include "gtest/gtest.h"

namespace rowproof::drawing {
namespace {

std::string PngOf(const chart::Design& design, DrawingRequest request) {
  request.cell_pixels = kCell;
  return Draw(design, request, DrawingFormat::kPng);
}

}  // namespace

std::string Draw(const chart::Design& design, const DrawingRequest& request, DrawingFormat format) {
  auto bytes = DrawChart(design, request, format);
  EXPECT_TRUE(bytes.ok()) << bytes.status();
  return bytes.ok() ? *bytes : "";
}

DrawnCells::DrawnCells(const chart::Design& design, const DrawingRequest& request)
    : rows_(design.cells.rows()), stitches_(design.cells.stitches()), png_(PngOf(design, request)) {
  for (int y = 0; y < png_.height() && top_ < 0; ++y) {
    int run = 0;
    for (int x = 0; x < png_.width() && top_ < 0; ++x) {
      run = png_.at(x, y).Lightness() < 60 ? run + 1 : 0;
      if (run == stitches_ * kCell) top_ = y, left_ = x - run + 1;
    }
  }
  EXPECT_GE(top_, 0) << "no frame in the picture";
}

Pixel DrawnCells::At(int row, int stitch, double right, double down) const {
  return png_.at(left_ + 1 + static_cast<int>((stitches_ - stitch + right) * kCell),
                 top_ + 1 + static_cast<int>((rows_ - row + down) * kCell));
}

std::vector<bool> DrawnCells::Shape(int row, int stitch) const {
  std::vector<bool> shape;
  const double ground = Ground(row, stitch);
  for (int y = 3; y < kCell - 3; ++y) {
    for (int x = 3; x < kCell - 3; ++x) {
      const double here = At(row, stitch, (x + 0.5) / kCell, (y + 0.5) / kCell).Lightness();
      shape.push_back(std::abs(here - ground) > 60);
    }
  }
  return shape;
}

std::vector<ReadRowLabel> RowLabelsOf(const DrawnFile& file) {
  std::vector<ReadRowLabel> labels;
  const std::vector<Word> words = file.Words();
  for (const Word& side : words) {
    if (side.text != "RS" && side.text != "WS") continue;
    const bool at_right = side.left > 595.276 / 2;
    const Word* nearest = nullptr;
    for (const Word& word : words) {
      if (word.page != side.page || std::abs(word.middle() - side.middle()) > 1.5) continue;
      if (word.text.find_first_not_of("0123456789") != std::string::npos) continue;
      const double gap = at_right ? side.left - word.right : word.left - side.right;
      if (gap < 0 || gap > 20) continue;
      if (nearest == nullptr ||
          (at_right ? word.right > nearest->right : word.left < nearest->left)) {
        nearest = &word;
      }
    }
    if (nearest == nullptr) continue;  // a word of the key
    labels.push_back({std::stoi(nearest->text), side.text == "RS", at_right});
  }
  return labels;
}

}  // namespace rowproof::drawing
