// The few quantiles and tails of standard distributions that the reconciliation needs, each in one
// place (the library behind them is slow to compile). Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_DISTRIBUTIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_DISTRIBUTIONS_H_

namespace rowproof::reconcile {

// Distribution function of the standard normal distribution; accurate in the lower tail.
double NormalCdf(double z);

// Its quantile, 0 < p < 1.
double NormalQuantile(double p);

// Quantile of Student's t distribution, 0 < p < 1, degrees_of_freedom > 0.
double StudentQuantile(double p, double degrees_of_freedom);

// Upper tail of the F distribution at f >= 0.
double FisherUpperTail(double f, double df_between, double df_within);

// Quantile of the noncentral t distribution, 0 < p < 1.
double NoncentralStudentQuantile(double p, double degrees_of_freedom, double noncentrality);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_DISTRIBUTIONS_H_
