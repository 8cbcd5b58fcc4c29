// Slips in the yarn used, where one yarn explains another or a row. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_YARN_SLIPS_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_YARN_SLIPS_H_

#include <vector>

#include "services/domain/testcalls/slips/slips.h"

namespace rowproof::testcalls {

// At most one question for each yarn, and one for the last row; the report must be valid.
std::vector<Slip> FindYarnSlips(const Report& report, const Expected& expected);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_YARN_SLIPS_H_
