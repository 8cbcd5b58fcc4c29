#include "services/domain/reconcile/statistics/distributions.h"

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>

#include "services/domain/check.h"

namespace rowproof::reconcile {

double NormalCdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double NormalQuantile(double p) {
  ROWPROOF_CHECK(p > 0 && p < 1);
  return boost::math::quantile(boost::math::normal(), p);
}

double StudentQuantile(double p, double degrees_of_freedom) {
  ROWPROOF_CHECK(p > 0 && p < 1 && degrees_of_freedom > 0);
  return boost::math::quantile(boost::math::students_t(degrees_of_freedom), p);
}

double FisherUpperTail(double f, double df_between, double df_within) {
  return boost::math::cdf(boost::math::complement(boost::math::fisher_f(df_between, df_within), f));
}

double NoncentralStudentQuantile(double p, double degrees_of_freedom, double noncentrality) {
  ROWPROOF_CHECK(p > 0 && p < 1 && degrees_of_freedom > 0);
  return boost::math::quantile(boost::math::non_central_t(degrees_of_freedom, noncentrality), p);
}

}  // namespace rowproof::reconcile
