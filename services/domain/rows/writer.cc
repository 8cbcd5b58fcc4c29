#include "services/domain/rows/writer.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/rows/pattern_words.h"
#include "services/domain/rows/row_plan.h"
#include "services/domain/rows/row_sequence.h"
#include "services/domain/rows/row_text.h"

namespace rowproof::rows {
namespace {

using chart::Design;

size_t Index(int i) { return static_cast<size_t>(i); }

absl::Status CheckSettings(const WriterSettings& settings) {
  if (settings.terms != chart::Terms::kUs) {
    return NotSupported("terms", "UK terms are not written by this version; US terms are");
  }
  if (settings.nesting_depth < 0 || settings.nesting_depth > kDeepestNesting) {
    return InvalidField("nesting_depth", std::to_string(settings.nesting_depth),
                        fmt::format("a whole number from 0 to {}", kDeepestNesting));
  }
  if (settings.work_budget < 1) {
    return InvalidField("work_budget", std::to_string(settings.work_budget), "at least 1");
  }
  return absl::OkStatus();
}

// An off-colour cell in the last row of a picture, in any size: the stitch, from 1; 0 where none
// is.
int UncoveredStitch(const Design& design) {
  if (design.convention != chart::Convention::kPicture) return 0;
  const int last = design.cells.rows();
  for (size_t size = 0; size < design.sizes.size(); ++size) {
    // With the alternation the colour follows the expanded row.
    const int row =
        design.row_colours.empty() ? chart::ExpandedRows(design, static_cast<int>(size)) : last;
    const bool own = chart::RowColour(design, row) == chart::Colour::kB;
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      if (design.cells.at(last, stitch) != own) return stitch;
    }
  }
  return 0;
}

int FirstRowDrop(const Design& design) {
  if (design.convention != chart::Convention::kWorking) return 0;
  for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
    if (design.cells.at(1, stitch)) return stitch;
  }
  return 0;
}

absl::Status CheckMeaning(const Design& design) {
  if (auto status = chart::Validate(design); !status.ok()) return status;
  if (design.technique != chart::Technique::kSpike) {
    return NotSupported("technique", fmt::format("written rows of the {} technique",
                                                 chart::Name(design.technique)));
  }
  if (const int stitch = UncoveredStitch(design); stitch > 0) {
    return WrongState(
        "UNCOVERED_TOP_ROW", fmt::format("cells, row {}, stitch {}", design.cells.rows(), stitch),
        fmt::format("the picture's last row, {}, shows the other colour at stitch {}, "
                    "and no row is left to cover it: repair the chart or add a row",
                    design.cells.rows(), stitch));
  }
  if (const int stitch = FirstRowDrop(design); stitch > 0) {
    return WrongState("DROP_IN_FIRST_ROW", fmt::format("cells, row 1, stitch {}", stitch),
                      fmt::format("row 1 has a drop at stitch {}, and nothing lies two rows below "
                                  "it: repair the chart or add a row below",
                                  stitch));
  }
  return absl::OkStatus();
}

class Writer {
 public:
  Writer(const Design& design, const WriterSettings& settings)
      : design_(design),
        settings_(settings),
        sequences_(SequenceRows(design, settings.hand)),
        budget_{settings.work_budget, false} {
    for (size_t i = 0; i < design.sizes.size(); ++i) {
      repeats_.push_back(design.sizes[i].stitch_repeats);
      stitches_.push_back(chart::ExpandedStitches(design, static_cast<int>(i)));
    }
  }

  WrittenPattern Write() {
    const std::vector<PlannedLine> lines = PlanLines(
        design_, sequences_, settings_.every_row,
        [this](int kind, int only_size) { return TextOf(kind, only_size).cost; }, budget_);
    WrittenPattern pattern;
    int size = -1;
    for (const PlannedLine& line : lines) {
      pattern.rows.push_back(RowOf(line));
      if (line.only_size != size) {
        size = line.only_size;
        pattern.rows.back().heading = fmt::format("Size {}:", design_.sizes[Index(size)].name);
      }
    }
    pattern.special_stitches = SpecialStitches(design_, HasDrops());
    pattern.notes = Notes(design_, settings_.hand, pattern.rows);
    std::vector<std::string> texts = pattern.special_stitches;
    texts.insert(texts.end(), pattern.notes.begin() + 1, pattern.notes.end());
    for (const WrittenRow& row : pattern.rows) texts.push_back(row.text);
    pattern.abbreviations = AbbreviationsIn(texts);
    pattern.budget_ran_out = budget_.ran_out;
    return pattern;
  }

 private:
  bool IsTube() const { return design_.form == chart::Form::kTube; }

  bool HasDrops() const {
    const auto dropped = [](const std::vector<Stitch>& part) {
      return std::find(part.begin(), part.end(), Stitch::kDrop) != part.end();
    };
    return std::any_of(sequences_.contents.begin(), sequences_.contents.end(),
                       [&](const BandedRow& row) {
                         return dropped(row.before) || dropped(row.band) || dropped(row.after);
                       });
  }

