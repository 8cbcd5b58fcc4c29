#include "storage/json/reconciliation_json.h"

#include <nlohmann/json.hpp>
#include <optional>

namespace nlohmann {

// Absent values are null.
template <typename T>
struct adl_serializer<std::optional<T>> {
  static void to_json(json& to, const std::optional<T>& value) {
    to = value.has_value() ? json(*value) : json(nullptr);
  }
  static void from_json(const json& from, std::optional<T>& value) {
    if (from.is_null()) {
      value.reset();
    } else {
      value = from.get<T>();
    }
  }
};

}  // namespace nlohmann

// Found by the library in the namespace of the types.
namespace rowproof::reconcile {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Interval, low, high)

}  // namespace rowproof::reconcile

namespace rowproof::faults {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Undiscovered, estimator, not_stated, testers, rows, found,
                                   found_once, found_twice, left, left_se, left_interval, weak,
                                   caution)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ErrataCluster, kind, reports, row, last_row, first_stitch,
                                   last_stitch, in_chart, in_text, elsewhere, reported_by, found_by,
                                   met_by, right_for, worked_without_reporting)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(RowCoverage, chart, text, testers)

}  // namespace rowproof::faults

namespace rowproof::reconcile {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Prior, mu_sd, tau_scale, flat)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Spread, mean, sd, low, median, high)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Classical, reports, confidence, q, tau2_dl, tau2_reml, mu, mu_se,
                                   hk_se, hk, predictive_sd, prediction)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PrintedLength, length_m, rounded_m, rounded_yd)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(StrictAmount, factor_k, amount, variances_alike)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Amounts, design_gauge, predicted_m, factor, suffices,
                                   more_per_looser_stitch_m, loose_gauge, loose, strict)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(MeanInterval, count, mean, sd, t, interval)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(OneWayAnova, groups, values, df_between, df_within, grand_mean,
                                   ss_between, ss_within, ms_between, ms_within, f, p, r_squared,
                                   residual_sd, effective_size, within_variance,
                                   raw_between_variance, between_variance)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(GaugeAgreement, design_per_100mm, testers, readings, offset,
                                   relative_offset, components)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SetAside, seat, quantity, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(MeasurementResult, seat, measured, predicted,
                                   relative_uncertainty, theta_mean, theta_sd, shrinkage,
                                   modified_z, predictive_probability, flagged, reasons, set_aside,
                                   set_aside_note, after_blocking, gauge_assumed)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SizeAmount, size, colour, amounts, mass_g, balls)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(QuantityResult, quantity, measurements, used, set_aside, note,
                                   prior, interval_probability, mu, tau, new_maker, classical,
                                   amounts)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(UsedReport, seat, number, version, size, last_row)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ClusterResult, cluster, errata, recomputed)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(CoverageRun, first, last, coverage)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(CoverageResult, size, runs)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Reconciliation, reports, set_aside, left_out, quantities,
                                   stitch_gauge, row_gauge, errata, coverage, undiscovered)

}  // namespace rowproof::reconcile

namespace rowproof::storage {

std::string ReconciliationToJson(const reconcile::Reconciliation& reconciliation) {
  return nlohmann::json(reconciliation).dump();
}

reconcile::Reconciliation ReconciliationFromJson(const std::string& json) {
  return nlohmann::json::parse(json).get<reconcile::Reconciliation>();
}

std::vector<reconcile::UsedReport> UsedReportsFromJson(const std::string& json) {
  return nlohmann::json::parse(json).get<std::vector<reconcile::UsedReport>>();
}

}  // namespace rowproof::storage
