#include "services/domain/rows/writing/row_plan.h"

#include <algorithm>
#include <deque>
#include <optional>

#include "services/domain/rows/index.h"
#include "services/domain/rows/writing/row_repeats.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {
namespace {

// A line that covers rows[at, at + unit * copies); `unit` 0: the row written out.
struct Choice {
  int unit = 0;
  int copies = 1;
};

// A place after a repeat, and what the rows from there on cost.
struct End {
  int cost = 0;
  int at = 0;
  // Cheaper, or as cheap and farther.
  bool BetterThan(const End& other) const {
    return cost != other.cost ? cost < other.cost : at > other.at;
  }
};

// The best of the places in a window of rows that moves towards the first row.
class Window {
 public:
  void Add(const End& end) {
    while (!ends_.empty() && ends_.front().cost > end.cost) ends_.pop_front();
    ends_.push_front(end);
  }
  // Of those up to `last`; there is one.
  const End& Best(int last) {
    while (ends_.back().at > last) ends_.pop_back();
    return ends_.back();
  }

 private:
  std::deque<End> ends_;  // nearest first; farther ones cost no more
};

class Chooser {
 public:
  Chooser(const Section& section, const std::function<int(int)>& cost)
      : rows_(section.rows), cost_(cost) {
    for (int i = 0; i < static_cast<int>(rows_.size()); ++i) {
      const LaidRow& row = rows_[Index(i)];
      const bool is_row = row.type == LaidRow::Type::kRow;
      // Distinct negative numbers match nothing.
      target_.push_back(is_row ? row.kind : -2 * i - 2);
      source_.push_back(is_row && row.in_every_size ? row.kind : -2 * i - 3);
    }
    earlier_.emplace(source_);
  }

  // The cheapest line at each row from row `first` on, given that what follows is cheapest too.
  std::vector<Choice> Choose(int first, SearchBudget& budget) {
    const int count = static_cast<int>(rows_.size());
    std::vector<Choice> choices(rows_.size());
    best_.assign(rows_.size() + 1, 0);
    repeats_.assign(rows_.size(), {});
    const std::vector<int> longest = earlier_->LongestBefore(target_);
    RowSquares squares(target_);
    Window window;
    for (int i = count - 1; i >= first; --i) {
      window.Add({best_[Index(i) + 1], i + 1});
      choices[Index(i)] = ChooseAt(i, longest[Index(i)], squares, window, budget);
    }
    return choices;
  }

  // The first row from which `unit` rows are as those at `at`.
  int FirstSource(int at, int unit) const {
    return earlier_->FirstOf(std::span<const int>(target_).subspan(Index(at), Index(unit)));
  }

 private:
  // The best end of two copies of `unit` or more.
  struct Repeat {
    int unit = 0;
    End end;
  };

  Choice ChooseAt(int i, int longest, RowSquares& squares, Window& window, SearchBudget& budget) {
    Choice choice;
    const LaidRow& row = rows_[Index(i)];
    End best{best_[Index(i) + 1] + (row.type == LaidRow::Type::kRow ? cost_(row.kind) : 0), i + 1};
    const auto take = [&](int unit, const End& end) {
      const End whole{kRepeatCost + end.cost, end.at};
      const bool better = choice.unit > 0 ? whole.BetterThan(best) : whole.cost < best.cost;
      const bool shorter = choice.unit > unit && whole.cost == best.cost && whole.at == best.at;
      if (!better && !shorter) return;
      best = whole;
      choice = {unit, (end.at - i) / unit};
    };
    if (longest > 0) {
      const End& end = window.Best(i + longest);
      take(end.at - i, end);
      for (const RowSquare& square : squares.At(i, longest, budget)) {
        const Repeat repeat = RepeatOf(i, square);
        repeats_[Index(i)].push_back(repeat);
        take(repeat.unit, repeat.end);
      }
    }
    best_[Index(i)] = best.cost;
    return choice;
  }

  // After two copies, or after more: then as at the row after the first copy.
  Repeat RepeatOf(int i, const RowSquare& square) const {
    const int after_two = i + 2 * square.unit;
    Repeat repeat{square.unit, {best_[Index(after_two)], after_two}};
    if (square.end < after_two + square.unit) return repeat;
    for (const Repeat& on : repeats_[Index(i + square.unit)]) {
      if (on.unit == square.unit && on.end.BetterThan(repeat.end)) repeat.end = on.end;
    }
    return repeat;
  }

  const std::vector<LaidRow>& rows_;
  const std::function<int(int)>& cost_;
  std::vector<int> target_;
  std::vector<int> source_;
  std::optional<EarlierRows> earlier_;
  std::vector<int> best_;
  std::vector<std::vector<Repeat>> repeats_;  // by row
};

// From the first row of `first` to the last of `last`, in each size.
std::vector<RowRange> Span(const LaidRow& first, const LaidRow& last) {
  std::vector<RowRange> ranges;
  for (size_t size = 0; size < first.rows.size(); ++size) {
    ranges.push_back({first.rows[size].first, last.rows[size].last});
  }
  return ranges;
}

PlannedLine LineOf(const Section& section, const LaidRow& row) {
  return {section.only_size, row.kind, row.rows, row.repeated, row.times};
}

PlannedLine RepeatLine(const Section& section, int at, int source, const Choice& choice) {
  const LaidRow& first = section.rows[Index(at)];
  const LaidRow& last = section.rows[Index(at + choice.unit * choice.copies - 1)];
  PlannedLine line{section.only_size, first.kind, Span(first, last), {}, {}};
  line.repeated = Span(section.rows[Index(source)], section.rows[Index(source + choice.unit - 1)]);
  for (const RowRange& range : line.rows) {
    line.times.push_back(range.first == kNotWorked ? 0 : choice.copies);
  }
  return line;
}

void PlanSection(const Section& section, bool every_row, const std::function<int(int)>& cost,
                 SearchBudget& budget, std::vector<PlannedLine>& lines) {
  const int count = static_cast<int>(section.rows.size());
  std::optional<Chooser> chooser;
  std::vector<Choice> choices(section.rows.size());
  if (!every_row) {
    if (budget.Take(count)) {
      chooser.emplace(section, cost);
      choices = chooser->Choose(static_cast<int>(section.written), budget);
    } else {
      budget.RunOut();
    }
  }
  for (int at = static_cast<int>(section.written); at < count;) {
    const Choice& choice = choices[Index(at)];
    if (choice.unit > 0) {
      lines.push_back(RepeatLine(section, at, chooser->FirstSource(at, choice.unit), choice));
      at += choice.unit * choice.copies;
      continue;
    }
    const LaidRow& row = section.rows[Index(at)];
    if (row.type != LaidRow::Type::kGap) lines.push_back(LineOf(section, row));
    ++at;
  }
}

}  // namespace

std::vector<PlannedLine> PlanLines(const chart::Design& design, const RowSequences& sequences,
                                   bool every_row,
                                   const std::function<int(int kind, int only_size)>& cost,
                                   SearchBudget& budget) {
  std::vector<PlannedLine> lines;
  for (const Section& section : LayOutRows(design, sequences, every_row)) {
    const std::function<int(int)> cost_here = [&](int kind) {
      return cost(kind, section.only_size);
    };
    PlanSection(section, every_row, cost_here, budget, lines);
  }
  return lines;
}

}  // namespace rowproof::rows
