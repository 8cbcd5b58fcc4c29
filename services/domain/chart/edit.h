// One change of a cell.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_EDIT_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_EDIT_H_

#include <cstddef>
#include <optional>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// One cell of the chart as given, from 1, and the value it should have.
struct Edit {
  int row = 0;
  int stitch = 0;
  bool value = false;
  // The colour it should name; only in a picture that names its cells' colours.
  std::optional<Colour> colour = std::nullopt;
  bool operator==(const Edit&) const = default;
};

// As many edits as a result names; the largest charts can need millions.
inline constexpr size_t kMostEditsNamed = 100'000;

// Makes the edit. The place must be in the chart.
void Apply(const Edit& edit, Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_EDIT_H_
