// Findings that no cell causes: ends, the repeated row band, the colour order and number.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_DESIGN_FINDINGS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_DESIGN_FINDINGS_H_

#include <vector>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

// By row. Codes kEndsDoNotFit, kEndsCouldWait, kOddRowRepeat, kFacingRepeat, kColourOrder,
// kTooManyColours.
std::vector<Finding> FindingsOfDesign(const Design& design, const RowStructure& structure);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_DESIGN_FINDINGS_H_
