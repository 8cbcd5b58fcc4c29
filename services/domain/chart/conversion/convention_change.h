// A chart in the other convention: a picture as a working chart and back.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_CONVENTION_CHANGE_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_CONVENTION_CHANGE_H_

#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/edit.h"

namespace rowproof::chart {

// Takes the marks at these places away (an off-colour cell becomes its row's colour, a drop a plain
// stitch) and gives the edits that say so, by row, then stitch. Places may repeat.
struct Place {
  int row = 0;
  int stitch = 0;
  auto operator<=>(const Place&) const = default;
};
std::vector<Edit> TakeMarksAway(Design& design, std::vector<Place> places);

// The marks that the other convention cannot show: of a picture, off-colour cells of the last row
// (no row is left to cover them) and cells of a colour that neither their own row nor the row above
// has; of a working chart, drops in row 1 and drops over a row of their own colour.
std::vector<Place> MarksLostIn(const Design& design, Convention convention);

// The same stitches in every size, in the other convention. A picture's repeated rows a to b become
// a working chart's rows a+1 to b+1, and back; if those are not rows of the chart or would not
// say the same, rows a to b stay if they do. The design must be valid and have no marks that are
// lost. FAILED_PRECONDITION, type CANNOT_BE_CONVERTED, subject row_band: no band of rows says the
// same.
absl::StatusOr<Design> InConvention(const Design& design, Convention convention);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_CONVENTION_CHANGE_H_
