// What a version's estimate expects of a report. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_REPORTS_EXPECTED_REPORT_H_
#define ROWPROOF_SERVICES_USECASES_REPORTS_EXPECTED_REPORT_H_

#include "services/domain/patterns/version_content.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/slips/slips.h"

namespace rowproof::usecases {

// What the version's estimate expects of this report, which must be valid. If the technique has
// no estimate, only gauge, hook and rows are known.
testcalls::Expected ExpectedOf(const testcalls::Report& report,
                               const patterns::VersionContent& content);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_REPORTS_EXPECTED_REPORT_H_
