#include "services/drawing/table.h"

#include <algorithm>
#include <numeric>

#include "services/domain/check.h"
#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

constexpr double kPadding = 3;    // above and below a row's text
constexpr double kLeastGap = 12;  // between columns
constexpr double kMostGap = 30;
constexpr size_t kMeasuredRows = 200;
constexpr Rgb kHairline{0.72, 0.72, 0.74};

Table WithoutEmptyColumns(const Table& table) {
  Table kept;
  kept.size = table.size;
  kept.rows.resize(table.rows.size());
  for (size_t c = 0; c < table.columns.size(); ++c) {
    const bool empty = std::all_of(table.rows.begin(), table.rows.end(),
                                   [c](const auto& row) { return row[c].empty(); });
    if (empty) continue;
    kept.columns.push_back(table.columns[c]);
    for (size_t r = 0; r < table.rows.size(); ++r) kept.rows[r].push_back(table.rows[r][c]);
  }
  return kept;
}

class TableSetter {
 public:
  TableSetter(Flow& flow, const Table& table) : flow_(flow), table_(table) { Measure(); }

  void Run() {
    PutHead();
    for (const auto& row : table_.rows) {
      if (flow_.over_limit()) return;
      PutRow(row);
    }
    flow_.Gap(4);
  }

 private:
  using Cells = std::vector<const Text*>;

  TextStyle StyleOf(size_t column, bool head) const {
    TextStyle style;
    style.size = table_.size;
    style.bold = head || table_.columns[column].bold;
    style.align = table_.columns[column].align;
    return style;
  }

  void Measure() {
    std::vector<double> natural;
    for (size_t c = 0; c < table_.columns.size(); ++c) {
      double widest = Natural(table_.columns[c].head, StyleOf(c, true));
      for (size_t r = 0; r < std::min(table_.rows.size(), kMeasuredRows); ++r) {
        widest = std::max(widest, Natural(table_.rows[r][c], StyleOf(c, false)));
      }
      natural.push_back(widest + 1);
    }
    const auto gaps = static_cast<double>(table_.columns.size() - 1);
    widths_ = ShareWidth(natural, flow_.width() - gaps * kLeastGap);
    // Narrow tables breathe.
    const double used = std::accumulate(widths_.begin(), widths_.end(), 0.0);
    const double gap =
        gaps > 0 ? std::clamp((flow_.width() - used) / gaps, kLeastGap, kMostGap) : 0;
    double x = flow_.left();
    for (const double width : widths_) {
      lefts_.push_back(x);
      x += width + gap;
    }
  }

  double Natural(const std::string& text, const TextStyle& style) const {
    // A text longer than this fills any page's width.
    return flow_.typesetter().Set(text.substr(0, 400), style).width();
  }

  Cells Set(const std::vector<std::string>& row, bool head) {
    Cells cells;
    for (size_t c = 0; c < row.size(); ++c) {
      TextStyle style = StyleOf(c, head);
      style.width = widths_[c];
      cells.push_back(&flow_.Keep(flow_.typesetter().Set(row[c], style)));
    }
    return cells;
  }

  static double Height(const Cells& cells) {
    double height = 0;
    for (const Text* cell : cells) height = std::max(height, cell->height());
    return height;
  }

  // Draws lines `from` onwards of each cell, `count` at most.
  void PutSlice(const Cells& cells, int from, int count) {
    const double y = flow_.y() + kPadding;
    for (size_t c = 0; c < cells.size(); ++c) {
      const int lines = std::min(count, cells[c]->line_count() - from);
      if (lines <= 0) continue;
      flow_.Add([cell = cells[c], x = lefts_[c], y, from, lines](cairo_t* cr) {
        SetColour(cr, kInk);
        cell->DrawLines(cr, x, y, from, lines);
      });
    }
  }

  void Rule(double y, double thickness, const Rgb& colour) {
    flow_.Add([=, x = flow_.left(), w = flow_.width()](cairo_t* cr) {
      SetColour(cr, colour);
      cairo_rectangle(cr, x, y, w, thickness);
      cairo_fill(cr);
    });
  }

  void PutHead() {
    std::vector<std::string> heads;
    for (const Column& column : table_.columns) heads.push_back(column.head);
    const Cells cells = Set(heads, true);
    const double height = Height(cells) + 2 * kPadding;
    head_height_ = height;
    flow_.Need(std::min(height + 3 * table_.size, flow_.shape().content_height()));
    PutSlice(cells, 0, 1000);
    flow_.Advance(height);
    Rule(flow_.y() - 0.6, 0.6, kInk);
  }

  void PutRow(const std::vector<std::string>& row) {
    const Cells cells = Set(row, false);
    const double line = cells.front()->line_height();
    int lines = 1;
    for (const Text* cell : cells) lines = std::max(lines, cell->line_count());
    const double height = lines * line + 2 * kPadding;
    const bool whole = height <= flow_.shape().content_height() - head_height_;
    if (height > flow_.room() && (whole || flow_.room() < 4 * line)) NextPage();
    int next = 0;
    while (next < lines && !flow_.over_limit()) {
      const int fit = static_cast<int>((flow_.room() - 2 * kPadding) / line);
      const int count = std::clamp(fit, 1, lines - next);
      PutSlice(cells, next, count);
      flow_.Advance(count * line + 2 * kPadding);
      next += count;
      if (next < lines) NextPage();
    }
    Rule(flow_.y() - 0.3, 0.3, kHairline);
  }

  void NextPage() {
    flow_.NewPage();
    PutHead();
  }

  Flow& flow_;
  const Table& table_;
  std::vector<double> widths_;
  std::vector<double> lefts_;
  double head_height_ = 0;
};

}  // namespace

std::vector<double> ShareWidth(const std::vector<double>& natural, double available) {
  std::vector<double> widths(natural.size(), 0);
  std::vector<size_t> order(natural.size());
  std::iota(order.begin(), order.end(), size_t{0});
  std::sort(order.begin(), order.end(),
            [&](size_t a, size_t b) { return natural[a] < natural[b]; });
  double left = available;
  for (size_t i = 0; i < order.size(); ++i) {
    const double share = left / static_cast<double>(order.size() - i);
    widths[order[i]] = std::min(natural[order[i]], share);
    left -= widths[order[i]];
  }
  return widths;
}

void AddTable(Flow& flow, const Table& table) {
  for (const auto& row : table.rows) ROWPROOF_CHECK(row.size() == table.columns.size());
  if (table.rows.empty()) return;
  const Table kept = WithoutEmptyColumns(table);
  if (kept.columns.empty()) return;
  TableSetter(flow, kept).Run();
}

}  // namespace rowproof::drawing
