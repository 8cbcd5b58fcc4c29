#include "services/domain/estimate/gauge.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include "services/domain/errors.h"
#include "services/quantities/units.h"

namespace rowproof::estimate {
namespace {

std::string RefusedField(const std::vector<GaugeReading>& readings) {
  const auto gauge = GaugeFromReadings(readings);
  EXPECT_EQ(gauge.status().code(), absl::StatusCode::kInvalidArgument);
  const auto fields = DetailOf(gauge.status()).fields;
  return fields.empty() ? "" : fields.front().field;
}

// 20 stitches over 100 mm: count 0.25/sqrt 3 of 20 = 0.0072169; span 0.5/sqrt 3 of 100 = 0.0028868;
// in quadrature 0.0077728, of 20: 0.155456.
TEST(Gauge, OfOneReadingHasItsReadingUncertainty) {
  const GaugeReading reading = {20, 30, 100, 150, 1};
  const Gauge gauge = GaugeFromReadings({&reading, 1}).value();
  EXPECT_DOUBLE_EQ(gauge.stitches_per_decimetre, 20);
  EXPECT_DOUBLE_EQ(gauge.rows_per_decimetre, 20);
  EXPECT_NEAR(gauge.stitches_uncertainty_per_decimetre.value(), 0.155456, 5e-7);
  // 30 rows over 150 mm: 0.0048113 and 0.0019245, 0.00518188 of 20.
  EXPECT_NEAR(gauge.rows_uncertainty_per_decimetre.value(), 0.103638, 5e-7);
  EXPECT_NEAR(ReadingUncertaintyPer100Mm(20, 100, 1), 0.155456, 5e-7);
  EXPECT_DOUBLE_EQ(ReadingUncertaintyPer100Mm(20, 150, 1),
                   gauge.rows_uncertainty_per_decimetre.value());
}

TEST(Gauge, OfSeveralSpansIsPooledByTheirLength) {
  const std::vector<GaugeReading> readings = {
      {16, 14, quantities::kFourInchesMm, quantities::kFourInchesMm, 1},
      {33, 29, 2 * quantities::kFourInchesMm, 2 * quantities::kFourInchesMm, 1}};
  const Gauge gauge = GaugeFromReadings(readings).value();
  EXPECT_DOUBLE_EQ(gauge.stitches_per_decimetre, 4900 / (3 * quantities::kFourInchesMm));
  EXPECT_DOUBLE_EQ(gauge.rows_per_decimetre, 4300 / (3 * quantities::kFourInchesMm));
}

// Three readings of 18, 20, 22 over 100 mm: standard deviation 2, standard error 2/sqrt 3, which is
// more than reading to the half stitch explains.
TEST(Gauge, TakesTheScatterOfReadingsWhereItIsGreater) {
  const std::vector<GaugeReading> scattered = {
      {18, 20, 100, 100, 1}, {20, 20, 100, 100, 1}, {22, 20, 100, 100, 1}};
  const Gauge gauge = GaugeFromReadings(scattered).value();
  EXPECT_NEAR(gauge.stitches_uncertainty_per_decimetre.value(), 2 / std::sqrt(3.0), 1e-12);
  EXPECT_NEAR(gauge.rows_uncertainty_per_decimetre.value(), 0.155456 / std::sqrt(3.0), 5e-7);
}

TEST(Gauge, IsNotPooledFromCountsThatDoNotGoTogether) {
  const std::vector<GaugeReading> readings = {{14, 16, 100, 100, 1}, {1, 16, 100, 100, 1}};
  const auto gauge = GaugeFromReadings(readings, "readings");
  EXPECT_EQ(RefusedField(readings), "gauge_readings");
  EXPECT_EQ(
      gauge.status().message(),
      "Your counts of stitches are too uncertain (7.5 +/- 6.5 in 10 cm); check them, or count "
      "over a longer span");
}

// JCGM 101:2008: counts and spans drawn from their rectangles.
TEST(Gauge, UncertaintyAgreesWithMonteCarloWithinTwoPercent) {
  const std::vector<GaugeReading> readings = {{14, 12, 100, 90, 2}, {22.5, 19, 160, 142, 2}};
  const double stated = GaugeFromReadings(readings)->stitches_uncertainty_per_decimetre.value();
  std::mt19937 random(5);
  std::uniform_real_distribution<double> count(-0.25, 0.25);
  std::uniform_real_distribution<double> span(-1, 1);
  double sum = 0;
  double squares = 0;
  const int draws = 200'000;
  for (int i = 0; i < draws; ++i) {
    const double stitches = 14 + count(random) + 22.5 + count(random);
    const double gauge = 100 * stitches / (260 + span(random) + span(random));
    sum += gauge;
    squares += gauge * gauge;
  }
  const double mean = sum / draws;
  const double deviation = std::sqrt(squares / draws - mean * mean);
  EXPECT_NEAR(stated, deviation, 0.02 * deviation);
}

TEST(Gauge, RefusesNumbersThatAreNotFiniteOrPastTheirRange) {
  const double infinity = std::numeric_limits<double>::infinity();
  for (const double bad : {std::nan(""), infinity, -infinity, -1.0, 0.0, 1e9}) {
    const GaugeReading good = {20, 20, 100, 100, 1};
    GaugeReading reading = good;
    reading.stitches = bad;
    EXPECT_EQ(RefusedField({good, reading}), "gauge_readings[1].stitches");
    reading = good;
    reading.rows = bad;
    EXPECT_EQ(RefusedField({reading}), "gauge_readings[0].rows");
    reading = good;
    reading.stitch_span_mm = bad;
    EXPECT_EQ(RefusedField({reading}), "gauge_readings[0].stitch_span_mm");
    reading = good;
    reading.row_span_mm = bad;
    EXPECT_EQ(RefusedField({reading}), "gauge_readings[0].row_span_mm");
  }
  GaugeReading reading = {20, 20, 100, 100, std::nan("")};
  EXPECT_EQ(RefusedField({reading}), "gauge_readings[0].scale_step_mm");
  EXPECT_EQ(RefusedField({}), "gauge_readings");
  reading.scale_step_mm = 1;
  EXPECT_EQ(RefusedField(std::vector<GaugeReading>(101, reading)), "gauge_readings");
}

}  // namespace
}  // namespace rowproof::estimate
