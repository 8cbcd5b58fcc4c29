#include "services/domain/reconcile/gauge.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/domain/reconcile/statistics/distributions.h"
#include "services/domain/reconcile/statistics/moments.h"

namespace rowproof::reconcile {
namespace {

constexpr size_t kMostReadings = 100000;

// The groups with values, each value less the very first one.
std::vector<std::vector<double>> Shift(std::span<const std::vector<double>> groups,
                                       double* common) {
  std::vector<std::vector<double>> shifted;
  for (const std::vector<double>& group : groups) {
    if (group.empty()) continue;
    if (shifted.empty()) *common = group[0];
    shifted.emplace_back(group);
    for (double& value : shifted.back()) value -= *common;
  }
  return shifted;
}

// Sums of squares, degrees of freedom and mean of the shifted groups.
void AddSquares(const std::vector<std::vector<double>>& groups, double common, OneWayAnova* table) {
  std::vector<double> sizes;
  std::vector<double> means;
  std::vector<double> within;
  std::vector<double> totals;
  for (const std::vector<double>& group : groups) {
    const Moments moments = MomentsOf(group);
    sizes.push_back(static_cast<double>(group.size()));
    means.push_back(moments.mean);
    within.push_back(moments.squares);
    totals.push_back(moments.mean * sizes.back());
  }
  const double values = Sum(sizes);
  const double grand_mean = Sum(totals) / values;
  std::vector<double> between;
  double size_squares = 0;
  for (size_t i = 0; i < groups.size(); ++i) {
    between.push_back(sizes[i] * (means[i] - grand_mean) * (means[i] - grand_mean));
    size_squares += sizes[i] * sizes[i];
  }
  table->groups = static_cast<int>(groups.size());
  table->values = static_cast<int>(values);
  table->df_between = table->groups - 1;
  table->df_within = table->values - table->groups;
  table->grand_mean = common + grand_mean;
  table->ss_between = Sum(between);
  table->ss_within = Sum(within);
  if (table->df_between > 0) {
    table->effective_size = (values - size_squares / values) / table->df_between;
  }
}

}  // namespace

MeanInterval StudentInterval(std::span<const double> values, double confidence) {
  ROWPROOF_CHECK(confidence > 0 && confidence < 1);
  const Moments moments = MomentsOf(values);
  MeanInterval mean{moments.count, moments.mean, moments.sd, 0, std::nullopt};
  if (moments.count < 2) return mean;
  mean.t = StudentQuantile(0.5 + confidence / 2, moments.count - 1);
  const double half = mean.t * moments.sd / std::sqrt(moments.count);
  mean.interval = Interval{moments.mean - half, moments.mean + half};
  return mean;
}

std::optional<OneWayAnova> AnalyseOneWay(std::span<const std::vector<double>> groups) {
  double common = 0;
  const std::vector<std::vector<double>> shifted = Shift(groups, &common);
  if (shifted.size() < 2) return std::nullopt;
  OneWayAnova table;
  AddSquares(shifted, common, &table);
  if (table.df_within < 1) return std::nullopt;
  table.ms_between = table.ss_between / table.df_between;
  table.ms_within = table.ss_within / table.df_within;
  if (table.ms_within > 0) {
    table.f = table.ms_between / table.ms_within;
    table.p = FisherUpperTail(*table.f, table.df_between, table.df_within);
  }
  const double total = table.ss_between + table.ss_within;
  if (total > 0) table.r_squared = table.ss_between / total;
  table.residual_sd = std::sqrt(table.ms_within);
  table.within_variance = table.ms_within;
  table.raw_between_variance = (table.ms_between - table.ms_within) / table.effective_size;
  table.between_variance = std::max(0.0, table.raw_between_variance);
  return table;
}

absl::StatusOr<GaugeAgreement> CompareGauge(double design_per_100mm,
                                            std::span<const GaugeReading> readings,
                                            double confidence) {
  const std::string accepted = "a number in 100 mm above 1, at most 1000";
  if (!IsGauge(design_per_100mm)) {
    return InvalidField("design_per_100mm", fmt::format("{}", design_per_100mm), accepted);
  }
  if (!(confidence >= 0.01 && confidence <= 0.9999)) {
    return InvalidField("confidence", fmt::format("{}", confidence), "between 0.01 and 0.9999");
  }
  if (readings.size() > kMostReadings) {
    return InvalidField("readings", fmt::format("{}", readings.size()),
                        fmt::format("at most {} in number", kMostReadings));
  }
  std::map<std::string, std::vector<double>> by_tester;
  for (size_t i = 0; i < readings.size(); ++i) {
    if (!IsGauge(readings[i].per_100mm)) {
      return InvalidField(fmt::format("readings[{}].per_100mm", i),
                          fmt::format("{}", readings[i].per_100mm), accepted);
    }
    by_tester[readings[i].tester].push_back(readings[i].per_100mm);
  }
  GaugeAgreement agreement;
  agreement.design_per_100mm = design_per_100mm;
  agreement.testers = static_cast<int>(by_tester.size());
  agreement.readings = static_cast<int>(readings.size());
  std::vector<double> offsets;
  std::vector<std::vector<double>> groups;
  for (auto& [tester, values] : by_tester) {
    offsets.push_back(MomentsOf(values).mean - design_per_100mm);
    groups.push_back(std::move(values));
  }
  agreement.offset = StudentInterval(offsets, confidence);
  agreement.relative_offset = agreement.offset.mean / design_per_100mm;
  agreement.components = AnalyseOneWay(groups);
  return agreement;
}

}  // namespace rowproof::reconcile
