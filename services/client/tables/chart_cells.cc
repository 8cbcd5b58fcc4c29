#include "services/client/tables/chart_cells.h"

#include <algorithm>
#include <set>
#include <utility>

#include "fmt/format.h"

namespace rowproof::client {
namespace {

constexpr int kRowsAround = 2;
constexpr int kStitchesAround = 9;
// A chart of so many fits a screen of 100 columns as a whole.
constexpr int kMostRowsWhole = 40;
constexpr int kMostStitchesWhole = 30;

}  // namespace

bool CellOf(const v1::Chart& chart, int row, int stitch) {
  const size_t row_bytes = static_cast<size_t>(chart.stitch_count() + 7) / 8;
  const size_t at = static_cast<size_t>(row - 1) * row_bytes + static_cast<size_t>(stitch - 1) / 8;
  if (at >= chart.cells().size()) return false;
  return ((static_cast<unsigned char>(chart.cells()[at]) >> ((stitch - 1) % 8)) & 1) != 0;
}

char SignOf(const v1::Chart& chart, int row, int stitch) {
  const size_t cell = static_cast<size_t>(row - 1) * static_cast<size_t>(chart.stitch_count()) +
                      static_cast<size_t>(stitch - 1);
  if (cell < chart.picture_colours().size()) {
    return static_cast<char>('A' + chart.picture_colours()[cell] - 1);
  }
  const bool set = CellOf(chart, row, stitch);
  if (chart.convention() == v1::CONVENTION_WORKING) return set ? 'x' : '.';
  return set ? 'B' : 'A';
}

std::string PictureAround(const v1::RepairResult& repair, int row, int stitch) {
  const v1::Chart& chart = repair.repaired();
  std::set<std::pair<int, int>> edited;
  for (const auto& edit : repair.edits()) edited.insert({edit.row(), edit.stitch()});
  const bool whole =
      chart.row_count() <= kMostRowsWhole && chart.stitch_count() <= kMostStitchesWhole;
  const int top = whole ? chart.row_count() : std::min(chart.row_count(), row + kRowsAround);
  const int bottom = whole ? 1 : std::max(1, row - kRowsAround);
  const int left =
      whole ? chart.stitch_count() : std::min(chart.stitch_count(), stitch + kStitchesAround);
  const int right = whole ? 1 : std::max(1, stitch - kStitchesAround);
  std::string picture = fmt::format(
      "The repaired chart{}, stitches {} to {}, changed cells in "
      "brackets:\n",
      whole ? "" : " around the first change", left, right);
  for (int at = top; at >= bottom; --at) {
    picture += fmt::format("row {:>4} ", at);
    for (int cell = left; cell >= right; --cell) {
      const bool changed = edited.count({at, cell}) > 0;
      picture +=
          fmt::format("{}{}{}", changed ? '[' : ' ', SignOf(chart, at, cell), changed ? ']' : ' ');
    }
    picture.erase(picture.find_last_not_of(' ') + 1);
    picture += '\n';
  }
  return picture;
}

}  // namespace rowproof::client
