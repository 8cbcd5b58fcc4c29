#include "services/domain/chart/repair/tied_cells.h"

#include "services/domain/chart/joined_numbers.h"

namespace rowproof::chart {

TiedCells::TiedCells(const Design& design, const RepairOptions& options, const Stop& stop)
    : rows_(design.cells.rows()) {
  if (options.symmetric()) images_ = ImagesOf(design);
  JoinStitches(design.cells.stitches(), options);
  std::vector<int> place(static_cast<size_t>(design.cells.stitches()) + 1, 0);
  for (ColumnGroup& group : groups_) {
    for (size_t i = 0; i < group.stitches.size(); ++i) {
      place[static_cast<size_t>(group.stitches[i])] = static_cast<int>(i);
    }
  }
  // By image, the pairs of each group.
  std::vector<size_t> group_of(place.size(), 0);
  for (size_t i = 0; i < groups_.size(); ++i) {
    for (const int stitch : groups_[i].stitches) group_of[static_cast<size_t>(stitch)] = i;
  }
  std::vector<Shape> shapes(groups_.size(), Shape(images_.size()));
  if (options.left_right || options.half_turn) {
    for (size_t i = 0; i < images_.size(); ++i) {
      for (const auto& [one, other] : images_[i].stitches) {
        shapes[group_of[static_cast<size_t>(one)]][i].emplace_back(
            place[static_cast<size_t>(one)], place[static_cast<size_t>(other)]);
      }
    }
  }
  for (size_t i = 0; i < groups_.size(); ++i) {
    const size_t width = groups_[i].stitches.size();
    if (stop.After(width)) return;
    const auto key = std::pair{width, std::move(shapes[i])};
    auto known = ties_.find(key);
    if (known == ties_.end()) {
      known = ties_.emplace(key, TiesOf(key.second, width, options, stop)).first;
    }
    groups_[i].ties = &known->second;
  }
}

void TiedCells::JoinStitches(int stitches, const RepairOptions& options) {
  JoinedNumbers joined(static_cast<size_t>(stitches) + 1);
  if (options.left_right || options.half_turn) {
    for (const Images& images : images_) {
      for (const auto& [one, other] : images.stitches) joined.Join(one, other);
    }
  }
  std::vector<size_t> group_of(static_cast<size_t>(stitches) + 1, 0);
  for (int stitch = 1; stitch <= stitches; ++stitch) {
    const auto first = static_cast<size_t>(joined.Find(stitch));
    if (first == static_cast<size_t>(stitch)) {
      group_of[first] = groups_.size();
      groups_.emplace_back();
    }
    groups_[group_of[first]].stitches.push_back(stitch);
  }
}

Ties TiedCells::TiesOf(const Shape& shape, size_t width, const RepairOptions& options,
                       const Stop& stop) const {
  const auto cell = [width](int row, int place) {
    return static_cast<int32_t>(static_cast<size_t>(row - 1) * width + static_cast<size_t>(place));
  };
  const size_t cells = static_cast<size_t>(rows_) * width;
  JoinedNumbers joined(cells);
  std::vector<int32_t> lonely;  // cells without an image
  for (size_t i = 0; i < images_.size(); ++i) {
    if (options.left_right) {
      for (const auto& [one, other] : shape[i]) {
        if (stop.After(4 * rows_)) return {};
        for (int row = 1; row <= rows_; ++row) joined.Join(cell(row, one), cell(row, other));
      }
    }
    for (const auto& [row, image] : images_[i].rows) {
      if (stop.After(4 * width)) return {};
      if (!options.top_to_bottom && !options.half_turn) break;
      if (image == 0) {
        for (size_t k = 0; k < width; ++k) lonely.push_back(cell(row, static_cast<int>(k)));
        continue;
      }
      if (options.top_to_bottom) {
        for (size_t k = 0; k < width; ++k) {
          joined.Join(cell(row, static_cast<int>(k)), cell(image, static_cast<int>(k)));
        }
      }
      if (options.half_turn) {
        for (const auto& [one, other] : shape[i]) joined.Join(cell(row, one), cell(image, other));
      }
    }
  }
  Ties ties;
  ties.of_cell.resize(cells);
  for (size_t i = 0; i < cells; ++i) {
    if (stop.After(1)) return {};
    const auto first = static_cast<size_t>(joined.Find(static_cast<int32_t>(i)));
    ties.of_cell[i] = first == i ? ties.variables++ : ties.of_cell[first];
  }
  ties.without_image.assign(static_cast<size_t>(ties.variables), false);
  for (const int32_t alone : lonely) {
    ties.without_image[static_cast<size_t>(ties.of_cell[static_cast<size_t>(alone)])] = true;
  }
  return ties;
}

}  // namespace rowproof::chart
