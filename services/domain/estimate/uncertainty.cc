#include "services/domain/estimate/uncertainty.h"

#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <numbers>

namespace rowproof::estimate {
namespace {

double NormalQuantile(double probability) {
  return boost::math::quantile(boost::math::normal(), probability);
}

}  // namespace

double RectangularUncertainty(double half_width) { return half_width / std::numbers::sqrt3; }

double Combined(std::span<const double> contributions) {
  double squares = 0;
  for (const double contribution : contributions) squares += contribution * contribution;
  return std::sqrt(squares);
}

double Combined(std::span<const Contribution> contributions) {
  double squares = 0;
  for (const auto& part : contributions) squares += part.uncertainty * part.uncertainty;
  return std::sqrt(squares);
}

double CombinedMeasuring(std::span<const Contribution> contributions) {
  double squares = 0;
  for (const auto& part : contributions) {
    const bool common =
        part.source == UncertaintySource::kModel || part.source == UncertaintySource::kCalibration;
    if (!common) squares += part.uncertainty * part.uncertainty;
  }
  return std::sqrt(squares);
}

Interval LogNormalInterval(double value, double uncertainty, double coverage) {
  if (value <= 0) return {0, 0, coverage};
  const double reach = NormalQuantile((1 + coverage) / 2) * uncertainty / value;
  return {value * std::exp(-reach), value * std::exp(reach), coverage};
}

double LogNormalUpperBound(double value, double uncertainty, double assurance) {
  if (value <= 0) return 0;
  return value * std::exp(NormalQuantile(assurance) * uncertainty / value);
}

const char* Name(UncertaintySource source) {
  switch (source) {
    case UncertaintySource::kModel:
      return "model";
    case UncertaintySource::kStitchGauge:
      return "stitch-gauge";
    case UncertaintySource::kRowGauge:
      return "row-gauge";
    case UncertaintySource::kYarnDiameter:
      return "yarn-diameter";
    case UncertaintySource::kRate:
      return "rate";
    case UncertaintySource::kCalibration:
      return "calibration";
  }
  return "";
}

}  // namespace rowproof::estimate
