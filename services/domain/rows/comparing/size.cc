#include "services/domain/rows/comparing/size.h"

#include <algorithm>
#include <utility>

#include "fmt/format.h"
#include "services/domain/rows/comparing/causes.h"
#include "services/domain/rows/comparing/foundation.h"
#include "services/domain/rows/comparing/labels.h"
#include "services/domain/rows/comparing/left_out.h"
#include "services/domain/rows/comparing/places.h"
#include "services/domain/rows/comparing/steps.h"
#include "services/domain/rows/index.h"
#include "services/domain/rows/text_rows.h"

namespace rowproof::rows {
namespace {

// Work that may go into finding the place of rows that have none.
constexpr int64_t kPlacingWork = 5'000'000;

class SizeComparer {
 public:
  SizeComparer(const TextDocument& document, ChartRows& chart, const RowTerms& terms,
               ComparisonWork& work)
      : document_(document),
        chart_(chart),
        terms_(terms),
        work_(work),
        steps_(document, chart, terms, work),
        placed_(RowsOfSize(document, chart.size())) {
    result_.rows.resize(Index(chart.count()));
  }

  SizeComparison Compare() {
    PlaceAll();
    CheckFoundation(document_, chart_, result_.faults);
    for (size_t i = 0; i < placed_.size() && !work_.ran_out(); ++i) CompareRow(i);
    for (const int worked : places_.missing) AddMissing(worked);
    if (!work_.ran_out()) {
      NameCauses(chart_, result_);
      AddLeftOutLabels(document_, chart_, result_);
    }
    return std::move(result_);
  }

 private:
  const TextRow& Line(int line) const { return document_.rows[Index(line)]; }

  bool IsRead(const PlacedRow& row) const {
    return row.worked >= 0 && Line(row.worked).body == TextRow::Body::kSteps;
  }

  // Whether a row of the text could be this row of the chart: stitches, side and colour.
  bool Agrees(const PlacedRow& row, int worked) {
    if (!IsRead(row)) return false;
    const RowKind& kind = chart_.kind(worked);
    if (row.side.value_or(kind.side) != kind.side) return false;
    if (row.colour.value_or(kind.colour) != kind.colour) return false;
    return !steps_.Compare(row.worked, worked).fault.has_value();
  }

  void PlaceAll() {
    std::vector<int> numbers;
    numbers.reserve(placed_.size());
    for (const PlacedRow& row : placed_) numbers.push_back(chart_.worked(row.number));
    const int64_t before = work_.left;
    places_ = PlaceRows(numbers, chart_.count(), [&](size_t row, int worked) {
      return before - work_.left < kPlacingWork && Agrees(placed_[row], worked);
    });
  }

  RowFault FaultOf(const PlacedRow& row, int worked, ComparisonCode code) const {
    RowFault fault;
    fault.code = code;
    fault.worked = worked;
    fault.number = worked > 0 ? chart_.number(worked) : row.number;
    fault.line = row.line;
    fault.source = row.worked;
    fault.at = Line(row.line).at;
    return fault;
  }

  void Add(RowFault fault) { result_.faults.push_back(std::move(fault)); }

  void AddMissing(int worked) {
    RowFault fault;
    fault.code = ComparisonCode::kMissingRow;
    fault.worked = worked;
    fault.number = chart_.number(worked);
    fault.text_says = "no such row";
    fault.chart_says = fmt::format("{} rows", chart_.count());
    Add(std::move(fault));
  }

  void CompareRow(size_t i) {
    const PlacedRow& row = placed_[i];
    const int worked = Place(row, places_.rows[i]);
    if (worked == 0) return;
    RowStanding& standing = result_.rows[Index(worked - 1)];
    standing.line = row.line;
    if (!IsRead(row)) {
      standing.agreement = Agreement::kNotRead;
      return;
    }
    standing.agreement = Agreement::kAgrees;
    if (row.side.has_value()) standing.side = static_cast<int>(*row.side);
    if (row.colour.has_value()) standing.colour = static_cast<int>(*row.colour);
    const ComparedSteps& compared = steps_.Compare(row.worked, worked);
    standing.has_spaces = compared.chart.chain_spaces > 0 && !steps_.CopiesChains(row.worked);
    if (compared.fault.has_value()) AddStitches(row, worked, *compared.fault);
    CompareLabels({document_, chart_, steps_, terms_}, row, worked, result_.faults);
  }

