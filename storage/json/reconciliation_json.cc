#include "storage/json/reconciliation_json.h"

#include "storage/json/json_reader.h"
#include "storage/json/json_tree.h"

namespace rowproof::storage {

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::Interval> auto& interval) {
  a.Field("low", interval.low);
  a.Field("high", interval.high);
}

template <typename Archive>
void Fields(Archive& a, StructOf<faults::Undiscovered> auto& undiscovered) {
  a.Numbered("estimator", undiscovered.estimator);
  a.Field("not_stated", undiscovered.not_stated);
  a.Field("testers", undiscovered.testers);
  a.Field("rows", undiscovered.rows);
  a.Field("found", undiscovered.found);
  a.Field("found_once", undiscovered.found_once);
  a.Field("found_twice", undiscovered.found_twice);
  a.Field("left", undiscovered.left);
  a.Field("left_se", undiscovered.left_se);
  a.Nullable("left_interval", undiscovered.left_interval);
  a.Field("weak", undiscovered.weak);
  a.Field("caution", undiscovered.caution);
}

template <typename Archive>
void Fields(Archive& a, StructOf<faults::ErrataCluster> auto& cluster) {
  a.Numbered("kind", cluster.kind);
  a.Field("reports", cluster.reports);
  a.Field("row", cluster.row);
  a.Field("last_row", cluster.last_row);
  a.Field("first_stitch", cluster.first_stitch);
  a.Field("last_stitch", cluster.last_stitch);
  a.Field("in_chart", cluster.in_chart);
  a.Field("in_text", cluster.in_text);
  a.Field("elsewhere", cluster.elsewhere);
  a.Field("reported_by", cluster.reported_by);
  a.Field("found_by", cluster.found_by);
  a.Field("met_by", cluster.met_by);
  a.Field("right_for", cluster.right_for);
  a.Field("worked_without_reporting", cluster.worked_without_reporting);
}

