// Numbers that are joined into classes (union-find).
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_JOINED_NUMBERS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_JOINED_NUMBERS_H_

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <numeric>
#include <vector>

namespace rowproof::chart {

// Numbers from 0; a class is named by its least number.
class JoinedNumbers {
 public:
  explicit JoinedNumbers(size_t count) : parent_(count) {
    std::iota(parent_.begin(), parent_.end(), 0);
  }
  int32_t Find(int32_t number) {
    while (Parent(number) != number) {
      Parent(number) = Parent(Parent(number));
      number = Parent(number);
    }
    return number;
  }
  void Join(int32_t one, int32_t other) {
    one = Find(one);
    other = Find(other);
    Parent(std::max(one, other)) = std::min(one, other);
  }

 private:
  int32_t& Parent(int32_t number) { return parent_[static_cast<size_t>(number)]; }
  std::vector<int32_t> parent_;
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_JOINED_NUMBERS_H_
