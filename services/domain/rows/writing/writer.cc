#include "services/domain/rows/writing/writer.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/rows/index.h"
#include "services/domain/rows/stitch_words.h"
#include "services/domain/rows/writing/abbreviations.h"
#include "services/domain/rows/writing/notes.h"
#include "services/domain/rows/writing/row_plan.h"
#include "services/domain/rows/writing/row_sequence.h"
#include "services/domain/rows/writing/row_text.h"
#include "services/domain/rows/writing/special_stitches.h"
#include "services/domain/rows/writing/writable.h"
#include "services/domain/status_macros.h"

namespace rowproof::rows {
namespace {

using chart::Colour;
using chart::Design;

// Of a line's words, in units of Stop, besides its stitches.
constexpr int kLineWork = 500;

class Writer {
 public:
  Writer(const Design& design, const WriterSettings& settings, const Stop& stop)
      : design_(design),
        settings_(settings),
        stop_(stop),
        words_(WordsOf(design, settings)),
        sequences_(SequenceRows(design, settings.hand, stop)),
        budget_{settings.work_budget, false, &stop} {
    for (size_t i = 0; i < design.sizes.size(); ++i) {
      repeats_.push_back(design.sizes[i].stitch_repeats);
    }
  }

  // Not whole if the work has to stop.
  WrittenPattern Write() {
    if (!stop_.status().ok()) return {};
    const std::vector<PlannedLine> lines = PlanLines(
        design_, sequences_, settings_.every_row,
        [this](int kind, int only_size) { return TextOf(kind, only_size).cost; }, budget_);
    WrittenPattern pattern;
    int size = -1;
    for (const PlannedLine& line : lines) {
      if (stop_.After(kLineWork)) return {};
      pattern.rows.push_back(RowOf(line));
      if (line.only_size != size) {
        size = line.only_size;
        pattern.rows.back().heading = fmt::format("Size {}:", design_.sizes[Index(size)].name);
      }
    }
    WriteWords(pattern);
    pattern.budget_ran_out = budget_.ran_out;
    return pattern;
  }

 private:
  bool IsTube() const { return design_.form == chart::Form::kTube; }

  bool Has(Stitch stitch) const {
    const auto holds = [stitch](const std::vector<Stitch>& part) {
      return std::find(part.begin(), part.end(), stitch) != part.end();
    };
    return std::any_of(sequences_.contents.begin(), sequences_.contents.end(),
                       [&](const BandedRow& row) {
                         return holds(row.before) || holds(row.band) || holds(row.after);
                       });
  }

  void WriteWords(WrittenPattern& pattern) const {
    pattern.special_stitches =
        SpecialStitches(design_, settings_, {Has(Stitch::kDrop), Has(Stitch::kChainSpace)});
    pattern.notes = Notes(design_, settings_, pattern.rows);
    std::vector<std::string> texts = pattern.special_stitches;
    // The caution on terms names stitches of the other system.
    texts.insert(texts.end(), pattern.notes.begin() + 1, pattern.notes.end());
    for (const WrittenRow& row : pattern.rows) {
      if (stop_.After(row.text.size() / 16)) return;
      texts.push_back(row.text);
    }
    pattern.abbreviations = AbbreviationsIn(texts, settings_.terms, stop_);
  }

  // The entries of the sizes for which a line holds.
  std::vector<int> Here(const std::vector<int>& numbers, int only_size) const {
    return only_size < 0 ? numbers : std::vector<int>{numbers[Index(only_size)]};
  }

  static bool IsPlain(const BandedRow& row) {
    const auto plain = [](const std::vector<Stitch>& part) {
      return std::all_of(part.begin(), part.end(),
                         [](Stitch stitch) { return stitch == Stitch::kPlain; });
    };
    return plain(row.before) && plain(row.band) && plain(row.after);
  }