template <typename Archive>
void Fields(Archive& a, StructOf<faults::RowCoverage> auto& coverage) {
  a.Field("chart", coverage.chart);
  a.Field("text", coverage.text);
  a.Field("testers", coverage.testers);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::Prior> auto& prior) {
  a.Field("mu_sd", prior.mu_sd);
  a.Field("tau_scale", prior.tau_scale);
  a.Field("flat", prior.flat);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::Spread> auto& spread) {
  a.Field("mean", spread.mean);
  a.Field("sd", spread.sd);
  a.Field("low", spread.low);
  a.Field("median", spread.median);
  a.Field("high", spread.high);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::Classical> auto& classical) {
  a.Field("reports", classical.reports);
  a.Field("confidence", classical.confidence);
  a.Field("q", classical.q);
  a.Field("tau2_dl", classical.tau2_dl);
  a.Field("tau2_reml", classical.tau2_reml);
  a.Field("mu", classical.mu);
  a.Field("mu_se", classical.mu_se);
  a.Field("hk_se", classical.hk_se);
  a.Field("hk", classical.hk);
  a.Field("predictive_sd", classical.predictive_sd);
  a.Nullable("prediction", classical.prediction);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::PrintedLength> auto& length) {
  a.Field("length_m", length.length_m);
  a.Field("rounded_m", length.rounded_m);
  a.Field("rounded_yd", length.rounded_yd);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::StrictAmount> auto& strict) {
  a.Field("factor_k", strict.factor_k);
  a.Field("amount", strict.amount);
  a.Field("variances_alike", strict.variances_alike);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::Amounts> auto& amounts) {
  a.Field("design_gauge", amounts.design_gauge);
  a.Field("predicted_m", amounts.predicted_m);
  a.Field("factor", amounts.factor);
  a.Field("suffices", amounts.suffices);
  a.Field("more_per_looser_stitch_m", amounts.more_per_looser_stitch_m);
  a.Nullable("loose_gauge", amounts.loose_gauge);
  a.Nullable("loose", amounts.loose);
  a.Nullable("strict", amounts.strict);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::MeanInterval> auto& mean) {
  a.Field("count", mean.count);
  a.Field("mean", mean.mean);
  a.Field("sd", mean.sd);
  a.Field("t", mean.t);
  a.Nullable("interval", mean.interval);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::OneWayAnova> auto& anova) {
  a.Field("groups", anova.groups);
  a.Field("values", anova.values);
  a.Field("df_between", anova.df_between);
  a.Field("df_within", anova.df_within);
  a.Field("grand_mean", anova.grand_mean);
  a.Field("ss_between", anova.ss_between);
  a.Field("ss_within", anova.ss_within);
  a.Field("ms_between", anova.ms_between);
  a.Field("ms_within", anova.ms_within);
  a.Nullable("f", anova.f);
  a.Nullable("p", anova.p);
  a.Field("r_squared", anova.r_squared);
  a.Field("residual_sd", anova.residual_sd);
  a.Field("effective_size", anova.effective_size);
  a.Field("within_variance", anova.within_variance);
  a.Field("raw_between_variance", anova.raw_between_variance);
  a.Field("between_variance", anova.between_variance);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::GaugeAgreement> auto& gauge) {
  a.Field("design_per_100mm", gauge.design_per_100mm);
  a.Field("testers", gauge.testers);
  a.Field("readings", gauge.readings);
  a.Field("offset", gauge.offset);
  a.Field("relative_offset", gauge.relative_offset);
  a.Nullable("components", gauge.components);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::SetAside> auto& set_aside) {
  a.Field("seat", set_aside.seat);
  a.Numbered("quantity", set_aside.quantity);
  a.Field("note", set_aside.note);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::MeasurementResult> auto& measurement) {
  a.Field("seat", measurement.seat);
  a.Field("measured", measurement.measured);
  a.Field("predicted", measurement.predicted);
  a.Field("relative_uncertainty", measurement.relative_uncertainty);
  a.Field("theta_mean", measurement.theta_mean);
  a.Field("theta_sd", measurement.theta_sd);
  a.Field("shrinkage", measurement.shrinkage);
  a.Nullable("modified_z", measurement.modified_z);
  a.Field("predictive_probability", measurement.predictive_probability);
  a.Field("flagged", measurement.flagged);
  a.Field("reasons", measurement.reasons);
  a.Field("set_aside", measurement.set_aside);
  a.Field("set_aside_note", measurement.set_aside_note);
  a.Field("after_blocking", measurement.after_blocking);
  a.Field("gauge_assumed", measurement.gauge_assumed);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::SizeAmount> auto& amount) {
  a.Field("size", amount.size);
  a.Numbered("colour", amount.colour);
  a.Field("amounts", amount.amounts);
  a.Nullable("mass_g", amount.mass_g);
  a.Nullable("balls", amount.balls);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::QuantityResult> auto& result) {
  a.Numbered("quantity", result.quantity);
  a.Field("measurements", result.measurements);
  a.Field("used", result.used);
  a.Field("set_aside", result.set_aside);
  a.Field("note", result.note);
  a.Field("prior", result.prior);
  a.Field("interval_probability", result.interval_probability);
  a.Field("mu", result.mu);
  a.Field("tau", result.tau);
  a.Field("new_maker", result.new_maker);
  a.Nullable("classical", result.classical);
  a.Field("amounts", result.amounts);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::UsedReport> auto& report) {
  a.Field("seat", report.seat);
  a.Field("number", report.number);
  a.Field("version", report.version);
  a.Field("size", report.size);
  a.Field("last_row", report.last_row);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::ClusterResult> auto& result) {
  a.Field("cluster", result.cluster);
  a.Field("errata", result.errata);
  a.Field("recomputed", result.recomputed);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::CoverageRun> auto& run) {
  a.Field("first", run.first);
  a.Field("last", run.last);
  a.Field("coverage", run.coverage);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::CoverageResult> auto& result) {
  a.Field("size", result.size);
  a.Field("runs", result.runs);
}

template <typename Archive>
void Fields(Archive& a, StructOf<reconcile::Reconciliation> auto& result) {
  a.Field("reports", result.reports);
  a.Field("set_aside", result.set_aside);
  a.Field("left_out", result.left_out);
  a.Field("quantities", result.quantities);
  a.Nullable("stitch_gauge", result.stitch_gauge);
  a.Nullable("row_gauge", result.row_gauge);
  a.Field("errata", result.errata);
  a.Field("coverage", result.coverage);
  a.Field("undiscovered", result.undiscovered);
}

std::string ReconciliationToJson(const reconcile::Reconciliation& reconciliation) {
  return JsonTree::ValueOf(reconciliation).dump();
}

reconcile::Reconciliation ReconciliationFromJson(const std::string& text) {
  reconcile::Reconciliation reconciliation;
  JsonReader::Read(JsonReader::Parse(text), reconciliation);
  return reconciliation;
}

std::vector<reconcile::UsedReport> UsedReportsFromJson(const std::string& text) {
  std::vector<reconcile::UsedReport> reports;
  JsonReader::Read(JsonReader::Parse(text), reports);
  return reports;
}

}  // namespace rowproof::storage
