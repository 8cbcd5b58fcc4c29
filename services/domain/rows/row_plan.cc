#include "services/domain/rows/row_plan.h"

#include <algorithm>
#include <limits>

#include "services/domain/rows/writer.h"

namespace rowproof::rows {
namespace {

size_t Index(int i) { return static_cast<size_t>(i); }

// A line that stands for rows[at, at + unit * copies); `unit` 0: the row written out.
struct Choice {
  int unit = 0;
  int copies = 1;
};

class Chooser {
 public:
  Chooser(const Section& section, const std::function<int(int)>& cost)
      : rows_(section.rows), count_(static_cast<int>(section.rows.size())), cost_(cost) {
    for (int i = 0; i < count_; ++i) {
      const LaidRow& row = rows_[Index(i)];
      const bool is_row = row.type == LaidRow::Type::kRow;
      // Distinct negative numbers match nothing.
      target_.push_back(is_row ? row.kind : -2 * i - 2);
      source_.push_back(is_row && row.in_every_size ? row.kind : -2 * i - 3);
    }
  }

  // The cheapest line at each row from row `first` on, given that what follows is cheapest too.
  std::vector<Choice> Choose(int first) {
    std::vector<Choice> choices(rows_.size());
    best_.assign(rows_.size() + 1, 0);
    // From row i and from row j on, so many rows are alike.
    std::vector<int> alike(rows_.size() + 1, 0);            // j any target
    std::vector<int> alike_to_source(rows_.size() + 1, 0);  // j a row that may be repeated
    for (int i = count_ - 1; i >= first; --i) {
      int longest_unit = 0;
      for (int j = 0; j < count_; ++j) {
        const int target = target_[Index(i)];
        alike[Index(j)] = target_[Index(j)] == target ? alike[Index(j) + 1] + 1 : 0;
        alike_to_source[Index(j)] =
            source_[Index(j)] == target ? alike_to_source[Index(j) + 1] + 1 : 0;
        if (j < i) {
          longest_unit = std::max(longest_unit, std::min(i - j, alike_to_source[Index(j)]));
        }
      }
      choices[Index(i)] = ChooseAt(i, longest_unit, alike);
    }
    return choices;
  }

  // The first row at or after row 0 from which `unit` rows are as those at `at`.
  int FirstSource(int at, int unit) const {
    for (int j = 0; j + unit <= at; ++j) {
      if (std::equal(source_.begin() + j, source_.begin() + j + unit, target_.begin() + at)) {
        return j;
      }
    }
    ROWPROOF_CHECK(false && "a repeat was chosen, so its rows stand earlier");
    return 0;
  }

 private:
  Choice ChooseAt(int i, int longest_unit, const std::vector<int>& alike) {
    Choice choice;
    const LaidRow& row = rows_[Index(i)];
    int best = best_[Index(i) + 1];
    if (row.type == LaidRow::Type::kRow) best += cost_(row.kind);
    for (int unit = 1; unit <= longest_unit; ++unit) {
      const int more = i + unit < count_ ? alike[Index(i + unit)] / unit : 0;
      for (int copies = 1; copies <= 1 + more; ++copies) {
        const int cost = kRepeatCost + best_[Index(i + unit * copies)];
        const bool farther =
            choice.unit > 0 && cost == best && unit * copies > choice.unit * choice.copies;
        if (cost < best || farther) {
          best = cost;
          choice = {unit, copies};
        }
      }
    }
    best_[Index(i)] = best;
    return choice;
  }

  const std::vector<LaidRow>& rows_;
  int count_;
  const std::function<int(int)>& cost_;
  std::vector<int> target_;
  std::vector<int> source_;
  std::vector<int> best_;
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
  Chooser chooser(section, cost);
  std::vector<Choice> choices(section.rows.size());
  if (!every_row) {
    const int64_t work = int64_t{count} * count;
    if (budget.left >= work) {
      budget.left -= work;
      choices = chooser.Choose(static_cast<int>(section.written));
    } else {
      budget.ran_out = true;
    }
  }
  for (int at = static_cast<int>(section.written); at < count;) {
    const Choice& choice = choices[Index(at)];
    if (choice.unit > 0) {
      lines.push_back(RepeatLine(section, at, chooser.FirstSource(at, choice.unit), choice));
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
