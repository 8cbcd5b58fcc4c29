// Charts made over: a picture as a working chart, a chart of one technique for another.
//
// The techniques share their drops: a stitch that is a drop in one is a drop in the others, and the
// picture on face 1 stays the same. What differs are the edges (a flat overlay or inset row has no
// drop in its first or last stitch), the ways of facing and of treating the ends that go together,
// and what the maker does. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_CONVERSION_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_CONVERSION_H_

#include <cstdint>
#include <optional>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/edit.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

// What the chart is to become; what is absent stays.
struct ConversionTarget {
  std::optional<Convention> convention;
  std::optional<Technique> technique;
  // Absent: as it is worked now, if the technique leaves a choice.
  std::optional<Facing> facing;
  // Absent: as they are if that fits, otherwise UsualEnds.
  std::optional<Ends> ends;
};

struct Conversion {
  Design design;  // valid
  // What had to change before the chart could be made over, as edits of the chart as it was given,
  // by row, then stitch: drops in edge stitches; with the convention, marks that the other one
  // cannot show. A cell of a repeated band is changed in every repetition.
  // The first kMostEditsNamed are named.
  std::vector<Edit> edits;
  int64_t edit_count = 0;
  // Whether they are others than before.
  bool facing_changed = false;
  bool ends_changed = false;
};

// If nothing had to change, converting back gives the design back, but for a facing and ends that
// the technique between could not keep, and for a row band that stayed in place although the marks
// moved by a row (InConvention): it may come back one row off and mean the same.
//
// The design must be valid; it may be unworkable, and what Check finds in it besides the edits
// remains. Errors:
//   INVALID_ARGUMENT     `facing` for a technique that leaves no choice; `ends` that do not fit
//   FAILED_PRECONDITION  type CANNOT_BE_CONVERTED: subject "form", a tube for a technique that is
//                        worked flat only; subject "row_band", see InConvention
//   the stop's status if the work has to stop
absl::StatusOr<Conversion> Convert(const Design& design, const ConversionTarget& target,
                                   const Stop& stop = {});

// How the ends are treated by default: cut, waiting, carried, the first that fits without a note
// and without an order of colours that the design does not have.
Ends UsualEnds(const Design& design);

// The facing stored for a technique or form that leaves no choice (FacingOf), else the design's.
void SettleFacing(Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_CONVERSION_H_
