#include "storage/json/reconciliation_json.h"

#include <gtest/gtest.h>

namespace rowproof::storage {
namespace {

reconcile::Reconciliation Sample() {
  reconcile::Reconciliation sample;
  sample.reports = {{"s1", 2, 3, "Lap", 84}};
  sample.set_aside = {{"s1", reconcile::Quantity::kWidth, "inches"}};
  sample.left_out = {"Yarn \"B\" takes no part."};
  reconcile::QuantityResult quantity;
  quantity.quantity = reconcile::Quantity::kYarnB;
  reconcile::MeasurementResult measurement;
  measurement.seat = "s1";
  measurement.measured = 0.1 + 0.2;  // not a short decimal
  measurement.modified_z = -3.5;
  measurement.reasons = {"one", "two"};
  quantity.measurements = {measurement};
  quantity.classical = reconcile::Classical{};
  quantity.classical->prediction = reconcile::Interval{-1e-300, 1.0 / 3};
  reconcile::SizeAmount amount;
  amount.size = "Lap";
  amount.colour = estimate::YarnColour::kB;
  amount.amounts.loose = reconcile::PrintedLength{1.5, 5, 5};
  amount.amounts.strict = reconcile::StrictAmount{4.2, {2, 5, 5}, false};
  amount.balls = 3;
  quantity.amounts = {amount};
  sample.quantities = {quantity};
  sample.stitch_gauge = reconcile::GaugeAgreement{};
  sample.stitch_gauge->components = reconcile::OneWayAnova{};
  sample.errata = {{{faults::ErratumKind::kCount,
                     {0, 1},
                     7,
                     8,
                     1,
                     2,
                     true,
                     false,
                     false,
                     {"s1"},
                     {},
                     {},
                     {"s2"},
                     4},
                    {"e1", "e2"},
                    {"A sentence."}}};
  sample.coverage = {{"Lap", {{1, 84, {1, 2, 3}}}}};
  sample.undiscovered.estimator = faults::EstimatorUsed::kChao;
  sample.undiscovered.left_interval = reconcile::Interval{0.1, 10};
  return sample;
}

// Every field's text: equal texts are equal values, since the writer leaves nothing out.
TEST(ReconciliationJson, GivesBackWhatWasWrittenToTheLastBit) {
  const std::string written = ReconciliationToJson(Sample());
  const reconcile::Reconciliation read = ReconciliationFromJson(written);
  EXPECT_EQ(ReconciliationToJson(read), written);
  EXPECT_EQ(read.quantities[0].measurements[0].measured, 0.1 + 0.2);
  EXPECT_EQ(read.quantities[0].classical->prediction->low, -1e-300);
  EXPECT_EQ(read.quantities[0].amounts[0].amounts.strict->factor_k, 4.2);
  EXPECT_FALSE(read.quantities[0].amounts[0].mass_g.has_value());
  EXPECT_EQ(read.errata[0].cluster.right_for, std::vector<std::string>{"s2"});
  EXPECT_EQ(read.reports, Sample().reports);
  EXPECT_EQ(read.set_aside, Sample().set_aside);
  EXPECT_FALSE(read.row_gauge.has_value());
}

TEST(ReconciliationJson, ReadsItsReportsAlone) {
  const std::string json = R"([{"seat":"s1","number":2,"version":3,"size":"Lap","last_row":84}])";
  EXPECT_EQ(UsedReportsFromJson(json), Sample().reports);
}

}  // namespace
}  // namespace rowproof::storage
