// The workability rules once more, as plainly as they are worded: every size laid out in full, cell
// by cell. Shares no code with the engine but the values it reads and makes.
#ifndef ROWPROOF_TESTS_DOMAIN_CHART_PLAIN_RULES_H_
#define ROWPROOF_TESTS_DOMAIN_CHART_PLAIN_RULES_H_

#include "services/domain/chart/check/findings.h"

namespace rowproof::chart {

// Findings without edits.
CheckResult PlainCheck(const Design& design, const CheckSettings& settings = {});

// Stitches of a finding: more than one for runs only. `stitches` are the chart's.
bool Covers(const Finding& finding, int stitch, const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_TESTS_DOMAIN_CHART_PLAIN_RULES_H_
