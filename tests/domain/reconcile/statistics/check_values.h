// Published numbers in tests/data and how tests compare with them.
#ifndef ROWPROOF_TESTS_DOMAIN_RECONCILE_STATISTICS_CHECK_VALUES_H_
#define ROWPROOF_TESTS_DOMAIN_RECONCILE_STATISTICS_CHECK_VALUES_H_

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace rowproof::reconcile {

// tests/data/NAME.json; its source is inside the file.
nlohmann::json LoadChecks(const std::string& name);

// The rows of tests/data/NAME.csv below its comment and heading, as texts.
std::vector<std::vector<std::string>> LoadRows(const std::string& name);

// Number of right significant digits of `value`: -log10 of its relative error, 17 where none is
// seen.
double RightDigits(double value, const std::string& exact);

// One unit of the last place that a text like "0.0019" or "-3.14e2" prints.
double LastPlace(const std::string& printed);

// Numbers that SciPy prints, one a line, for a script (module names: stats, np, integrate). SciPy
// is Debian's python3-scipy; the test fails where it is absent.
std::vector<double> AskSciPy(const std::string& script);

}  // namespace rowproof::reconcile

// `value` is what a source printed, rounded at its last place.
#define EXPECT_AS_PRINTED(value, printed) \
  EXPECT_NEAR(value, std::stod(printed), 0.5000001 * ::rowproof::reconcile::LastPlace(printed))
// The source may have cut off instead of rounding: within one unit of the last place.
#define EXPECT_AS_CUT(value, printed) \
  EXPECT_NEAR(value, std::stod(printed), ::rowproof::reconcile::LastPlace(printed))

#endif  // ROWPROOF_TESTS_DOMAIN_RECONCILE_STATISTICS_CHECK_VALUES_H_
