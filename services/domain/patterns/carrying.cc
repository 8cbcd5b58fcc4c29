#include "services/domain/patterns/carrying.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::patterns {
namespace {

absl::Status CheckPlace(const SizeDifference& difference, const Place& place) {
  const size_t rows = difference.new_row.size();
  if (place.row < 1 || static_cast<size_t>(place.row) > rows) {
    return InvalidField("row", std::to_string(place.row), fmt::format("a row from 1 to {}", rows));
  }
  if (place.first_stitch == 0 && place.last_stitch == 0) return absl::OkStatus();
  if (place.first_stitch < 1) {
    return InvalidField("first_stitch", std::to_string(place.first_stitch),
                        "at least 1, or 0 with last_stitch 0 for the whole row");
  }
  if (place.last_stitch < place.first_stitch) {
    return InvalidField("last_stitch", std::to_string(place.last_stitch),
                        fmt::format("at least {}", place.first_stitch));
  }
  return absl::OkStatus();
}

bool Overlaps(const StitchRange& range, const Place& place) {
  return range.first <= place.last_stitch && range.last >= place.first_stitch;
}

int Length(const std::vector<StitchRange>& ranges) {
  return ranges.empty() ? 0 : ranges[0].last - ranges[0].first + 1;
}

// The rows' stitch counts differ: `kept` stitches are before the change, and those after it have
// moved.
CarriedPlace AcrossOtherCount(const RowDifference& row, const Place& place) {
  const int old_length = Length(row.old_stitches);
  const int new_length = Length(row.new_stitches);
  const int kept =
      (row.old_stitches.empty() ? row.new_stitches : row.old_stitches).front().first - 1;
  const int after = kept + old_length;  // last old stitch of the change
  CarriedPlace carried{CarriedKind::kRowChanged, {row.new_row, 0, 0}, false};
  int first = place.first_stitch;
  int last = place.last_stitch;
  if (first > after) {
    first += new_length - old_length;
  } else if (first > kept) {
    first = kept + 1;
  }
  if (last > after) {
    last += new_length - old_length;
  } else if (last > kept) {
    last = kept + new_length;
  }
  if (first <= last) {
    carried.to.first_stitch = first;
    carried.to.last_stitch = last;
  }
  carried.touched = old_length == 0 ? place.first_stitch <= kept && place.last_stitch > kept
                                    : Overlaps(row.old_stitches.front(), place);
  return carried;
}

CarriedPlace IntoChangedRow(const RowDifference& row, const Place& place) {
  CarriedPlace carried{CarriedKind::kRowChanged, place, true};
  carried.to.row = row.new_row;
  if (place.first_stitch == 0) return carried;
  if (row.old_stitches != row.new_stitches) {
    carried = AcrossOtherCount(row, place);
  } else if (!row.old_stitches.empty()) {
    carried.touched = std::any_of(row.old_stitches.begin(), row.old_stitches.end(),
                                  [&](const StitchRange& range) { return Overlaps(range, place); });
  }
  carried.touched = carried.touched || row.colour_changed || row.side_changed;
  return carried;
}

}  // namespace

absl::StatusOr<CarriedPlace> Carry(const SizeDifference& difference, const Place& place) {
  RETURN_IF_ERROR(CheckPlace(difference, place));
  const auto row =
      std::find_if(difference.rows.begin(), difference.rows.end(),
                   [&](const RowDifference& candidate) { return candidate.old_row == place.row; });
  if (row == difference.rows.end() || row->change == RowChange::kRemoved) {
    return CarriedPlace{CarriedKind::kRowGone, {}, false};
  }
  if (row->change == RowChange::kChanged) return IntoChangedRow(*row, place);
  CarriedPlace carried{CarriedKind::kSamePlace, place, false};
  if (row->new_row != row->old_row) {
    carried.kind = CarriedKind::kMoved;
    carried.to.row = row->new_row;
  }
  return carried;
}

absl::StatusOr<ChangesAround> ChangesFrom(const SizeDifference& difference, int last_row) {
  const size_t rows = difference.new_row.size();
  if (last_row < 0 || static_cast<size_t>(last_row) > rows) {
    return InvalidField("last_row", std::to_string(last_row),
                        fmt::format("a row from 0 to {}", rows));
  }
  ChangesAround changes;
  // Rows are in working order: all up to the last row worked are behind.
  bool passed = last_row == 0;
  for (const RowDifference& row : difference.rows) {
    if (passed && changes.next_row == 0) changes.next_row = row.new_row;
    if (row.change != RowChange::kSame) (passed ? changes.ahead : changes.behind).push_back(row);
    if (row.old_row == last_row && last_row != 0) passed = true;
  }
  return changes;
}

const char* Name(CarriedKind kind) {
  switch (kind) {
    case CarriedKind::kSamePlace:
      return "same-place";
    case CarriedKind::kMoved:
      return "moved";
    case CarriedKind::kRowChanged:
      return "row-changed";
    case CarriedKind::kRowGone:
      return "row-gone";
  }
  return "";
}

}  // namespace rowproof::patterns
