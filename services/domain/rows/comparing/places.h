// Where the rows of a text belong among the chart's rows: doubled, misplaced, wrongly numbered and
// missing ones. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_PLACES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_PLACES_H_

#include <functional>
#include <span>
#include <vector>

namespace rowproof::rows {

struct RowPlace {
  enum class Role {
    kInPlace,
    kMisplaced,    // its number is used only once, but it is in the wrong place
    kDoubled,      // its number is another row's already
    kWrongNumber,  // reads as a row that is missing at its place
    kTooMany,      // a number that the chart does not have
  };
  Role role = Role::kInPlace;
  int worked = 0;  // the chart's worked row that it is compared with; 0: none
};

struct RowPlaces {
  std::vector<RowPlace> rows;  // one for each row of the text
  std::vector<int> missing;    // worked rows of the chart, ascending
};

// `numbers` in the order of the text, as worked rows (from 1; others are kTooMany); `count` worked
// rows of the chart. The longest ascending part of the text is in place; of equal numbers the one
// that `agrees` (index of the text's row, worked row). O(n log n), and few calls of `agrees`.
RowPlaces PlaceRows(std::span<const int> numbers, int count,
                    const std::function<bool(size_t row, int worked)>& agrees);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_PLACES_H_
