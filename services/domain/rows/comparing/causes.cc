#include "services/domain/rows/comparing/causes.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

#include "fmt/format.h"
#include "services/domain/rows/index.h"

namespace rowproof::rows {
namespace {

// By kShifts.
constexpr std::array<const char*, kShifts.size()> kShiftedWords = {
    "the stitches of the row after it", "the stitches of the row before it",
    "the stitches of the second row after it", "the stitches of the second row before it"};

// Rows first..last (worked) that each read as the row kShifts[shift] on.
struct Stretch {
  size_t shift = 0;
  int first = 0;
  int last = 0;
  int differ = 0;  // of which so many differ from the chart
};

class Shifts {
 public:
  Shifts(ChartRows& chart, SizeComparison& comparison)
      : chart_(chart), comparison_(comparison), of_row_(Index(chart.count()) + 1, nullptr) {
    for (RowFault& fault : comparison.faults) {
      if (IsStitchFault(fault.code)) of_row_[Index(fault.worked)] = &fault;
    }
  }

  void Name() {
    std::vector<Stretch> stretches;
    for (size_t shift = 0; shift < kShifts.size(); ++shift) Find(shift, stretches);
    // The longest first; among equals, the smaller shift.
    std::stable_sort(stretches.begin(), stretches.end(),
                     [](const Stretch& a, const Stretch& b) { return a.differ > b.differ; });
    std::vector<size_t> shift_of(of_row_.size(), kShifts.size());
    for (const Stretch& stretch : stretches) {
      const auto begin = shift_of.begin() + stretch.first;
      const auto end = shift_of.begin() + stretch.last + 1;
      if (std::any_of(begin, end, [](size_t shift) { return shift < kShifts.size(); })) continue;
      std::fill(begin, end, stretch.shift);
      Replace(stretch);
    }
    DropExplained(shift_of);
  }

 private:
  // Whether the text's row is the chart's row `by` rows on. A row that agrees with its own is,
  // if the two rows of the chart have the same stitches.
  bool Reads(int worked, size_t shift) const {
    const int other = worked + kShifts[shift];
    if (!chart_.has(other)) return false;
    if (const RowFault* fault = of_row_[Index(worked)]) {
      return (fault->shifts >> shift & 1) != 0;
    }
    return comparison_.rows[Index(worked - 1)].agreement == Agreement::kAgrees &&
           chart_.content(worked) == chart_.content(other);
  }

  void Find(size_t shift, std::vector<Stretch>& stretches) const {
    Stretch stretch{shift, 0, 0, 0};
    for (int worked = 1; worked <= chart_.count() + 1; ++worked) {
      if (worked <= chart_.count() && Reads(worked, shift)) {
        if (of_row_[Index(worked)] == nullptr) continue;
        if (stretch.differ++ == 0) stretch.first = worked;
        stretch.last = worked;
        continue;
      }
      if (stretch.differ >= kFewestShiftedRows) stretches.push_back(stretch);
      stretch.differ = 0;
    }
  }

  void Replace(const Stretch& stretch) {
    const int by = kShifts[stretch.shift];
    for (int worked = stretch.first; worked <= stretch.last; ++worked) {
      RowFault* fault = of_row_[Index(worked)];
      if (fault == nullptr) continue;
      fault->code = ComparisonCode::kRowsShifted;
      fault->stitch = 0;
      fault->last_stitch = 0;
      fault->off_by = 0;
      fault->other_row = by;
      // One finding for all of them, at the first.
      fault->source = of_row_[Index(stretch.first)]->source;
      fault->text_says = kShiftedWords[stretch.shift];
      fault->chart_says = "its own stitches";
    }
  }

