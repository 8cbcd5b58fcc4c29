#include "services/client/chart_cells.h"

#include <algorithm>
#include <set>
#include <utility>

#include "fmt/format.h"

namespace rowproof::client {
namespace {

constexpr int kRowsAround = 2;
constexpr int kStitchesAround = 9;

char SignOf(const v1::Chart& chart, int row, int stitch) {
  const bool set = CellOf(chart, row, stitch);
  if (chart.convention() == v1::CONVENTION_WORKING) return set ? 'x' : '.';
  return set ? 'B' : 'A';
}

}  // namespace

bool CellOf(const v1::Chart& chart, int row, int stitch) {
  const size_t row_bytes = static_cast<size_t>(chart.stitch_count() + 7) / 8;
  const size_t at = static_cast<size_t>(row - 1) * row_bytes + static_cast<size_t>(stitch - 1) / 8;
  if (at >= chart.cells().size()) return false;
  return ((static_cast<unsigned char>(chart.cells()[at]) >> ((stitch - 1) % 8)) & 1) != 0;
}

std::string CsvOf(const v1::Chart& chart) {
  std::string csv;
  for (int row = chart.row_count(); row >= 1; --row) {
    for (int stitch = chart.stitch_count(); stitch >= 1; --stitch) {
      csv += SignOf(chart, row, stitch);
      csv += stitch > 1 ? ',' : '\n';
    }
  }
  return csv;
}

std::string PbmOf(const v1::Chart& chart) {
  std::string pbm = fmt::format("P1\n{} {}\n", chart.stitch_count(), chart.row_count());
  for (int row = chart.row_count(); row >= 1; --row) {
    int in_line = 0;
    for (int stitch = chart.stitch_count(); stitch >= 1; --stitch) {
      pbm += CellOf(chart, row, stitch) ? '1' : '0';
      // The format asks for lines of at most 70 characters.
      if (++in_line % 70 == 0 && stitch > 1) pbm += '\n';
    }
    pbm += '\n';
  }
  return pbm;
}

std::string PictureAround(const v1::RepairResult& repair, int row, int stitch) {
  const v1::Chart& chart = repair.repaired();
  std::set<std::pair<int, int>> edited;
  for (const auto& edit : repair.edits()) edited.insert({edit.row(), edit.stitch()});
  const int top = std::min(chart.row_count(), row + kRowsAround);
  const int bottom = std::max(1, row - kRowsAround);
  const int left = std::min(chart.stitch_count(), stitch + kStitchesAround);
  const int right = std::max(1, stitch - kStitchesAround);
  std::string picture = fmt::format(
      "The repaired chart, stitches {} to {}, changed cells in brackets:\n", left, right);
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
