// Standard uncertainties and how independent ones combine (JCGM 100:2008). Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_UNCERTAINTY_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_UNCERTAINTY_H_

#include <cstdint>
#include <span>

namespace rowproof::estimate {

enum class UncertaintySource : uint8_t {
  kModel,  // common to all makers
  kStitchGauge,
  kRowGauge,
  kYarnDiameter,
  kRate,         // of time
  kCalibration,  // the stitches' calibrated paths; common to all makers
};

// What one source adds: |sensitivity| times the source's standard uncertainty, in the result's
// unit.
struct Contribution {
  UncertaintySource source = UncertaintySource::kModel;
  double uncertainty = 0;
  bool operator==(const Contribution&) const = default;
};

// An estimate is within it with probability `coverage`.
struct Interval {
  double low = 0;
  double high = 0;
  double coverage = 0;
  bool operator==(const Interval&) const = default;
};

// Half-width over sqrt(3): a value known only to lie within +- half_width (JCGM 100:2008 4.3.7).
double RectangularUncertainty(double half_width);

// Root sum of squares of independent contributions (JCGM 100:2008 5.1.2).
double Combined(std::span<const double> contributions);
double Combined(std::span<const Contribution> contributions);
// The same without the model's and the calibration's parts: what a maker's own measuring adds.
double CombinedMeasuring(std::span<const Contribution> contributions);

// Two-sided interval of a positive quantity, log-normal with median `value` and relative standard
// uncertainty u / value; (0, 0) if the value is 0.
Interval LogNormalInterval(double value, double uncertainty, double coverage);
// One-sided upper bound of the same; `assurance` in (0, 1).
double LogNormalUpperBound(double value, double uncertainty, double assurance);

const char* Name(UncertaintySource source);  // "model", "stitch-gauge", "row-gauge", ...

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_UNCERTAINTY_H_