  // Says what is wrong with a row's number or place; the row of the chart that it is to be compared
  // with, 0: none.
  int Place(const PlacedRow& row, const RowPlace& place) {
    const int worked = chart_.worked(row.number);
    switch (place.role) {
      case RowPlace::Role::kInPlace:
        return place.worked;
      case RowPlace::Role::kTooMany: {
        if (worked == 0 && IsFoundationRow(document_, chart_, row, steps_)) return 0;
        RowFault fault = FaultOf(row, 0, ComparisonCode::kRowTooMany);
        fault.text_says = fmt::format("row {}", row.number);
        fault.chart_says =
            fmt::format("rows {} to {}", chart_.number(1), chart_.number(chart_.count()));
        Add(std::move(fault));
        return 0;
      }
      case RowPlace::Role::kDoubled: {
        RowFault fault = FaultOf(row, worked, ComparisonCode::kDoubledRow);
        fault.text_says = fmt::format("row {} once more", row.number);
        fault.chart_says = "once";
        Add(std::move(fault));
        return 0;
      }
      case RowPlace::Role::kMisplaced: {
        RowFault fault = FaultOf(row, worked, ComparisonCode::kMisplacedRow);
        fault.text_says = fmt::format("row {} out of its order", row.number);
        fault.chart_says = "in its order";
        Add(std::move(fault));
        return place.worked;
      }
      case RowPlace::Role::kWrongNumber: {
        RowFault fault = FaultOf(row, place.worked, ComparisonCode::kWrongNumber);
        fault.other_row = row.number;
        fault.text_says = fmt::format("row {}", row.number);
        fault.chart_says = fmt::format("row {}", chart_.number(place.worked));
        Add(std::move(fault));
        return place.worked;
      }
    }
    return 0;
  }

  void AddStitches(const PlacedRow& row, int worked, const StitchFault& found) {
    RowFault fault = FaultOf(row, worked, found.code);
    if (found.at.line > 0) fault.at = found.at;
    fault.off_by = found.off_by;
    fault.chains_more = found.chains_more;
    fault.text_says = found.text_says;
    fault.chart_says = found.chart_says;
    if (found.first > 0) SetStitches(worked, found.first, found.last, fault);
    if (fault.code == ComparisonCode::kWrongStitch || fault.code == ComparisonCode::kWrongEdge) {
      CompareWithOthers(row, worked, fault);
    }
    Add(std::move(fault));
  }

  // As far as the chart's stitches follow each other: the first repetition of a band.
  void SetStitches(int worked, int first, int last, RowFault& fault) const {
    fault.stitch = chart_.stitch(worked, first);
    fault.last_stitch = fault.stitch;
    const int step = chart_.ascending(worked) ? 1 : -1;
    for (int place = first + 1; place <= std::min(last, chart_.stitches()); ++place) {
      if (chart_.stitch(worked, place) != fault.last_stitch + step) break;
      fault.last_stitch += step;
    }
    if (fault.stitch > fault.last_stitch) std::swap(fault.stitch, fault.last_stitch);
  }

  // Whether it is another row that the text has here.
  void CompareWithOthers(const PlacedRow& row, int worked, RowFault& fault) {
    const std::vector<WorkedRun> text = steps_.TextRuns(row.worked, worked);
    for (size_t i = 0; i < kShifts.size(); ++i) {
      const int other = worked + kShifts[i];
      if (chart_.has(other) && chart_.runs(other) == text) {
        fault.shifts |= static_cast<uint8_t>(1U << i);
      }
    }
    // A row of one kind of stitch is like too many others to show anything.
    if (fault.code == ComparisonCode::kWrongEdge || fault.off_by < 2 || text.size() <= 1) return;
    const int other = chart_.NearestWith(text, worked);
    if (other == 0) return;
    fault.code = ComparisonCode::kReadsAsOtherRow;
    fault.other_row = chart_.number(other);
    fault.text_says = fmt::format("the stitches of row {}", fault.other_row);
    fault.chart_says = fmt::format("the stitches of row {}", fault.number);
  }

  const TextDocument& document_;
  ChartRows& chart_;
  RowTerms terms_;
  ComparisonWork& work_;
  StepsComparer steps_;
  std::vector<PlacedRow> placed_;
  RowPlaces places_;
  SizeComparison result_;
};

}  // namespace

bool IsStitchFault(ComparisonCode code) { return code <= ComparisonCode::kRowsShifted; }

SizeComparison CompareSize(const TextDocument& document, ChartRows& chart, const RowTerms& terms,
                           ComparisonWork& work) {
  return SizeComparer(document, chart, terms, work).Compare();
}

}  // namespace rowproof::rows
