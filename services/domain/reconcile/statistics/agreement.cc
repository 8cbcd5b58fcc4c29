#include "services/domain/reconcile/statistics/agreement.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/domain/reconcile/statistics/tau_posterior.h"
#include "services/domain/status_macros.h"

namespace rowproof::reconcile {
namespace {

// Far beyond any yarn, size or time in the units of the service.
constexpr double kMostAmount = 1e12;
constexpr double kMostUncertainty = 10;

Spread SpreadOf(const NormalMixture& mixture, double probability) {
  Spread spread;
  spread.mean = mixture.Mean();
  spread.sd = mixture.Sd();
  spread.low = mixture.Quantile(0.5 - probability / 2);
  spread.median = mixture.Quantile(0.5);
  spread.high = mixture.Quantile(0.5 + probability / 2);
  return spread;
}

Spread SpreadOfTau(const TauPosterior& posterior, double probability) {
  const std::array<double, 3> levels = {0.5 - probability / 2, 0.5, 0.5 + probability / 2};
  const std::vector<double> quantiles = posterior.Quantiles(levels);
  return {posterior.Mean(), posterior.Sd(), quantiles[0], quantiles[1], quantiles[2]};
}

AgreementNote NoteFor(size_t used) {
  if (used <= 1) return AgreementNote::kPriorSpeaks;
  return used == 2 ? AgreementNote::kFew : AgreementNote::kNone;
}

// theta_i given tau is N(a y_i + (1 - a) mu(tau), a s_i^2 + (1 - a)^2 var mu(tau)) with a = tau^2 /
// (s_i^2 + tau^2); its mean and variance over the nodes of tau.
void AddThetas(const CentredRatios& ratios, const TauPosterior& posterior,
               std::vector<MakerRatio>* makers) {
  const size_t count = ratios.z.size();
  std::vector<double> first(count);
  std::vector<double> second(count);
  for (size_t k = 0; k < posterior.tau.size(); ++k) {
    const double weight = posterior.probability[k];
    if (weight < 1e-17) continue;
    const double tau2 = posterior.tau[k] * posterior.tau[k];
    const double mu = posterior.mu_mean[k] - ratios.centre;
    const double mu_variance = posterior.mu_variance[k];
    for (size_t i = 0; i < count; ++i) {
      const double rest = ratios.variance[i] / (ratios.variance[i] + tau2);
      const double mean = ratios.z[i] + rest * (mu - ratios.z[i]);
      const double variance = rest * tau2 + rest * rest * mu_variance;
      first[i] += weight * mean;
      second[i] += weight * (variance + mean * mean);
    }
  }
  for (size_t i = 0; i < count; ++i) {
    (*makers)[i].theta_mean = ratios.centre + first[i];
    (*makers)[i].theta_sd = std::sqrt(std::max(0.0, second[i] - first[i] * first[i]));
  }
}

// Everything but the ids and what was set aside.
Agreement Compute(std::span<const LogRatio> ratios, const Prior& prior, double probability) {
  ROWPROOF_CHECK(probability > 0 && probability < 1);
  const CentredRatios centred(ratios);
  const TauPosterior posterior = IntegrateTau(centred, prior);
  Agreement agreement;
  agreement.reports_used = static_cast<int>(ratios.size());
  agreement.note = NoteFor(ratios.size());
  agreement.prior = prior;
  agreement.interval_probability = probability;
  agreement.mu = SpreadOf(posterior.Mu(), probability);
  agreement.tau = SpreadOfTau(posterior, probability);
  agreement.predictive = posterior.NewMaker();
  agreement.new_maker = SpreadOf(agreement.predictive, probability);
  std::vector<double> y;
  std::vector<double> s;
  for (const LogRatio& ratio : ratios) {
    y.push_back(ratio.y);
    s.push_back(std::max(ratio.s, kLeastUncertainty));
    agreement.makers.push_back({"", y.back(), s.back(), 0, 0, false});
  }
  AddThetas(centred, posterior, &agreement.makers);
  if (ratios.size() >= 2) agreement.classical = Pool(y, s, probability);
  return agreement;
}

std::string FieldOf(size_t index, const char* name) {
  return fmt::format("measurements[{}].{}", index, name);
}

absl::Status CheckMeasurements(std::span<const Measurement> measurements) {
  if (measurements.size() > static_cast<size_t>(kMostMeasurements)) {
    return InvalidField("measurements", fmt::format("{}", measurements.size()),
                        fmt::format("at most {} in number", kMostMeasurements));
  }
  const auto is_amount = [](double value) { return value > 0 && value <= kMostAmount; };
  for (size_t i = 0; i < measurements.size(); ++i) {
    const Measurement& one = measurements[i];
    const std::string amounts = "a finite number above 0, at most 1e12";
    if (!is_amount(one.measured)) {
      return InvalidField(FieldOf(i, "measured"), fmt::format("{}", one.measured), amounts);
    }
    if (!is_amount(one.predicted)) {
      return InvalidField(FieldOf(i, "predicted"), fmt::format("{}", one.predicted), amounts);
    }
    if (!(one.relative_uncertainty >= 0 && one.relative_uncertainty <= kMostUncertainty)) {
      return InvalidField(FieldOf(i, "relative_uncertainty"),
                          fmt::format("{}", one.relative_uncertainty),
                          fmt::format("between 0 and {}", kMostUncertainty));
    }
  }
  return absl::OkStatus();
}

absl::Status CheckPrior(const Prior& prior, size_t used) {
  if (prior.flat) {
    if (used >= static_cast<size_t>(kFewestForFlatPrior)) return absl::OkStatus();
    return InvalidField("prior.flat", fmt::format("true with {} measurements", used),
                        fmt::format("false unless at least {} measurements are not set aside",
                                    kFewestForFlatPrior));
  }
  const auto is_sd = [](double sd) { return sd >= 1e-6 && sd <= 100; };
  if (!is_sd(prior.mu_sd)) {
    return InvalidField("prior.mu_sd", fmt::format("{}", prior.mu_sd), "between 1e-6 and 100");
  }
  if (!is_sd(prior.tau_scale)) {
    return InvalidField("prior.tau_scale", fmt::format("{}", prior.tau_scale),
                        "between 1e-6 and 100");
  }
  return absl::OkStatus();
}

}  // namespace

absl::Status CheckAgreementInput(std::span<const Measurement> measurements, const Prior& prior) {
  RETURN_IF_ERROR(CheckMeasurements(measurements));
  const auto used = std::count_if(measurements.begin(), measurements.end(),
                                  [](const Measurement& one) { return !one.set_aside; });
  return CheckPrior(prior, static_cast<size_t>(used));
}

std::vector<LogRatio> UsedLogRatios(std::span<const Measurement> measurements) {
  std::vector<LogRatio> ratios;
  for (const Measurement& one : measurements) {
    if (!one.set_aside) ratios.push_back(ToLogRatio(one));
  }
  return ratios;
}

LogRatio ToLogRatio(const Measurement& measurement) {
  return {std::log(measurement.measured / measurement.predicted), measurement.relative_uncertainty};
}

absl::StatusOr<Agreement> Agree(std::span<const Measurement> measurements, const Prior& prior,
                                double interval_probability) {
  RETURN_IF_ERROR(CheckAgreementInput(measurements, prior));
  if (!(interval_probability >= 0.01 && interval_probability <= 0.9999)) {
    return InvalidField("interval_probability", fmt::format("{}", interval_probability),
                        "between 0.01 and 0.9999");
  }
  Agreement agreement = Compute(UsedLogRatios(measurements), prior, interval_probability);
  std::vector<MakerRatio> used = std::move(agreement.makers);
  agreement.makers.clear();
  size_t next = 0;
  for (const Measurement& one : measurements) {
    if (one.set_aside) {
      const LogRatio ratio = ToLogRatio(one);
      agreement.makers.push_back({one.id, ratio.y, std::max(ratio.s, kLeastUncertainty),
                                  agreement.new_maker.mean, agreement.new_maker.sd, true});
      ++agreement.reports_set_aside;
    } else {
      agreement.makers.push_back(std::move(used[next++]));
      agreement.makers.back().id = one.id;
    }
  }
  return agreement;
}

Agreement AgreeOnLogRatios(std::span<const LogRatio> ratios, const Prior& prior,
                           double interval_probability) {
  return Compute(ratios, prior, interval_probability);
}

NormalMixture PredictNewMaker(std::span<const LogRatio> ratios, const Prior& prior) {
  return IntegrateTau(CentredRatios(ratios), prior).NewMaker();
}

double Agreement::NewMakerFactor(double p) const { return std::exp(predictive.Quantile(p)); }

GivenTau ConditionOnTau(std::span<const LogRatio> ratios, const Prior& prior, double tau) {
  ROWPROOF_CHECK(tau > 0 && std::isfinite(tau));
  ROWPROOF_CHECK(!prior.flat || !ratios.empty());
  const CentredRatios centred(ratios);
  const TauPoint point = PointAt(std::log(tau), centred, prior);
  GivenTau given;
  given.mu_mean = point.mu_mean;
  given.mu_sd = std::sqrt(point.mu_variance);
  for (size_t i = 0; i < ratios.size(); ++i) {
    const double rest = centred.variance[i] / (centred.variance[i] + tau * tau);
    given.theta_mean.push_back(ratios[i].y + rest * (point.mu_mean - ratios[i].y));
    given.theta_sd.push_back(std::sqrt(rest * tau * tau + rest * rest * point.mu_variance));
  }
  return given;
}

std::string Sentence(AgreementNote note, int reports_used) {
  switch (note) {
    case AgreementNote::kPriorSpeaks:
      return reports_used == 0
                 ? "No tester reported this quantity; the numbers are the prior assumption."
                 : "Only one tester reported this quantity; the numbers are mostly the prior "
                   "assumption.";
    case AgreementNote::kFew:
      return "Only two testers reported this quantity; how much makers differ is mostly the prior "
             "assumption.";
    case AgreementNote::kNone:
      break;
  }
  return fmt::format("From {} reports.", reports_used);
}

}  // namespace rowproof::reconcile
