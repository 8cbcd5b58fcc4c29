// Repetitions in a line of letters.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPEATS_PERIODS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPEATS_PERIODS_H_

#include <vector>

#include "services/domain/stop.h"

namespace rowproof::chart {

// A stretch of letters first..last (from 1) in which each letter comes back after `period` places,
// two periods long at least, that cannot be made longer on either side. `period` is the least that
// the stretch has.
struct Repetition {
  int first = 0;
  int last = 0;
  int period = 0;
  bool operator==(const Repetition&) const = default;
};

// All of them, by period, then by place. Time O(letters^2). Not all if the work has to stop.
std::vector<Repetition> Repetitions(const std::vector<int>& letters, const Stop& stop = {});

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPEATS_PERIODS_H_
