#include "services/domain/rows/comparing/places.h"

#include <algorithm>
#include <cstddef>

#include "services/domain/rows/index.h"

namespace rowproof::rows {
namespace {

constexpr size_t kNone = static_cast<size_t>(-1);
// Missing rows looked at for a row that has no place.
constexpr int kWidestGap = 64;

class Placing {
 public:
  Placing(std::span<const int> numbers, int count, const std::function<bool(size_t, int)>& agrees)
      : numbers_(numbers), count_(count), agrees_(agrees), taken_(Index(count) + 1, kNone) {
    places_.rows.resize(numbers.size());
    next_.resize(numbers.size(), count + 1);
    before_.resize(numbers.size(), 0);
  }

  RowPlaces Place() {
    FindAscending();
    for (const size_t row : ascending_) taken_[Index(numbers_[row])] = row;
    ChooseAmongEquals();
    FindNeighbours();
    for (size_t row = 0; row < numbers_.size(); ++row) {
      if (!InPlace(row)) PlaceInGap(row);
    }
    for (size_t row = 0; row < numbers_.size(); ++row) {
      RowPlace& place = places_.rows[row];
      if (place.role == RowPlace::Role::kWrongNumber) continue;
      place = PlaceByNumber(row);
    }
    for (int worked = 1; worked <= count_; ++worked) {
      if (taken_[Index(worked)] == kNone) places_.missing.push_back(worked);
    }
    return std::move(places_);
  }

 private:
  bool IsRow(size_t row) const { return numbers_[row] >= 1 && numbers_[row] <= count_; }
  bool InPlace(size_t row) const { return IsRow(row) && taken_[Index(numbers_[row])] == row; }

  // Longest strictly ascending part (patience sorting).
  void FindAscending() {
    std::vector<size_t> tails;
    std::vector<size_t> previous(numbers_.size(), kNone);
    for (size_t row = 0; row < numbers_.size(); ++row) {
      if (!IsRow(row)) continue;
      const auto at =
          std::lower_bound(tails.begin(), tails.end(), numbers_[row],
                           [&](size_t tail, int number) { return numbers_[tail] < number; });
      if (at != tails.begin()) previous[row] = *(at - 1);
      if (at == tails.end()) {
        tails.push_back(row);
      } else {
        *at = row;
      }
    }
    for (size_t row = tails.empty() ? kNone : tails.back(); row != kNone; row = previous[row]) {
      ascending_.push_back(row);
    }
    std::reverse(ascending_.begin(), ascending_.end());
  }

  // A doubled number: the row that agrees with the chart keeps the place if its neighbours allow
  // it.
  void ChooseAmongEquals() {
    for (size_t row = 0; row < numbers_.size(); ++row) {
      if (!IsRow(row) || InPlace(row)) continue;
      size_t& taken = taken_[Index(numbers_[row])];
      if (taken == kNone || !FitsBetween(taken, row)) continue;
      if (agrees_(row, numbers_[row]) && !agrees_(taken, numbers_[row])) {
        *std::find(ascending_.begin(), ascending_.end(), taken) = row;
        taken = row;
      }
    }
  }

  bool FitsBetween(size_t in_place, size_t row) const {
    const auto at = std::lower_bound(ascending_.begin(), ascending_.end(), in_place);
    const size_t after = at == ascending_.begin() ? kNone : *(at - 1);
    const size_t before = at + 1 == ascending_.end() ? kNone : *(at + 1);
    return (after == kNone || row > after) && (before == kNone || row < before);
  }

  void FindNeighbours() {
    int last = 0;
    for (size_t row = 0; row < numbers_.size(); ++row) {
      before_[row] = last;
      if (InPlace(row)) last = numbers_[row];
    }
    int next = count_ + 1;
    for (size_t row = numbers_.size(); row-- > 0;) {
      next_[row] = next;
      if (InPlace(row)) next = numbers_[row];
    }
  }

  void PlaceInGap(size_t row) {
    const int last = std::min(next_[row] - 1, before_[row] + kWidestGap);
    for (int worked = before_[row] + 1; worked <= last; ++worked) {
      if (taken_[Index(worked)] != kNone || !agrees_(row, worked)) continue;
      taken_[Index(worked)] = row;
      places_.rows[row] = {RowPlace::Role::kWrongNumber, worked};
      return;
    }
  }

  RowPlace PlaceByNumber(size_t row) {
    if (!IsRow(row)) return {RowPlace::Role::kTooMany, 0};
    size_t& taken = taken_[Index(numbers_[row])];
    if (taken == row) return {RowPlace::Role::kInPlace, numbers_[row]};
    if (taken != kNone) return {RowPlace::Role::kDoubled, 0};
    taken = row;
    return {RowPlace::Role::kMisplaced, numbers_[row]};
  }

  std::span<const int> numbers_;
  int count_;
  const std::function<bool(size_t, int)>& agrees_;
  std::vector<size_t> taken_;      // by worked row: the text's row
  std::vector<size_t> ascending_;  // rows of the text
  std::vector<int> before_;        // by row of the text: numbers in place before and behind it
  std::vector<int> next_;
  RowPlaces places_;
};

}  // namespace

RowPlaces PlaceRows(std::span<const int> numbers, int count,
                    const std::function<bool(size_t, int)>& agrees) {
  return Placing(numbers, count, agrees).Place();
}

}  // namespace rowproof::rows
