#include "services/domain/estimate/calibration/kept_calibration.h"

#include <gtest/gtest.h>

#include <numbers>

#include "services/domain/errors.h"
#include "services/domain/estimate/calibration/observations.h"

namespace rowproof::estimate {
namespace {

constexpr size_t kSc = static_cast<size_t>(StitchKind::kSingleCrochet);

// Invented: 400 sc at w = 5, h = 4, d = 2 mm, where the paths say 14,226.5 mm; measured to 1 %.
Measurement Swatch(double factor) {
  Measurement measurement;
  CalibrationObservation& observation = measurement.observation;
  observation.stitches[kSc] = 400;
  observation.fabric = {5, 4, 2};
  observation.length_mm = factor * 400 * (23 + 4 * std::numbers::pi);
  observation.uncertainty_mm = 142;
  return measurement;
}

std::vector<KeptMeasurement> Kept(std::initializer_list<double> factors) {
  std::vector<KeptMeasurement> kept;
  for (const double factor : factors) {
    kept.push_back({static_cast<int>(kept.size()) + 1, 1, Swatch(factor)});
  }
  return kept;
}

std::string RefusedField(const absl::Status& status) {
  const auto detail = DetailOf(status);
  return detail.fields.empty() ? "" : detail.fields[0].field;
}

std::string RefusedField(const std::vector<KeptMeasurement>& in_force,
                         const RevisionChange& change) {
  return RefusedField(Revise(in_force, change).status());
}

TEST(KeptCalibration, IsThePosteriorOfWhatIsInForceAndWhatIsAdded) {
  const auto revised = Revise(Kept({1.1, 1.12}), {{Swatch(1.08)}, {}, "third swatch"}).value();
  const auto at_once = CalibrateBy(std::vector{Swatch(1.08), Swatch(1.1), Swatch(1.12)}).value();
  EXPECT_EQ(revised, at_once);
  EXPECT_EQ(revised.observation_count, 3);
}

TEST(KeptCalibration, IsWithoutWhatIsLeftOut) {
  const auto revised = Revise(Kept({1.1, 1.9, 1.12}), {{}, {2}, "two was a slip"}).value();
  EXPECT_EQ(revised, CalibrateBy(std::vector{Swatch(1.1), Swatch(1.12)}).value());
}

TEST(KeptCalibration, RefusesWhatCannotBeLeftOut) {
  EXPECT_EQ(RefusedField(Kept({1.1, 1.2}), {{}, {3}, ""}), "left_out[0]");
  EXPECT_EQ(RefusedField(Kept({1.1, 1.2}), {{}, {1, 0}, ""}), "left_out[1]");
  EXPECT_EQ(RefusedField(Kept({1.1, 1.2}), {{}, {2, 2}, ""}), "left_out[1]");
  EXPECT_EQ(RefusedField(Kept({1.1, 1.2}), {{}, {1, 2}, ""}), "measurements");
}

TEST(KeptCalibration, RefusesAChangeThatChangesNothingOrCannotBeRead) {
  EXPECT_EQ(RefusedField(Kept({1.1}), {}), "measurements");
  EXPECT_EQ(RefusedField(Kept({1.1}), {{Swatch(1.1)}, {}, std::string(2001, 'x')}), "note");
  EXPECT_EQ(RefusedField(Kept({1.1}), {{Swatch(1.1)}, {}, std::string("a\0b", 3)}), "note");
  RevisionChange change{{Swatch(1.1), Swatch(1.1)}, {}, ""};
  change.added[1].note = "two\nlines";
  EXPECT_EQ(RefusedField(Kept({1.1}), change), "measurements[1].note");
}

TEST(KeptCalibration, NamesTheAddedMeasurementThatIsASlip) {
  EXPECT_EQ(RefusedField(Kept({1.1}), {{Swatch(1.1), Swatch(2.54)}, {}, ""}),
            "measurements[1].length_mm");
}

TEST(KeptCalibration, RestsOn200MeasurementsAtMost) {
  std::vector<KeptMeasurement> many;
  for (int number = 1; number <= 200; ++number) many.push_back({number, 1, Swatch(1.1)});
  EXPECT_EQ(RefusedField(many, {{Swatch(1.1)}, {}, ""}), "measurements");
  EXPECT_TRUE(Revise(many, {{Swatch(1.1)}, {7}, ""}).ok());
}

TEST(CalibrationScope, OfAKeptOneNamesTechniqueAndClass) {
  CalibrationScope scope;
  EXPECT_TRUE(Validate(scope).ok());
  EXPECT_EQ(InWords(scope), "not said");
  EXPECT_EQ(RefusedField(ValidateKept(scope)), "technique");
  scope.technique = chart::Technique::kSpike;
  EXPECT_EQ(RefusedField(ValidateKept(scope)), "weight_class");
  scope.weight_class = 8;
  EXPECT_EQ(RefusedField(ValidateKept(scope)), "weight_class");
  EXPECT_EQ(RefusedField(Validate(scope)), "weight_class");
  scope.weight_class = 0;
  EXPECT_TRUE(ValidateKept(scope).ok());
  scope.facing = chart::Facing::kPaired;
  scope.ends = chart::Ends::kWaiting;
  EXPECT_EQ(InWords(scope), "spike, paired, ends waiting, weight class 0");
}

}  // namespace
}  // namespace rowproof::estimate
