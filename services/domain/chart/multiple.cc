#include "services/domain/chart/multiple.h"

#include "fmt/format.h"
#include "services/domain/chart/expand.h"

namespace rowproof::chart {

std::optional<Multiple> StitchMultiple(const Design& design) {
  if (!design.stitch_band.has_value()) return std::nullopt;
  const int repeat = design.stitch_band->length();
  return Multiple{repeat, design.cells.stitches() - repeat};
}

std::optional<Multiple> RowMultiple(const Design& design) {
  if (!design.row_band.has_value()) return std::nullopt;
  const int repeat = design.row_band->length();
  const int worked = WorkedRows(design);
  return Multiple{repeat * worked, (design.cells.rows() - repeat) * worked};
}

std::string Words(const Multiple& multiple) {
  if (multiple.rest == 0) return fmt::format("multiple of {}", multiple.repeat);
  return fmt::format("multiple of {} plus {}", multiple.repeat, multiple.rest);
}

}  // namespace rowproof::chart
