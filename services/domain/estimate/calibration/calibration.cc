#include "services/domain/estimate/calibration/calibration.h"

#include <cmath>
#include <vector>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/estimate/calibration/regression.h"
#include "services/domain/estimate/uncertainty.h"
#include "services/domain/status_macros.h"

namespace rowproof::estimate {
namespace {

constexpr FabricMm kPlainFabric = {5, 4, 2};

bool IsDrop(StitchKind kind) {
  return kind == StitchKind::kSpikeSingleCrochet || kind == StitchKind::kDoubleTwoRowsDown ||
         kind == StitchKind::kDoubleThreeRowsDown;
}

double OwnSd(const CalibrationPrior& prior, size_t coefficient) {
  return IsDrop(static_cast<StitchKind>(coefficient / 3)) ? prior.own_of_drops : prior.own;
}

// Coefficients that are 0 stay 0. Parameter 0 is the shared deviation, parameter i + 1 that of the
// i-th coefficient listed here.
std::vector<size_t> Varying(const PathCoefficients& means) {
  std::vector<size_t> varying;
  for (size_t i = 0; i < kPathCoefficients; ++i) {
    if (means[i] != 0) varying.push_back(i);
  }
  return varying;
}

absl::Status CheckPrior(const CalibrationPrior& prior) {
  for (const double sd : {prior.shared, prior.own, prior.own_of_drops}) {
    if (!(sd > 0 && sd <= 1)) {
      return InvalidField("prior", fmt::format("{:g}", sd),
                          "standard deviations above 0, at most 1");
    }
  }
  for (const double mean : CoefficientsOf(prior.paths)) {
    if (!(mean >= 0 && mean <= kLargestCoefficient)) {
      return InvalidField("prior.paths", fmt::format("{:g}", mean), "coefficients from 0 to 20");
    }
  }
  return absl::OkStatus();
}

absl::StatusOr<RegressionRow> RowOf(const CalibrationObservation& observation, size_t index,
                                    const CalibrationPrior& prior, const PathCoefficients& means,
                                    const std::vector<size_t>& varying) {
  const std::string field = fmt::format("observations[{}]", index);
  const double predicted_mm = StitchesMm(prior.paths, observation.stitches, observation.fabric);
  const double measured_mm = observation.length_mm - observation.beside_mm;
  if (!(predicted_mm > 0 && std::isfinite(predicted_mm))) {
    return InvalidField(field, fmt::format("{:g} mm predicted", predicted_mm),
                        "stitches that take some yarn");
  }
  const double ratio = measured_mm / predicted_mm;
  if (!(ratio <= kMostOfPrediction && ratio * kMostOfPrediction >= 1)) {
    return InvalidField(
        field + ".length_mm",
        fmt::format("{:g} mm in the stitches, {:g} times the {:g} mm predicted", measured_mm, ratio,
                    predicted_mm),
        fmt::format("{:g} to {:g} times the length predicted; check units and counts",
                    1 / kMostOfPrediction, kMostOfPrediction));
  }
  const double parts[] = {observation.uncertainty_mm, observation.relative_spread * predicted_mm};
  RegressionRow row;
  row.sd = Combined(parts);
  row.observed = measured_mm - predicted_mm;
  row.factors.push_back(predicted_mm);
  const PathCoefficients sensitivities = Sensitivities(observation.stitches, observation.fabric);
  for (const size_t i : varying) row.factors.push_back(sensitivities[i] * means[i]);
  return row;
}

// Coefficient i is means[i] (1 + s + e_i): its covariance from that of s and all e.
PathCovariance CovarianceOf(const LinearFit& fit, const PathCoefficients& means,
                            const std::vector<size_t>& varying) {
  const size_t count = fit.coefficients.size();
  const auto at = [&](size_t row, size_t column) { return fit.covariance[row * count + column]; };
  PathCovariance covariance(kCovarianceNumbers, 0.0);
  for (size_t i = 0; i < varying.size(); ++i) {
    for (size_t k = 0; k <= i; ++k) {
      const double together = at(0, 0) + at(0, k + 1) + at(i + 1, 0) + at(i + 1, k + 1);
      const size_t row = varying[i];
      covariance[row * (row + 1) / 2 + varying[k]] = means[row] * means[varying[k]] * together;
    }
  }
  return covariance;
}

absl::StatusOr<PathCoefficients> CoefficientsFrom(const LinearFit& fit,
                                                  const PathCoefficients& means,
                                                  const std::vector<size_t>& varying) {
  PathCoefficients coefficients = {};
  for (size_t i = 0; i < varying.size(); ++i) {
    const size_t k = varying[i];
    coefficients[k] = means[k] * (1 + fit.coefficients[0] + fit.coefficients[i + 1]);
    if (!(coefficients[k] > 0 && coefficients[k] <= kLargestCoefficient)) {
      return InvalidField("observations",
                          fmt::format("a coefficient of {:g} for {}", coefficients[k],
                                      Name(static_cast<StitchKind>(k / 3))),
                          "consistent: no coefficient may exceed 20");
    }
  }
  return coefficients;
}

FabricMm MeanFabric(std::span<const CalibrationObservation> observations) {
  if (observations.empty()) return kPlainFabric;
  FabricMm mean;
  const auto count = static_cast<double>(observations.size());
  for (const CalibrationObservation& observation : observations) {
    mean.w_mm += observation.fabric.w_mm / count;
    mean.h_mm += observation.fabric.h_mm / count;
    mean.d_mm += observation.fabric.d_mm / count;
  }
  return mean;
}

std::array<double, kStitchKinds> RelativeSds(const StitchPaths& paths,
                                             const PathCovariance& covariance,
                                             const FabricMm& fabric) {
  std::array<double, kStitchKinds> relative = {};
  for (size_t kind = 0; kind < kStitchKinds; ++kind) {
    StitchNumbers one = {};
    one[kind] = 1;
    const double length_mm = StitchesMm(paths, one, fabric);
    if (length_mm > 0) relative[kind] = StitchesUncertaintyMm(covariance, one, fabric) / length_mm;
  }
  return relative;
}

}  // namespace

absl::StatusOr<Calibration> Calibrate(std::span<const CalibrationObservation> observations,
                                      const CalibrationPrior& prior) {
  RETURN_IF_ERROR(CheckPrior(prior));
  if (observations.size() > kMostObservations) {
    return InvalidField("observations", fmt::format("{}", observations.size()),
                        fmt::format("at most {} in number", kMostObservations));
  }
  const PathCoefficients means = CoefficientsOf(prior.paths);
  const std::vector<size_t> varying = Varying(means);
  std::vector<RegressionRow> rows;
  for (size_t i = 0; i < observations.size(); ++i) {
    ASSIGN_OR_RETURN(auto row, RowOf(observations[i], i, prior, means, varying));
    rows.push_back(std::move(row));
  }
  std::vector<NormalPrior> priors = {{0, prior.shared}};
  for (const size_t i : varying) priors.push_back({0, OwnSd(prior, i)});
  ASSIGN_OR_RETURN(const auto fit, BayesianRegression(rows, priors));
  ASSIGN_OR_RETURN(const auto before, BayesianRegression({}, priors));
  ASSIGN_OR_RETURN(const auto coefficients, CoefficientsFrom(fit, means, varying));
  Calibration calibration;
  calibration.paths = PathsOf(coefficients);
  calibration.covariance = CovarianceOf(fit, means, varying);
  calibration.observation_count = static_cast<int>(observations.size());
  const FabricMm fabric = calibration.mean_fabric = MeanFabric(observations);
  calibration.relative_before =
      RelativeSds(prior.paths, CovarianceOf(before, means, varying), fabric);
  calibration.relative_after = RelativeSds(calibration.paths, calibration.covariance, fabric);
  return calibration;
}

void Use(const Calibration& calibration, const std::string& name,
         const std::optional<CalibrationScope>& scope, Materials& materials) {
  materials.assumptions.paths = calibration.paths;
  materials.assumptions.path_covariance = calibration.covariance;
  materials.calibration = name;
  materials.calibration_scope = scope;
}

}  // namespace rowproof::estimate