  // Steps of a kind of row, written once for all sizes or for one.
  const RowText& TextOf(int kind, int only_size) {
    const RowKind& row = sequences_.kinds[Index(kind)];
    const BandedRow& content = sequences_.contents[Index(row.content)];
    const bool into_chain = row.first && IsPlain(content);
    const auto [found, added] =
        texts_.try_emplace({into_chain ? -1 : row.content, only_size}, RowText{});
    // A plan asks for every row; once the work has to stop, for nothing.
    if (!added || stop_.After(design_.cells.stitches())) return found->second;
    if (into_chain) {
      found->second.steps =
          words_.plain + std::string(IsTube() ? " in each ch around"
                                              : " in 2nd ch from hook and in each ch across");
      found->second.cost = 1;
    } else {
      found->second =
          WriteSteps(content, Here(repeats_, only_size), words_, settings_.nesting_depth, budget_);
    }
    return found->second;
  }

  const std::vector<ClosingCount>& CountsOf(int content) {
    const auto [found, added] = counts_.try_emplace(content);
    if (added) {
      for (const int n : repeats_) {
        stop_.After(design_.cells.stitches());  // whoever asks for counts looks
        found->second.push_back(CountOf(sequences_.contents[Index(content)], n));
      }
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
    return fmt::format("{}{} {}", IsTube() ? "Rnd" : "Row", several ? "s" : "", List(ranges));
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
    const std::vector<ClosingCount>& counts = CountsOf(kind.content);
    for (size_t size = 0; size < line.rows.size(); ++size) {
      const RowRange& range = line.rows[size];
      row.numbers.push_back(Number(range.first));
      row.last_numbers.push_back(Number(range.last));
      const bool worked = range.first != kNotWorked;
      row.stitch_counts.push_back(worked ? counts[size].stitches : 0);
      row.chain_space_counts.push_back(worked ? counts[size].chain_spaces : 0);
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
    row.text = fmt::format("{} ({}, {}): {}. ({})", Rows(numbers, numbers), chart::Name(row.side),
                           NameOfColour(settings_, row.colour), text.steps, Count(line));
  }

  // "53 (69, 85) sts", "41 sts, 12 ch-sps": of every size, also of one that leaves the line out.
  std::string Count(const PlannedLine& line) {
    std::vector<int> stitches;
    std::vector<int> spaces;
    for (const ClosingCount& count : CountsOf(sequences_.kinds[Index(line.kind)].content)) {
      stitches.push_back(count.stitches);
      spaces.push_back(count.chain_spaces);
    }
    std::string text = Counted(Here(stitches, line.only_size), "st", "sts");
    const std::vector<int> here = Here(spaces, line.only_size);
    if (std::any_of(here.begin(), here.end(), [](int count) { return count > 0; })) {
      text += ", " + Counted(here, "ch-sp", "ch-sps");
    }
    return text;
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
  const Stop& stop_;
  RowWords words_;
  RowSequences sequences_;
  SearchBudget budget_;
  std::vector<int> repeats_;                         // of the stitch band, by size
  std::map<std::pair<int, int>, RowText> texts_;     // by content and size
  std::map<int, std::vector<ClosingCount>> counts_;  // by content; one for each size
};

}  // namespace

absl::StatusOr<WrittenPattern> WriteRows(const Design& design, const WriterSettings& settings,
                                         const Stop& stop) {
  RETURN_IF_ERROR(CheckWritable(design, settings, stop));
  WrittenPattern pattern = Writer(design, settings, stop).Write();
  RETURN_IF_ERROR(stop.status());
  return pattern;
}

RowStyle Filled(RowStyle asked, const RowStyle& usual) {
  const auto fill = [](auto& field, const auto& from) {
    if (!field.has_value()) field = from;
  };
  fill(asked.hand, usual.hand);
  fill(asked.terms, usual.terms);
  fill(asked.repeats, usual.repeats);
  fill(asked.nesting_depth, usual.nesting_depth);
  asked.every_row |= usual.every_row;
  if (asked.colour_names.empty()) asked.colour_names = usual.colour_names;
  return asked;
}

WriterSettings SettingsOf(const RowStyle& style) {
  WriterSettings settings;
  settings.hand = style.hand.value_or(settings.hand);
  settings.terms = style.terms.value_or(settings.terms);
  settings.style = style.repeats.value_or(settings.style);
  settings.nesting_depth = style.nesting_depth.value_or(settings.nesting_depth);
  settings.every_row = style.every_row;
  settings.colour_names = style.colour_names;
  return settings;
}

}  // namespace rowproof::rows
