#include "services/domain/chart/unfold.h"

namespace rowproof::chart {

std::vector<int> Unfold(int length, const std::optional<Band>& band, int repeats) {
  std::vector<int> order;
  for (int i = 1; i <= length; ++i) {
    order.push_back(i);
    if (!band.has_value() || i != band->last) continue;
    for (int n = 1; n < repeats; ++n) {
      for (int k = band->first; k <= band->last; ++k) order.push_back(k);
    }
  }
  return order;
}

}  // namespace rowproof::chart
