#include "services/images/layout.h"

#include <algorithm>
#include <cmath>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

// Cells between lines that come every `pitch` pixels; the first line begins at `begin`, or the
// first cell if `line_first` is false.
std::vector<Span> SpansOf(int begin, int count, double pitch, int line_width, bool line_first) {
  std::vector<Span> spans;
  spans.reserve(static_cast<size_t>(count));
  for (int i = 0; i < count; ++i) {
    const double line = begin + i * pitch - (line_first ? 0 : line_width);
    spans.push_back({static_cast<int>(std::lround(line)) + line_width,
                     static_cast<int>(std::lround(line + pitch))});
  }
  return spans;
}

bool AllHavePixels(const std::vector<Span>& spans) {
  return std::all_of(spans.begin(), spans.end(), [](Span span) { return span.length() >= 1; });
}

absl::StatusOr<std::vector<Span>> DeclaredSpans(Span side, double pitch, int line_width,
                                                const char* field) {
  // There may be a line at both ends, at neither, or at the first. If the pitch is not a whole
  // number, a fraction of a pixel is left over.
  const double slack = pitch == std::floor(pitch) ? 0 : 1;
  const double length = side.length();
  double least = slack;
  std::vector<Span> best;
  for (const double used : {length - line_width, length + line_width, length}) {
    const double count = std::round(used / pitch);
    const double left_over = std::abs(used - count * pitch);
    if (count < 1 || left_over > least || (!best.empty() && left_over == least)) continue;
    const bool line_first = used != length + line_width || line_width == 0;
    auto spans = SpansOf(side.begin, static_cast<int>(count), pitch, line_width, line_first);
    spans.back().end = std::min(spans.back().end, side.end);
    if (!AllHavePixels(spans)) continue;
    least = left_over;
    best = std::move(spans);
  }
  if (!best.empty()) return best;
  return Refusal(
      field, fmt::format("A pitch of {} pixels with lines of {} does not divide the {} pixels left "
                         "after the crop; a whole number of cells must fit, with a line at both "
                         "ends, at the first or at neither.",
                         pitch, line_width, side.length()));
}

std::vector<Span> Shrunk(const std::vector<Span>& spans, int soft) {
  std::vector<Span> shrunk;
  shrunk.reserve(spans.size());
  for (const Span& span : spans) shrunk.push_back({span.begin + soft, span.end - soft});
  return shrunk;
}

}  // namespace

Layout TouchingCells(const Region& region, int width, int height) {
  Layout layout;
  for (int x = region.x.begin; x < region.x.end; x += width) {
    layout.columns.push_back({x, x + width});
  }
  for (int y = region.y.begin; y < region.y.end; y += height) {
    layout.lines.push_back({y, y + height});
  }
  return layout;
}

absl::StatusOr<Layout> DeclaredCells(const Region& region, const DeclaredGrid& grid) {
  auto columns = DeclaredSpans(region.x, grid.pitch_x, grid.line_width_x, "grid.pitch_x_px");
  if (!columns.ok()) return columns.status();
  auto lines = DeclaredSpans(region.y, grid.pitch_y, grid.line_width_y, "grid.pitch_y_px");
  if (!lines.ok()) return lines.status();
  return Layout{*std::move(columns), *std::move(lines)};
}

std::optional<Layout> WithoutEdges(const Layout& layout, int soft) {
  Layout shrunk{Shrunk(layout.columns, soft), Shrunk(layout.lines, soft)};
  if (!AllHavePixels(shrunk.columns) || !AllHavePixels(shrunk.lines)) return std::nullopt;
  return shrunk;
}

absl::Status CheckCellCount(const Layout& layout, const std::string& field) {
  if (layout.lines.size() <= static_cast<size_t>(chart::kMostRows) &&
      layout.columns.size() <= static_cast<size_t>(chart::kMostStitches)) {
    return absl::OkStatus();
  }
  return Refusal(
      field, fmt::format("The chart has {} rows and {} stitches, more than {} and {}; if a cell is "
                         "more than one pixel, give the cell scale, grid lines or crop.",
                         layout.lines.size(), layout.columns.size(), chart::kMostRows,
                         chart::kMostStitches));
}

PixelCounts CountInside(const Picture& picture, const Layout& layout) {
  PixelCounts counts(picture.palette().size(), 0);
  const Span across{layout.columns.front().begin, layout.columns.back().end};
  std::vector<uint16_t> line(static_cast<size_t>(across.length()));
  for (const Span& lines : layout.lines) {
    for (int y = lines.begin; y < lines.end; ++y) {
      if (picture.StopAfter(across.length() / 2)) return counts;
      picture.CopyLine(y, across, line.data());
      for (const Span& columns : layout.columns) {
        for (int x = columns.begin; x < columns.end; ++x) {
          ++counts[line[static_cast<size_t>(x - across.begin)]];
        }
      }
    }
  }
  return counts;
}

std::optional<MixedCell> ReadCells(const Picture& picture, const Layout& layout,
                                   const CellColours& colours, CellClasses* cells) {
  cells->rows = static_cast<int>(layout.lines.size());
  cells->stitches = static_cast<int>(layout.columns.size());
  cells->classes.clear();
  cells->classes.reserve(layout.lines.size() * layout.columns.size());
  const Span across{layout.columns.front().begin, layout.columns.back().end};
  std::vector<uint16_t> line(static_cast<size_t>(across.length()));
  for (size_t j = 0; j < layout.lines.size(); ++j) {
    const int top = layout.lines[j].begin;
    for (const Span& columns : layout.columns) {
      cells->classes.push_back(colours.class_of[picture.at(columns.begin, top)]);
    }
    const CellClass* const first = cells->classes.data() + j * layout.columns.size();
    for (int y = top; y < layout.lines[j].end; ++y) {
      if (picture.StopAfter(across.length() / 2)) return std::nullopt;
      picture.CopyLine(y, across, line.data());
      for (size_t i = 0; i < layout.columns.size(); ++i) {
        const Span columns = layout.columns[i];
        for (int x = columns.begin; x < columns.end; ++x) {
          const size_t number = line[static_cast<size_t>(x - across.begin)];
          if (colours.class_of[number] == first[i]) continue;
          return MixedCell{cells->rows - static_cast<int>(j), cells->stitches - static_cast<int>(i),
                           picture.colour(columns.begin, top), picture.palette()[number]};
        }
      }
    }
  }
  return std::nullopt;
}

Changes FindChanges(const Picture& picture, const Region& region, const CellColours& colours) {
  const auto width = static_cast<size_t>(region.x.length());
  std::vector<uint16_t> line(width);
  std::vector<CellClass> above(width);
  std::vector<CellClass> current(width);
  std::vector<uint8_t> changing(width, 0);
  Changes changes;
  for (int y = region.y.begin; y < region.y.end; ++y) {
    if (picture.StopAfter(width / 2)) return changes;
    picture.CopyLine(y, region.x, line.data());
    for (size_t i = 0; i < width; ++i) current[i] = colours.class_of[line[i]];
    for (size_t i = 1; i < width; ++i) {
      changing[i] = static_cast<uint8_t>(changing[i] | (current[i] != current[i - 1] ? 1 : 0));
    }
    if (y > region.y.begin && current != above) changes.lines.push_back(y - region.y.begin);
    std::swap(above, current);
  }
  for (size_t i = 1; i < width; ++i) {
    if (changing[i] != 0) changes.columns.push_back(static_cast<int>(i));
  }
  return changes;
}

}  // namespace rowproof::images
