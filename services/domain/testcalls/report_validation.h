// What a report may say. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_REPORT_VALIDATION_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_REPORT_VALIDATION_H_

#include "absl/status/status.h"
#include "services/domain/chart/design.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::testcalls {

// INVALID_ARGUMENT with the field's path ("yarn[1].mass_after_g", "gauge_before[0].rows",
// "errata[2].row", ...) if a number is not finite or impossible, a row or stitch is beyond the
// expanded size, a text has control characters, a yarn of C to H is not used by the design with
// these materials, or two answers contradict each other (a finished piece that ends before the last
// row). The design must be valid. FindSlips (slips.h) is for what is possible but unlikely.
absl::Status Validate(const Report& report, const chart::Design& design,
                      const estimate::Materials& materials);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_REPORT_VALIDATION_H_
