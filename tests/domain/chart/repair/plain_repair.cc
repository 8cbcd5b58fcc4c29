#include "tests/domain/chart/repair/plain_repair.h"

#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include "services/domain/chart/expand.h"
#include "tests/domain/chart/plain_rules.h"

namespace rowproof::chart {
namespace {

// What a cell of the picture is: off-colour or not, in which colour, on which row colour.
struct Shown {
  bool mark = false;
  Colour colour = Colour::kA;
  Colour own = Colour::kA;
  bool operator==(const Shown&) const = default;
};

// The picture of one size, row by row from row 1; row 1 of a working chart holds no drop.
std::vector<std::vector<Shown>> PictureOf(const Design& design, int size) {
  const ExpandedSize expanded = Expand(design, size);
  const int rows = static_cast<int>(expanded.chart_row.size());
  const int stitches = static_cast<int>(expanded.chart_stitch.size());
  const auto chart_cell = [&](int row, int stitch) {
    return std::pair{expanded.chart_row[static_cast<size_t>(row - 1)],
                     expanded.chart_stitch[static_cast<size_t>(stitch - 1)]};
  };
  const auto own = [&](int row) { return expanded.row_colours[static_cast<size_t>(row - 1)]; };
  std::vector<std::vector<Shown>> picture;
  for (int row = 1; row <= rows; ++row) {
    std::vector<Shown> line;
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      const auto [chart_row, chart_stitch] = chart_cell(row, stitch);
      Shown shown{false, own(row), own(row)};
      if (design.convention == Convention::kWorking) {
        shown.mark = row < rows && expanded.drops.at(row + 1, stitch);
        if (shown.mark) shown.colour = own(row + 1);
      } else {
        shown.colour = design.cells.at(chart_row, chart_stitch) ? Colour::kB : Colour::kA;
        if (NamesColours(design)) {
          shown.colour = design.picture_colours[PictureCell(design, chart_row, chart_stitch)];
        }
        shown.mark = shown.colour != own(row);
      }
      line.push_back(shown);
    }
    picture.push_back(line);
  }
  return picture;
}

}  // namespace

bool IsSymmetric(const Design& design, const RepairOptions& options) {
  for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
    const auto picture = PictureOf(design, size);
    const size_t rows = picture.size();
    const size_t stitches = picture.front().size();
    for (size_t r = 0; r < rows; ++r) {
      for (size_t s = 0; s < stitches; ++s) {
        const Shown& cell = picture[r][s];
        const auto& above = picture[rows - 1 - r];
        if (options.left_right && cell != picture[r][stitches - 1 - s]) return false;
        if (options.top_to_bottom && cell != above[s]) return false;
        if (options.half_turn && cell != above[stitches - 1 - s]) return false;
      }
    }
  }
  return true;
}

bool KeepsRuns(const Design& design, const RepairOptions& options) {
  if (options.longest_run == 0) return true;
  for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
    const Grid drops = Expand(design, size).drops;
    const int round = design.form == Form::kTube ? 2 : 1;
    for (int row = 1; row <= drops.rows(); ++row) {
      int run = 0;
      for (int i = 0; i < round * drops.stitches(); ++i) {
        run = drops.at(row, i % drops.stitches() + 1) ? run + 1 : 0;
        if (std::min(run, drops.stitches()) > options.longest_run) return false;
      }
    }
  }
  return true;
}

bool KeepsLocks(const Design& design, const Design& mended, const RepairOptions& options) {
  if (options.locked.empty()) return true;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      if (!options.locked.at(row, stitch)) continue;
      if (design.cells.at(row, stitch) != mended.cells.at(row, stitch)) return false;
      const size_t cell = PictureCell(design, row, stitch);
      if (NamesColours(design) && design.picture_colours[cell] != mended.picture_colours[cell]) {
        return false;
      }
    }
  }
  return true;
}

bool IsAcceptable(const Design& design, const Design& mended, const RepairOptions& options) {
  return KeepsLocks(design, mended, options) && KeepsRuns(mended, options) &&
         IsSymmetric(mended, options) && PlainCheck(mended).error_count == 0;
}

int64_t FewestEdits(const Design& design, const RepairOptions& options) {
  // The values of a cell: of a picture that names colours all that it has, as A to H; otherwise 0
  // and 1.
  std::set<int> values = {0, 1};
  if (NamesColours(design)) {
    values.clear();
    for (const Colour colour : design.row_colours) values.insert(static_cast<int>(colour));
    for (const Colour colour : design.picture_colours) values.insert(static_cast<int>(colour));
  }
  const int stitches = design.cells.stitches();
  const size_t cells = static_cast<size_t>(design.cells.rows() * stitches);
  const auto value_of = [&](const Design& chart, size_t cell) {
    if (NamesColours(chart)) return static_cast<int>(chart.picture_colours[cell]);
    const int at = static_cast<int>(cell);
    return chart.cells.at(at / stitches + 1, at % stitches + 1) ? 1 : 0;
  };
  // All charts, by the number of cells that they change.
  std::map<int64_t, std::vector<std::vector<int>>> charts;
  charts[0] = {{}};
  for (size_t cell = 0; cell < cells; ++cell) {
    std::map<int64_t, std::vector<std::vector<int>>> longer;
    for (const auto& [edits, list] : charts) {
      for (const auto& chart : list) {
        for (const int value : values) {
          auto next = chart;
          next.push_back(value);
          longer[edits + (value != value_of(design, cell) ? 1 : 0)].push_back(std::move(next));
        }
      }
    }
    charts = std::move(longer);
  }
  Design other = design;
  for (const auto& [edits, list] : charts) {
    for (const auto& chart : list) {
      for (size_t cell = 0; cell < cells; ++cell) {
        const int row = static_cast<int>(cell) / stitches + 1;
        const int stitch = static_cast<int>(cell) % stitches + 1;
        bool set = chart[cell] != 0;
        if (NamesColours(design)) {
          other.picture_colours[cell] = static_cast<Colour>(chart[cell]);
          set = other.picture_colours[cell] != RowColour(design, row);
        }
        other.cells.set(row, stitch, set);
      }
      if (IsAcceptable(design, other, options)) return edits;
    }
  }
  return -1;
}

}  // namespace rowproof::chart
