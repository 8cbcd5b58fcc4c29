// What a repair decides: mark or plain, once for all cells that are tied.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_VARIABLES_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_VARIABLES_H_

#include <cstdint>
#include <optional>
#include <vector>

#include "services/domain/chart/marks.h"
#include "services/domain/chart/repair/mark_limits.h"
#include "services/domain/chart/repair/options.h"
#include "services/domain/chart/repair/tied_cells.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

struct Variable {
  int32_t plain_cost = 0;  // cells that change if all are plain
  int32_t mark_cost = 0;   // or marks
  bool barred = false;     // some cell can be no mark by the rules
  bool no_image = false;   // a mark has no image, or its image shows another colour
  bool locked_mark = false;
  bool locked_plain = false;
  std::optional<Colour> colour;  // of a mark

  // All rules forbid marks at a place, or together; plain is always allowed. So a variable is a
  // mark only if that changes fewer cells, and then it costs `weight` to make it plain.
  bool is_mark() const {
    if (locked_mark) return true;
    return !barred && !no_image && !locked_plain && mark_cost < plain_cost;
  }
  int32_t weight() const { return plain_cost - mark_cost; }
};

// Of one design, which must outlive it, with its options. If the work has to stop, it is not whole,
// and nothing may be asked of it.
class RepairVariables {
 public:
  RepairVariables(const Design& design, const RepairOptions& options, const Stop& stop);

  const Design& design() const { return design_; }
  const RepairOptions& options() const { return options_; }
  const MarkLimits& limits() const { return limits_; }
  const std::vector<ColumnGroup>& groups() const { return cells_.groups(); }

  // Replaces what `variables` holds by those of the group; not by all if the work has to stop.
  void Describe(const ColumnGroup& group, std::vector<Variable>& variables, const Stop& stop) const;

 private:
  const Design& design_;
  const RepairOptions& options_;
  const MarkLimits limits_;
  const Marks marks_;
  const TiedCells cells_;
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_VARIABLES_H_
