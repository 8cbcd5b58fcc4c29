// Files of cases that are read in review: what goes in, "--", what comes out, "==". Rewritten with
// ROWPROOF_REWRITE_GOLDEN=1.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_GOLDEN_CASES_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_GOLDEN_CASES_H_

#include <functional>
#include <string>
#include <vector>

namespace rowproof::rows {

// What goes in, as so many parts with "--" between them; lines end with a line feed.
using GoldenParts = std::vector<std::string>;

// Holds each of the cases in tests/golden/`name`, `fewest` or more, against what `report` makes of
// its parts.
void ExpectGolden(const std::string& name, size_t parts, int fewest,
                  const std::function<std::string(const GoldenParts&)>& report);

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_GOLDEN_CASES_H_
