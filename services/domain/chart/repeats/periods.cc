#include "services/domain/chart/repeats/periods.h"

#include <cstddef>
#include <set>
#include <utility>

namespace rowproof::chart {

std::vector<Repetition> Repetitions(const std::vector<int>& letters, const Stop& stop) {
  std::vector<Repetition> found;
  // A stretch that has a smaller period too is as long with it, and was found before: two periods
  // of it are long enough for both periods to have a common divisor (Fine and Wilf 1965).
  std::set<std::pair<int, int>> known;
  const int length = static_cast<int>(letters.size());
  for (int period = 1; period <= length / 2; ++period) {
    if (stop.After(length)) break;
    int equal = 0;  // letters in a line that come back
    for (int i = 0; i + period <= length; ++i) {
      const bool comes_back = i + period < length && letters[static_cast<size_t>(i)] ==
                                                         letters[static_cast<size_t>(i + period)];
      if (comes_back) {
        ++equal;
        continue;
      }
      const int first = i - equal + 1;
      const int last = i + period;
      if (equal >= period && known.emplace(first, last).second) {
        found.push_back({first, last, period});
      }
      equal = 0;
    }
  }
  return found;
}

}  // namespace rowproof::chart
