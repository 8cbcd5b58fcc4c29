// How well measured agrees with predicted over several makers, for one quantity (yarn of a colour,
// width, height, time). Pure; thread-safe.
//
// Model: y_i = ln(measured_i / predicted_i) ~ N(theta_i, s_i^2), theta_i ~ N(mu, tau^2), where s_i
// is maker i's own measuring uncertainty, mu what the prediction is off for all makers, and tau
// what differs from maker to maker. Prior: mu ~ N(0, mu_sd^2), tau ~ half-normal(tau_scale). Given
// tau all is closed form; tau is integrated out numerically (Gelman et al., Bayesian Data Analysis,
// section 5.4).
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_AGREEMENT_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_AGREEMENT_H_

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/domain/reconcile/statistics/classical.h"
#include "services/domain/reconcile/statistics/normal_mixture.h"

namespace rowproof::reconcile {

inline constexpr int kMostMeasurements = 100000;

// One maker's measurement of the quantity, with the prediction made for that maker's own gauge,
// yarn and ends. Both in the same unit, above 0.
struct Measurement {
  std::string id;  // opaque key of the tester or report; given back, never read
  double measured = 0;
  double predicted = 0;
  // Standard uncertainty of y = ln(measured / predicted) from measuring alone (the model's own
  // uncertainty is common to all makers and not in it); 0 or more, at most 10.
  double relative_uncertainty = 0;
  bool set_aside = false;  // by the designer: takes no part, but is listed
};

// What is believed before any report. Standard deviations of a logarithm, each above 0.
struct Prior {
  double mu_sd = 0;
  double tau_scale = 0;
  // Constant density of mu and of tau > 0 instead: for comparison with published results. Needs
  // kFewestForFlatPrior measurements, so that the posterior's moments exist.
  bool flat = false;
  bool operator==(const Prior&) const = default;
};

// Assumptions of this project; settings.
inline constexpr Prior kYarnPrior{0.12, 0.10};
inline constexpr Prior kSizePrior{0.03, 0.03};
inline constexpr Prior kTimePrior{0.5, 0.4};
inline constexpr int kFewestForFlatPrior = 5;

// Nobody measures better than this: a smaller s_i (a reported 0, say) is raised to it.
inline constexpr double kLeastUncertainty = 1e-4;

struct LogRatio {
  double y = 0;
  double s = 0;
};

// A distribution in short. `low` and `high` bound the central interval of the chosen probability.
struct Spread {
  double mean = 0;
  double sd = 0;
  double low = 0;
  double median = 0;
  double high = 0;
};

// Posterior of one maker's own theta_i.
struct MakerRatio {
  std::string id;
  double y = 0;  // ln(measured / predicted)
  double s = 0;  // as used
  double theta_mean = 0;
  double theta_sd = 0;
  bool set_aside = false;  // then theta is what the others say of a new maker
};

enum class AgreementNote : uint8_t {
  kNone,
  kPriorSpeaks,  // no report or one: the answer is mostly the prior
  kFew,          // two: between-maker spread rests mostly on the prior
};

struct Agreement {
  int reports_used = 0;
  int reports_set_aside = 0;
  AgreementNote note = AgreementNote::kNone;
  Prior prior;
  double interval_probability = 0.95;
  Spread mu;
  Spread tau;
  // ln(measured / predicted) of a new maker, without measuring error.
  Spread new_maker;
  NormalMixture predictive;
  std::vector<MakerRatio> makers;      // in the order of the measurements
  std::optional<Classical> classical;  // from two measurements on

  // exp of the new maker's quantile: what to multiply a prediction by, 0 < p < 1.
  double NewMakerFactor(double p) const;
};

// INVALID_ARGUMENT (paths measurements[i].measured, prior.mu_sd, interval_probability, ...) if a
// number is not finite or out of its range, there are too many measurements, or too few for a flat
// prior. Any number of measurements, even none. Time O(n * nodes), about 300 nodes.
absl::StatusOr<Agreement> Agree(std::span<const Measurement> measurements, const Prior& prior,
                                double interval_probability = 0.95);

// The same on logarithms; the ids stay empty. The numbers must be valid (CHECK).
Agreement AgreeOnLogRatios(std::span<const LogRatio> ratios, const Prior& prior,
                           double interval_probability = 0.95);

// The checks of Agree; the log ratio of a measurement that passed them, and those not set aside.
absl::Status CheckAgreementInput(std::span<const Measurement> measurements, const Prior& prior);
LogRatio ToLogRatio(const Measurement& measurement);
std::vector<LogRatio> UsedLogRatios(std::span<const Measurement> measurements);

// Posterior predictive of a new maker's ln ratio alone: what Agree returns as `predictive`, without
// the rest.
NormalMixture PredictNewMaker(std::span<const LogRatio> ratios, const Prior& prior);

// Closed form given tau > 0: mu and, for each ratio, theta (mean and sd).
struct GivenTau {
  double mu_mean = 0;
  double mu_sd = 0;
  std::vector<double> theta_mean;
  std::vector<double> theta_sd;
};
GivenTau ConditionOnTau(std::span<const LogRatio> ratios, const Prior& prior, double tau);

// One sentence that says how far the reports speak, for people.
std::string Sentence(AgreementNote note, int reports_used);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_AGREEMENT_H_
