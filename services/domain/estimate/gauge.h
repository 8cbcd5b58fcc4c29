// Gauge: how many stitches and worked rows of the fabric there are in 100 mm, from counts over any
// span. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_GAUGE_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_GAUGE_H_

#include <optional>
#include <span>
#include <string>

#include "absl/status/statusor.h"

namespace rowproof::estimate {

inline constexpr double kLeastGaugePer100Mm = 0.5;
inline constexpr double kMostGaugePer100Mm = 200;
inline constexpr double kLeastSpanMm = 1;
inline constexpr double kMostSpanMm = 10'000;
inline constexpr size_t kMostGaugeReadings = 100;

// One count in the mosaic fabric itself; rows are worked rows, counted in a plain column.
struct GaugeReading {
  double stitches = 0;
  double rows = 0;
  double stitch_span_mm = 100;
  double row_span_mm = 100;
  // Step of the scale the spans were read from.
  double scale_step_mm = 1;
  bool operator==(const GaugeReading&) const = default;
};

// Standard uncertainties are per 100 mm; if absent the gauge counts as one reading over 100 mm,
// to the nearest half stitch and millimetre, and the estimate says so.
struct Gauge {
  double stitches_per_decimetre = 0;
  double rows_per_decimetre = 0;
  std::optional<double> stitches_uncertainty_per_decimetre;
  std::optional<double> rows_uncertainty_per_decimetre;
  double stitch_pitch_mm() const { return 100 / stitches_per_decimetre; }
  double row_pitch_mm() const { return 100 / rows_per_decimetre; }
  bool operator==(const Gauge&) const = default;
};

// The gauge of one or more readings, pooled: counts over spans, each summed. Its standard
// uncertainty is the greater of what reading allows (count to the nearest half, half-width 0.25;
// span to its scale, half-width half a step; each over sqrt(3), in quadrature: JCGM 100:2008 4.3.7,
// 5.1) and, from two readings on, of their scatter's standard error (JCGM 100:2008 4.2.3).
// INVALID_ARGUMENT: no readings or too many, a value not finite or out of range
// ("gauge_readings[1].stitch_span_mm"), counts whose standard uncertainty is too much of the gauge.
absl::StatusOr<Gauge> GaugeFromReadings(std::span<const GaugeReading> readings,
                                        const std::string& field = "gauge_readings");

// Standard uncertainty per 100 mm of a count per 100 mm, read once over `span_mm`.
double ReadingUncertaintyPer100Mm(double per_100mm, double span_mm, double scale_step_mm);

// INVALID_ARGUMENT with "stitches_per_decimetre", "rows_per_decimetre" or an uncertainty's name,
// below `field`.
absl::Status ValidateGauge(const Gauge& gauge, const std::string& field);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_GAUGE_H_