  // Side and colour of a shifted row are wrong for the same cause if they are the other row's.
  void DropExplained(const std::vector<size_t>& shift_of) {
    std::erase_if(comparison_.faults, [&](const RowFault& fault) {
      const size_t shift = fault.worked > 0 ? shift_of[Index(fault.worked)] : kShifts.size();
      if (shift == kShifts.size()) return false;
      const RowKind& other = chart_.kind(fault.worked + kShifts[shift]);
      const RowStanding& standing = comparison_.rows[Index(fault.worked - 1)];
      return (fault.code == ComparisonCode::kWrongSide &&
              standing.side == static_cast<int>(other.side)) ||
             (fault.code == ComparisonCode::kWrongColour &&
              standing.colour == static_cast<int>(other.colour));
    });
  }

  ChartRows& chart_;
  SizeComparison& comparison_;
  std::vector<RowFault*> of_row_;  // its stitches' fault, by worked row
};

// All rows that differ when reversed: read from the other edge, they are those of a maker of the
// other hand.
void NameOtherHand(ChartRows& chart, SizeComparison& comparison) {
  std::vector<RowFault*> turned(Index(chart.count()) + 1, nullptr);
  int count = 0;
  for (RowFault& fault : comparison.faults) {
    if (fault.code != ComparisonCode::kWrongEdge) continue;
    turned[Index(fault.worked)] = &fault;
    ++count;
  }
  if (count < kFewestTurnedRows) return;
  for (int worked = 1; worked <= chart.count(); ++worked) {
    if (turned[Index(worked)] != nullptr) continue;
    const std::vector<WorkedRun> runs = chart.runs(worked);
    if (runs != Reversed(runs)) return;
  }
  const bool right = chart.hand() == chart::Hand::kRight;
  for (RowFault& fault : comparison.faults) {
    if (fault.code != ComparisonCode::kWrongEdge) continue;
    fault.text_says = fmt::format("the order of a {}-handed maker", right ? "left" : "right");
    fault.chart_says = fmt::format("that of a {}-handed one", right ? "right" : "left");
  }
}

// Every row of a colour is called by the same other one, and no two colours by one.
void NameExchangedColours(const ChartRows& chart, SizeComparison& comparison) {
  constexpr int kNone = -1;
  std::array<int, chart::kMostColours> called;
  std::array<int, chart::kMostColours> rows{};
  called.fill(kNone);
  for (int worked = 1; worked <= chart.count(); ++worked) {
    const int stated = comparison.rows[Index(worked - 1)].colour;
    if (stated < 0) continue;
    const auto colour = static_cast<size_t>(chart.kind(worked).colour);
    if (called[colour] != kNone && called[colour] != stated) return;
    called[colour] = stated;
    ++rows[colour];
  }
  for (size_t colour = 0; colour < called.size(); ++colour) {
    if (called[colour] == kNone) continue;
    const bool other = called[colour] != static_cast<int>(colour);
    if (other && rows[colour] < kFewestExchangedRows) return;
    if (std::count(called.begin(), called.end(), called[colour]) > 1) return;
  }
  for (RowFault& fault : comparison.faults) {
    if (fault.code == ComparisonCode::kWrongColour) fault.code = ComparisonCode::kColoursExchanged;
  }
}

// A text with its own way to count the chains over a skip.
void NameOtherChains(SizeComparison& comparison) {
  int more = 0;
  int faults = 0;
  for (const RowFault& fault : comparison.faults) {
    if (fault.code != ComparisonCode::kWrongChains) continue;
    if (fault.chains_more == 0 || (faults > 0 && fault.chains_more != more)) return;
    more = fault.chains_more;
    ++faults;
  }
  const auto rows = std::count_if(comparison.rows.begin(), comparison.rows.end(),
                                  [](const RowStanding& row) { return row.has_spaces; });
  if (faults < kFewestOtherChains || faults < rows) return;
  for (RowFault& fault : comparison.faults) {
    if (fault.code != ComparisonCode::kWrongChains) continue;
    fault.code = ComparisonCode::kOtherChains;
    fault.severity = chart::Severity::kWarning;
  }
}

}  // namespace

void NameCauses(ChartRows& chart, SizeComparison& comparison) {
  Shifts(chart, comparison).Name();
  NameOtherHand(chart, comparison);
  NameExchangedColours(chart, comparison);
  NameOtherChains(comparison);
}

}  // namespace rowproof::rows
