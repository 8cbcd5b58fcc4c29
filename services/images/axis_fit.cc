#include "services/images/axis_fit.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

namespace rowproof::images {
namespace {

std::vector<Span> BandsOf(const std::vector<uint8_t>& is_line) {
  std::vector<Span> bands;
  const int size = static_cast<int>(is_line.size());
  for (int at = 0; at < size;) {
    int end = at;
    while (end < size && is_line[static_cast<size_t>(end)] != 0) ++end;
    if (end > at) bands.push_back({at, end});
    at = end + 1;
  }
  return bands;
}

// The most frequent key of at least `least`; the larger of two. 0: none.
int Mode(const std::map<int, int>& counts, int least) {
  int best = 0;
  int most = 0;
  for (const auto& [key, count] : counts) {
    if (key >= least && count >= most) best = key, most = count;
  }
  return best;
}

// The usual measures of one axis.
struct Usual {
  int inside = 0;  // of a cell
  int line = 0;
  int pitch() const { return inside + line; }
  int heavy() const { return std::min(std::max(2, 2 * line), inside / 2); }  // most beyond a line's
  // Whole cells hidden in a band next to a line, and the rest of the band's width.
  int CellsIn(int width) const {
    return static_cast<int>(std::lround(static_cast<double>(width - line) / pitch()));
  }
  int Beyond(int width) const { return width - line - CellsIn(width) * pitch(); }
  bool IsBand(int width) const { return Beyond(width) >= -1 && Beyond(width) <= heavy(); }
};

std::optional<Usual> FindUsual(const std::vector<Span>& bands) {
  std::map<int, int> gaps;
  for (size_t i = 0; i + 1 < bands.size(); ++i) ++gaps[bands[i + 1].begin - bands[i].end];
  Usual usual;
  usual.inside = Mode(gaps, kNarrowestFoundCell);
  if (usual.inside == 0) return std::nullopt;
  std::map<int, int> widths;
  const auto is_usual = [&](size_t i) {
    return i + 1 < bands.size() && std::abs(bands[i + 1].begin - bands[i].end - usual.inside) <= 1;
  };
  for (size_t i = 0; i < bands.size(); ++i) {
    if (is_usual(i) || (i > 0 && is_usual(i - 1))) ++widths[bands[i].length()];
  }
  int most = 0;
  for (const auto& [width, count] : widths) {
    if (count > most) usual.line = width, most = count;
  }
  // A line wider than the cells is none.
  return usual.line <= usual.inside ? std::optional<Usual>(usual) : std::nullopt;
}

// The gap between bands i and i+1 is a cell.
bool IsCell(const std::vector<Span>& bands, size_t i, const Usual& usual, LineSpread spread) {
  const int gap = bands[i + 1].begin - bands[i].end;
  const auto beyond_of = [&](Span band) {
    return usual.IsBand(band.length()) ? std::max(usual.Beyond(band.length()), 0) : 0;
  };
  const int beyond = spread == LineSpread::kBesideCells
                         ? 0
                         : std::max(beyond_of(bands[i]), beyond_of(bands[i + 1]));
  return gap >= usual.inside - 1 - beyond && gap <= usual.inside + 1 && gap >= kNarrowestFoundCell;
}

struct Series {
  size_t first = 0;  // bands
  size_t last = 0;
  int cells = 0;
};

Series LongestSeries(const std::vector<Span>& bands, const Usual& usual, LineSpread spread) {
  Series best;
  Series current;
  for (size_t i = 0; i + 1 < bands.size(); ++i) {
    const bool goes_on = current.cells > 0 && current.last == i && usual.IsBand(bands[i].length());
    if (!IsCell(bands, i, usual, spread)) continue;
    if (!goes_on) current = {i, i, 0};
    if (goes_on) current.cells += usual.CellsIn(bands[i].length());
    current.last = i + 1;
    ++current.cells;
    if (current.cells > best.cells) best = current;
  }
  return best;
}

// Cells of the line's colour in a band that begins and ends with a line.
void AddCellsOfBand(Span band, int count, const Usual& usual, std::vector<Span>* cells) {
  const double pitch = static_cast<double>(band.length() - usual.line) / std::max(count, 1);
  for (int i = 0; i < count; ++i) {
    cells->push_back({static_cast<int>(std::lround(band.begin + i * pitch)) + usual.line,
                      static_cast<int>(std::lround(band.begin + (i + 1) * pitch))});
  }
}

// One end of a series: a line, a line with cells of its colour, or a line in a wide ground.
struct End {
  int line_width = 0;
  int cells = 0;   // of the line's colour, within the band
  int hidden = 0;  // cells that may be hidden in it, if they would fill it
  bool hides = false;
  bool cell_beyond = false;  // a last cell without a line
  bool fits = true;
};

// The widest line between two cells of a series.
int WidestInside(const std::vector<Span>& bands, const Series& series, const Usual& usual) {
  int widest = usual.line;
  for (size_t i = series.first + 1; i < series.last; ++i) {
    if (usual.CellsIn(bands[i].length()) == 0) widest = std::max(widest, bands[i].length());
  }
  return widest;
}

// `band`: the outermost of the series. `outside`: places between the grid's extent, or the
// picture's end, and the band; negative if it goes beyond. `bounded`: the extent ends within the
// picture. `outermost`: no band beyond. `widest`: of the lines between cells.
End EndOf(Span band, int outside, bool bounded, bool at_end, bool outermost, int widest,
          const Usual& usual) {
  End end;
  const int width = band.length();
  const bool at_extent = bounded && outside == 0;
  if (width <= usual.line + usual.heavy()) {
    // What is wider than any other line is a line and some of a ground of its colour, unless the
    // lines that cross it end here.
    end.line_width = at_extent || width <= widest ? width : usual.line;
    end.cell_beyond = outermost && std::abs(outside - usual.inside) <= 1;
    // Otherwise there is a part of a cell at the end.
    end.fits = outside <= 0 || end.cell_beyond || !outermost;
    return end;
  }
  end.line_width = usual.line;
  // Cells of the line's colour, and then one of another colour that has no line.
  end.cell_beyond = bounded && outermost && std::abs(outside - usual.inside) <= 1;
  if (at_extent || end.cell_beyond) {
    end.fits = usual.IsBand(width);
    end.cells = usual.CellsIn(width);
    return end;
  }
  end.hides = width - usual.line >= usual.inside;
  if (at_end && usual.Beyond(width) == 0) end.hidden = usual.CellsIn(width);
  return end;
}

}  // namespace

std::optional<AxisFit> FitAxis(const std::vector<uint8_t>& is_line, Span extent,
                               LineSpread spread) {
  const std::vector<Span> bands = BandsOf(is_line);
  const auto usual = FindUsual(bands);
  if (!usual.has_value()) return std::nullopt;
  const Series series = LongestSeries(bands, *usual, spread);
  if (series.cells == 0) return std::nullopt;
  const int size = static_cast<int>(is_line.size());
  const Span first = bands[series.first];
  const Span last = bands[series.last];
  const int widest = WidestInside(bands, series, *usual);
  const End left = EndOf(first, first.begin - extent.begin, extent.begin > 0, first.begin == 0,
                         series.first == 0, widest, *usual);
  const End right = EndOf(last, extent.end - last.end, extent.end < size, last.end == size,
                          series.last + 1 == bands.size(), widest, *usual);
  if (!left.fits || !right.fits) return std::nullopt;

  AxisFit fit;
  fit.line_width = usual->line;
  fit.usual_pitch = usual->pitch();
  fit.hides_first = left.hides;
  fit.hides_last = right.hides;
  fit.hidden_first = left.hidden;
  fit.hidden_last = right.hidden;
  if (left.cell_beyond) fit.cells.push_back({extent.begin, first.begin});
  AddCellsOfBand(first, left.cells, *usual, &fit.cells);
  fit.widest_line = std::max({widest, left.line_width, right.line_width});
  fit.line_count = 2 + left.cells + right.cells;
  for (size_t i = series.first; i < series.last; ++i) {
    if (i > series.first) {
      const int inside = usual->CellsIn(bands[i].length());
      AddCellsOfBand(bands[i], inside, *usual, &fit.cells);
      fit.line_count += 1 + inside;
    }
    fit.cells.push_back({bands[i].end, bands[i + 1].begin});
  }
  AddCellsOfBand(last, right.cells, *usual, &fit.cells);
  if (right.cell_beyond) fit.cells.push_back({last.end, extent.end});
  const bool wide_first = left.cells == 0 && left.line_width < first.length();
  const bool wide_last = right.cells == 0 && right.line_width < last.length();
  fit.used.begin = left.cell_beyond ? extent.begin
                   : wide_first     ? first.end - left.line_width
                                    : first.begin;
  fit.used.end = right.cell_beyond ? extent.end
                 : wide_last       ? last.begin + right.line_width
                                   : last.end;
  if (fit.cells.size() < 2) return std::nullopt;
  fit.pitch = static_cast<double>(fit.cells.back().end - fit.cells.front().begin + usual->line) /
              static_cast<double>(fit.cells.size());
  return fit;
}

AxisFit WithHiddenCells(const AxisFit& fit) {
  AxisFit filled = fit;
  const int pitch = fit.usual_pitch;
  for (int i = 0; i < fit.hidden_first; ++i) {
    const Span next = filled.cells.front();
    filled.cells.insert(filled.cells.begin(), {next.begin - pitch, next.begin - fit.line_width});
  }
  for (int i = 0; i < fit.hidden_last; ++i) {
    const Span before = filled.cells.back();
    filled.cells.push_back({before.end + fit.line_width, before.end + pitch});
  }
  filled.used.begin = filled.cells.front().begin - fit.line_width;
  filled.used.end = filled.cells.back().end + fit.line_width;
  filled.line_count += fit.hidden_first + fit.hidden_last;
  filled.hidden_first = filled.hidden_last = 0;
  filled.hides_first = filled.hides_last = false;
  return filled;
}

}  // namespace rowproof::images
