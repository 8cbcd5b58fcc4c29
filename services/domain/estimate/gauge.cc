#include "services/domain/estimate/gauge.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/estimate/uncertainty.h"
#include "services/domain/status_macros.h"

namespace rowproof::estimate {
namespace {

constexpr double kCountHalfWidth = 0.25;  // a count is read to the nearest half
constexpr double kMostCount = 10'000;
// A gauge that is not known to a quarter of itself is no gauge.
constexpr double kMostRelativeUncertainty = 0.25;

struct Count {
  double count;
  double span_mm;
  double scale_step_mm;
};

struct Pooled {
  double per_100mm;
  double uncertainty;
};

double ReadingVariance(const Count& reading, double total_count, double total_span_mm) {
  const double of_count = RectangularUncertainty(kCountHalfWidth) / total_count;
  const double of_span = RectangularUncertainty(reading.scale_step_mm / 2) / total_span_mm;
  return of_count * of_count + of_span * of_span;
}

// Standard error of the readings' mean from their scatter (JCGM 100:2008 4.2.3).
double ScatterError(const std::vector<Count>& readings) {
  const auto n = static_cast<double>(readings.size());
  if (readings.size() < 2) return 0;
  double mean = 0;
  for (const Count& reading : readings) mean += 100 * reading.count / reading.span_mm / n;
  double squares = 0;
  for (const Count& reading : readings) {
    const double off = 100 * reading.count / reading.span_mm - mean;
    squares += off * off;
  }
  return std::sqrt(squares / (n - 1) / n);
}

Pooled Pool(const std::vector<Count>& readings) {
  double count = 0;
  double span_mm = 0;
  for (const Count& reading : readings) {
    count += reading.count;
    span_mm += reading.span_mm;
  }
  double relative_variance = 0;
  for (const Count& reading : readings) {
    relative_variance += ReadingVariance(reading, count, span_mm);
  }
  const double per_100mm = 100 * count / span_mm;
  return {per_100mm, std::max(per_100mm * std::sqrt(relative_variance), ScatterError(readings))};
}

absl::Status ValidateReading(const GaugeReading& reading, const std::string& field) {
  RETURN_IF_ERROR(CheckRange(field + ".stitches", reading.stitches, 1, kMostCount, "stitches"));
  RETURN_IF_ERROR(CheckRange(field + ".rows", reading.rows, 1, kMostCount, "rows"));
  RETURN_IF_ERROR(CheckRange(field + ".stitch_span_mm", reading.stitch_span_mm, kLeastSpanMm,
                             kMostSpanMm, "mm"));
  if (auto status =
          CheckRange(field + ".row_span_mm", reading.row_span_mm, kLeastSpanMm, kMostSpanMm, "mm");
      !status.ok()) {
    return status;
  }
  return CheckRange(field + ".scale_step_mm", reading.scale_step_mm, 0, 50, "mm");
}

absl::Status ValidateUncertainty(const std::optional<double>& uncertainty, double gauge,
                                 const std::string& field) {
  if (!uncertainty.has_value()) return absl::OkStatus();
  return CheckRange(field, *uncertainty, 0, kMostRelativeUncertainty * gauge, "per 100 mm");
}

// Of two numbers one is easily forgotten, and is 0 then.
absl::Status CheckPer100Mm(const std::string& field, double gauge, const char* unit) {
  if (gauge == 0) {
    return MissingField(
        field, fmt::format("between {} and {} {}", kLeastGaugePer100Mm, kMostGaugePer100Mm, unit));
  }
  return CheckRange(field, gauge, kLeastGaugePer100Mm, kMostGaugePer100Mm, unit);
}

}  // namespace

absl::StatusOr<Gauge> GaugeFromReadings(std::span<const GaugeReading> readings,
                                        const std::string& field) {
  if (readings.empty() || readings.size() > kMostGaugeReadings) {
    return InvalidField(field, fmt::format("{} readings", readings.size()),
                        fmt::format("1 to {} readings", kMostGaugeReadings));
  }
  std::vector<Count> stitches;
  std::vector<Count> rows;
  for (size_t i = 0; i < readings.size(); ++i) {
    const GaugeReading& reading = readings[i];
    if (auto status = ValidateReading(reading, fmt::format("{}[{}]", field, i)); !status.ok()) {
      return status;
    }
    stitches.push_back({reading.stitches, reading.stitch_span_mm, reading.scale_step_mm});
    rows.push_back({reading.rows, reading.row_span_mm, reading.scale_step_mm});
  }
  const Pooled stitch_gauge = Pool(stitches);
  const Pooled row_gauge = Pool(rows);
  for (const auto& [pooled, what] :
       {std::pair{stitch_gauge, "stitches"}, std::pair{row_gauge, "rows"}}) {
    if (pooled.uncertainty <= kMostRelativeUncertainty * pooled.per_100mm) continue;
    return InvalidFields(
        {{field,
          fmt::format("Your counts of {} are too uncertain ({:.1f} +/- {:.1f} in 10 cm); check "
                      "them, or count over a longer span",
                      what, pooled.per_100mm, pooled.uncertainty)}});
  }
  return Gauge{stitch_gauge.per_100mm, row_gauge.per_100mm, stitch_gauge.uncertainty,
               row_gauge.uncertainty};
}

double ReadingUncertaintyPer100Mm(double per_100mm, double span_mm, double scale_step_mm) {
  const Count reading = {per_100mm * span_mm / 100, span_mm, scale_step_mm};
  return per_100mm * std::sqrt(ReadingVariance(reading, reading.count, span_mm));
}

absl::Status ValidateGauge(const Gauge& gauge, const std::string& field) {
  RETURN_IF_ERROR(CheckPer100Mm(field + ".stitches_per_decimetre", gauge.stitches_per_decimetre,
                                "stitches per 100 mm"));
  RETURN_IF_ERROR(CheckPer100Mm(field + ".rows_per_decimetre", gauge.rows_per_decimetre,
                                "worked rows per 100 mm"));
  RETURN_IF_ERROR(ValidateUncertainty(gauge.stitches_uncertainty_per_decimetre,
                                      gauge.stitches_per_decimetre,
                                      field + ".stitches_uncertainty_per_decimetre"));
  return ValidateUncertainty(gauge.rows_uncertainty_per_decimetre, gauge.rows_per_decimetre,
                             field + ".rows_uncertainty_per_decimetre");
}

}  // namespace rowproof::estimate
