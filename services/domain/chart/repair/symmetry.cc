#include "services/domain/chart/repair/symmetry.h"

#include <algorithm>
#include <string>

#include "fmt/format.h"
#include "services/domain/chart/unfold.h"
#include "services/domain/errors.h"

namespace rowproof::chart {
namespace {

void SortOut(std::vector<std::pair<int, int>>& pairs) {
  std::sort(pairs.begin(), pairs.end());
  pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
}

std::vector<std::pair<int, int>> RowImages(const Design& design, int repeats) {
  const std::vector<int> order = Unfold(design.cells.rows(), design.row_band, repeats);
  const int rows = static_cast<int>(order.size());
  // A drop shows one row lower, so that the middle of the drops is one row higher.
  const int sum = design.convention == Convention::kPicture ? rows + 1 : rows + 3;
  std::vector<std::pair<int, int>> images;
  for (int row = 1; row <= rows; ++row) {
    const int image = sum - row;
    images.emplace_back(order[static_cast<size_t>(row - 1)],
                        image > rows ? 0 : order[static_cast<size_t>(image - 1)]);
  }
  SortOut(images);
  return images;
}

std::vector<std::pair<int, int>> StitchImages(const Design& design, int repeats) {
  const std::vector<int> order = Unfold(design.cells.stitches(), design.stitch_band, repeats);
  std::vector<std::pair<int, int>> images;
  for (size_t i = 0; i < order.size(); ++i) {
    images.push_back(std::minmax(order[i], order[order.size() - 1 - i]));
  }
  SortOut(images);
  return images;
}

std::string WhyNot(const Design& design, const Size& size) {
  if (design.row_colours.empty()) {
    if (design.cells.rows() % 2 == 1) return "";
    return fmt::format(
        "its first row is worked in A and its last in B; make the number of rows odd (it is {})",
        design.cells.rows());
  }
  const std::vector<int> order = Unfold(design.cells.rows(), design.row_band, size.row_repeats);
  for (size_t i = 0; i < order.size() / 2; ++i) {
    const int row = order[i];
    const int image = order[order.size() - 1 - i];
    if (RowColour(design, row) == RowColour(design, image)) continue;
    return fmt::format(
        "in size \"{}\" row {} is worked in {}, but its counterpart, row {}, in {}; make the row "
        "colours the same read from both ends",
        size.name, row, Name(RowColour(design, row)), image, Name(RowColour(design, image)));
  }
  return "";
}

}  // namespace

std::vector<Images> ImagesOf(const Design& design) {
  std::vector<Images> all;
  for (const Size& size : design.sizes) {
    Images images = {RowImages(design, size.row_repeats),
                     StitchImages(design, size.stitch_repeats)};
    if (std::find(all.begin(), all.end(), images) == all.end()) all.push_back(std::move(images));
  }
  return all;
}

absl::Status RequireRowSymmetry(const Design& design, const RepairOptions& options) {
  if (!options.top_to_bottom && !options.half_turn) return absl::OkStatus();
  for (const Size& size : design.sizes) {
    const std::string why = WhyNot(design, size);
    if (why.empty()) continue;
    std::vector<UnmetCondition> conditions;
    for (const auto& [declared, name] : {std::pair{options.top_to_bottom, "top-to-bottom"},
                                         std::pair{options.half_turn, "half-turn"}}) {
      if (declared) conditions.push_back({"SYMMETRY_CANNOT_HOLD", name, why});
    }
    return UnmetConditions(
        fmt::format("The chart cannot have {} symmetry: {}.", conditions.front().subject, why),
        conditions);
  }
  return absl::OkStatus();
}

}  // namespace rowproof::chart