  // The entries of the sizes for which a line holds.
  std::vector<int> Here(const std::vector<int>& numbers, int only_size) const {
    return only_size < 0 ? numbers : std::vector<int>{numbers[Index(only_size)]};
  }

  // Steps of a kind of row, written once for all sizes or for one.
  const RowText& TextOf(int kind, int only_size) {
    const RowKind& row = sequences_.kinds[Index(kind)];
    const auto [found, added] =
        texts_.try_emplace({row.first ? -1 : row.content, only_size}, RowText{});
    if (!added) return found->second;
    if (row.first) {
      found->second = {
          IsTube() ? "sc in each ch around" : "sc in 2nd ch from hook and in each ch across", 1};
    } else {
      found->second = WriteSteps(sequences_.contents[Index(row.content)], Here(repeats_, only_size),
                                 settings_.nesting_depth, budget_);
    }
    return found->second;
  }

  int Number(int row) const {
    return row == kNotWorked ? kNotWorked : row + design_.first_row_number - 1;
  }

  // "Row 27 (35, 43)", "Rows 11-26 (11-42)".
  std::string Rows(const std::vector<int>& firsts, const std::vector<int>& lasts) const {
    std::vector<std::string> ranges;
    bool several = false;
    for (size_t i = 0; i < firsts.size(); ++i) {
      several |= firsts[i] != lasts[i];
      ranges.push_back(firsts[i] == kNotWorked ? "-"
                       : firsts[i] == lasts[i] ? std::to_string(firsts[i])
                                               : fmt::format("{}-{}", firsts[i], lasts[i]));
    }
    std::string list = ranges[0];
    if (std::any_of(ranges.begin(), ranges.end(),
                    [&](const std::string& range) { return range != ranges[0]; })) {
      for (size_t i = 1; i < ranges.size(); ++i) list += (i == 1 ? " (" : ", ") + ranges[i];
      list += ')';
    }
    return fmt::format("{}{} {}", IsTube() ? "Rnd" : "Row", several ? "s" : "", list);
  }

  static std::string Times(const std::vector<int>& times) {
    const std::string list = List(times);
    if (list == "1") return "";
    return list == "2" ? " twice" : fmt::format(" {} times", list);
  }

  WrittenRow RowOf(const PlannedLine& line) {
    const RowKind& kind = sequences_.kinds[Index(line.kind)];
    WrittenRow row;
    row.side = kind.side;
    row.colour = kind.colour;
    for (size_t size = 0; size < line.rows.size(); ++size) {
      const RowRange& range = line.rows[size];
      row.numbers.push_back(Number(range.first));
      row.last_numbers.push_back(Number(range.last));
      row.stitch_counts.push_back(range.first == kNotWorked ? 0 : stitches_[size]);
      if (range.first != kNotWorked && row.chart_row == 0) {
        row.number = Number(range.first);
        row.last_number = Number(range.last);
        row.chart_row = sequences_.chart_rows[size][Index(range.first - 1)];
      }
    }
    line.repeated.empty() ? WriteOut(line, row) : WriteRepeat(line, row);
    return row;
  }

  void WriteOut(const PlannedLine& line, WrittenRow& row) {
    const RowText& text = TextOf(line.kind, line.only_size);
    const std::vector<int> numbers = Here(row.numbers, line.only_size);
    row.cost = text.cost;
    row.text =
        fmt::format("{} ({}, {}): {}. ({} sts)", Rows(numbers, numbers), chart::Name(row.side),
                    chart::Name(row.colour), text.steps, List(Here(stitches_, line.only_size)));
  }

  void WriteRepeat(const PlannedLine& line, WrittenRow& row) const {
    row.kind = WrittenRow::Kind::kRepeat;
    row.cost = kRepeatCost;
    row.times = line.times;
    for (const RowRange& range : line.repeated) {
      row.repeated_first.push_back(Number(range.first));
      row.repeated_last.push_back(Number(range.last));
    }
    const auto here = [&](const std::vector<int>& numbers) {
      return Here(numbers, line.only_size);
    };
    row.text = fmt::format("{}: rep {}{}.", Rows(here(row.numbers), here(row.last_numbers)),
                           Rows(here(row.repeated_first), here(row.repeated_last)),
                           Times(here(row.times)));
  }

  const Design& design_;
  const WriterSettings& settings_;
  RowSequences sequences_;
  SearchBudget budget_;
  std::vector<int> repeats_;                      // of the stitch band, by size
  std::vector<int> stitches_;                     // by size
  std::map<std::pair<int, int>, RowText> texts_;  // by content and size
};

}  // namespace

absl::StatusOr<WrittenPattern> WriteRows(const Design& design, const WriterSettings& settings) {
  if (auto status = CheckSettings(settings); !status.ok()) return status;
  if (auto status = CheckMeaning(design); !status.ok()) return status;
  return Writer(design, settings).Write();
}

}  // namespace rowproof::rows
