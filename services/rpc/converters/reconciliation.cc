#include "services/rpc/converters/reconciliation.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/yarn_role.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

using reconcile::ReconciliationRecord;

v1::Interval ToProto(const reconcile::Interval& interval, double coverage) {
  v1::Interval to;
  to.set_low(interval.low);
  to.set_high(interval.high);
  to.set_coverage(coverage);
  return to;
}

v1::Spread ToProto(const reconcile::Spread& spread, double coverage) {
  v1::Spread to;
  to.set_mean(spread.mean);
  to.set_sd(spread.sd);
  to.set_median(spread.median);
  *to.mutable_interval() = ToProto(reconcile::Interval{spread.low, spread.high}, coverage);
  return to;
}

v1::ClassicalSummary ToProto(const reconcile::Classical& classical) {
  v1::ClassicalSummary to;
  to.set_q(classical.q);
  to.set_tau2_dl(classical.tau2_dl);
  to.set_tau2_reml(classical.tau2_reml);
  to.set_mu(classical.mu);
  to.set_mu_se(classical.mu_se);
  *to.mutable_mu_interval() = ToProto(classical.hk, classical.confidence);
  if (classical.prediction.has_value()) {
    *to.mutable_prediction() = ToProto(*classical.prediction, classical.confidence);
  }
  return to;
}

v1::PrintedLength ToProto(const reconcile::PrintedLength& length) {
  v1::PrintedLength to;
  to.set_length_m(length.length_m);
  to.set_rounded_m(length.rounded_m);
  to.set_rounded_yd(length.rounded_yd);
  return to;
}

v1::AmountToPrint ToProto(const reconcile::SizeAmount& amount) {
  const reconcile::Amounts& amounts = amount.amounts;
  v1::AmountToPrint to;
  to.set_size(amount.size);
  to.set_role(RoleOf(amount.colour));
  to.set_predicted_m(amounts.predicted_m);
  to.set_factor(amounts.factor);
  *to.mutable_suffices() = ToProto(amounts.suffices);
  if (amount.mass_g.has_value()) to.set_mass_g(*amount.mass_g);
  if (amount.balls.has_value()) to.set_ball_count(*amount.balls);
  to.set_more_per_looser_stitch_m(amounts.more_per_looser_stitch_m);
  if (amounts.loose_gauge.has_value()) to.set_loose_gauge_per_decimetre(*amounts.loose_gauge);
  if (amounts.loose.has_value()) *to.mutable_loose() = ToProto(*amounts.loose);
  if (amounts.strict.has_value()) {
    *to.mutable_strict() = ToProto(amounts.strict->amount);
    to.set_strict_k(amounts.strict->factor_k);
    to.set_strict_doubtful(!amounts.strict->variances_alike);
  }
  return to;
}

v1::QuantityKind KindOf(reconcile::Quantity quantity) {
  switch (quantity) {
    case reconcile::Quantity::kWidth:
      return v1::QUANTITY_KIND_WIDTH;
    case reconcile::Quantity::kHeight:
      return v1::QUANTITY_KIND_HEIGHT;
    case reconcile::Quantity::kTime:
      return v1::QUANTITY_KIND_TIME;
    default:
      return v1::QUANTITY_KIND_YARN;
  }
}

v1::Quantity ToProto(reconcile::Quantity quantity) {
  v1::Quantity to;
  to.set_kind(KindOf(quantity));
  if (const auto yarn = reconcile::YarnOfQuantity(quantity); yarn.has_value()) {
    to.set_role(RoleOf(*yarn));
  }
  return to;
}

// Names of one call's seats.
struct SeatNames {
  const reconcile::ReconciliationRecord& row;
  std::string Of(const std::string& seat) const {
    return ToString(SeatName{row.pattern, row.call, {seat}});
  }
};

v1::ReconciledMeasurement ToProto(const reconcile::MeasurementResult& result,
                                  const SeatNames& names) {
  v1::ReconciledMeasurement to;
  to.set_seat(names.Of(result.seat));
  to.set_measured(result.measured);
  to.set_predicted(result.predicted);
  to.set_ratio(result.measured / result.predicted);
  to.set_relative_uncertainty(result.relative_uncertainty);
  to.set_theta_mean(result.theta_mean);
  to.set_theta_sd(result.theta_sd);
  to.set_shrinkage(result.shrinkage);
  if (result.modified_z.has_value()) to.set_modified_z(*result.modified_z);
  to.set_predictive_probability(result.predictive_probability);
  to.set_flagged(result.flagged);
  for (const auto& reason : result.reasons) to.add_reasons(reason);
  to.set_set_aside(result.set_aside);
  to.set_set_aside_note(result.set_aside_note);
  to.set_after_blocking(result.after_blocking);
  to.set_gauge_assumed(result.gauge_assumed);
  return to;
}

v1::ReconciledQuantity ToProto(const reconcile::QuantityResult& quantity, const SeatNames& names) {
  v1::ReconciledQuantity to;
  *to.mutable_quantity() = ToProto(quantity.quantity);
  for (const auto& result : quantity.measurements) {
    *to.add_measurements() = ToProto(result, names);
  }
  to.set_used_count(quantity.used);
  to.set_set_aside_count(quantity.set_aside);
  to.set_note(quantity.note);
  to.set_prior_mu_sd(quantity.prior.mu_sd);
  to.set_prior_tau_scale(quantity.prior.tau_scale);
  const double coverage = quantity.interval_probability;
  *to.mutable_mu() = ToProto(quantity.mu, coverage);
  *to.mutable_tau() = ToProto(quantity.tau, coverage);
  *to.mutable_new_maker() = ToProto(quantity.new_maker, coverage);
  if (quantity.classical.has_value()) *to.mutable_classical() = ToProto(*quantity.classical);
  for (const auto& amount : quantity.amounts) *to.add_amounts() = ToProto(amount);
  return to;
}

v1::GaugeAgreement ToProto(const reconcile::GaugeAgreement& gauge) {
  v1::GaugeAgreement to;
  to.set_design_per_decimetre(gauge.design_per_100mm);
  to.set_tester_count(gauge.testers);
  to.set_reading_count(gauge.readings);
  to.set_offset_per_decimetre(gauge.offset.mean);
  if (gauge.offset.interval.has_value()) {
    *to.mutable_offset_interval_per_decimetre() =
        ToProto(*gauge.offset.interval, reconcile::kGaugeConfidence);
  }
  to.set_relative_offset(gauge.relative_offset);
  if (gauge.components.has_value()) {
    to.set_between_variance(gauge.components->between_variance);
    to.set_within_variance(gauge.components->within_variance);
  }
  return to;
}

v1::ErrataCluster ToProto(const reconcile::ClusterResult& result, const SeatNames& names) {
  const faults::ErrataCluster& cluster = result.cluster;
  v1::ErrataCluster to;
  to.set_kind(static_cast<v1::ErratumKind>(static_cast<int>(cluster.kind) + 1));
  for (const auto& id : result.errata) {
    to.add_errata(ToString(ErratumName{names.row.pattern, names.row.call, {id}}));
  }
  to.set_chart_row(cluster.row);
  to.set_last_chart_row(cluster.last_row);
  to.set_first_stitch(cluster.first_stitch);
  to.set_last_stitch(cluster.last_stitch);
  for (const auto& seat : cluster.reported_by) to.add_reported_by(names.Of(seat));
  for (const auto& seat : cluster.met_by) to.add_met_by(names.Of(seat));
  for (const auto& seat : cluster.right_for) to.add_right_for(names.Of(seat));
  to.set_worked_without_reporting_count(cluster.worked_without_reporting);
  for (const auto& sentence : result.recomputed) to.add_recomputed(sentence);
  return to;
}

v1::SizeCoverage ToProto(const reconcile::CoverageResult& coverage) {
  v1::SizeCoverage to;
  to.set_size(coverage.size);
  for (const auto& run : coverage.runs) {
    auto* added = to.add_runs();
    added->set_first_row(run.first);
    added->set_last_row(run.last);
    added->set_chart_count(run.coverage.chart);
    added->set_text_count(run.coverage.text);
    added->set_tester_count(run.coverage.testers);
  }
  return to;
}

v1::Undiscovered ToProto(const faults::Undiscovered& undiscovered) {
  v1::Undiscovered to;
  // The API's numbers follow the domain's.
  to.set_estimator(EnumTo<v1::UndiscoveredEstimator>(undiscovered.estimator));
  to.set_reason(static_cast<v1::UndiscoveredReason>(faults::ReasonOf(undiscovered)));
  to.set_sentence(undiscovered.not_stated);
  to.set_tester_count(undiscovered.testers);
  to.set_row_count(undiscovered.rows);
  to.set_found_count(undiscovered.found);
  to.set_remaining(undiscovered.left);
  to.set_remaining_se(undiscovered.left_se);
  if (undiscovered.left_interval.has_value()) {
    *to.mutable_remaining_interval() = ToProto(*undiscovered.left_interval, faults::kLeftCoverage);
  }
  to.set_weak(undiscovered.weak);
  to.set_caution(undiscovered.caution);
  return to;
}

}  // namespace

v1::Reconciliation ToListedProto(const reconcile::ReconciliationRecord& row) {
  const SeatNames names{row};
  v1::Reconciliation to;
  to.set_name(ToString(ReconciliationName{row.pattern, row.call, row.number}));
  to.set_number(row.number);
  to.set_author(ToString(AccountName{row.author}));
  *to.mutable_create_time() = ToProto(row.created_at);
  to.set_version(ToString(VersionName{row.pattern, row.version_number}));
  to.set_model_version(row.model_version);
  for (const auto& used : row.result.reports) {
    auto* report = to.add_reports();
    report->set_seat(names.Of(used.seat));
    report->set_report(ToString(ReportName{row.pattern, row.call, {used.seat}, used.number}));
    report->set_version(ToString(VersionName{row.pattern, used.version}));
    report->set_size(used.size);
    report->set_last_row(used.last_row);
  }
  return to;
}

v1::Reconciliation ToProto(const reconcile::ReconciliationRecord& row) {
  const SeatNames names{row};
  const reconcile::Reconciliation& result = row.result;
  v1::Reconciliation to = ToListedProto(row);
  for (const auto& sentence : result.left_out) to.add_left_out(sentence);
  for (const auto& quantity : result.quantities) *to.add_quantities() = ToProto(quantity, names);
  if (result.stitch_gauge.has_value()) *to.mutable_stitch_gauge() = ToProto(*result.stitch_gauge);
  if (result.row_gauge.has_value()) *to.mutable_row_gauge() = ToProto(*result.row_gauge);
  for (const auto& cluster : result.errata) *to.add_errata() = ToProto(cluster, names);
  for (const auto& size : result.coverage) *to.add_coverage() = ToProto(size);
  *to.mutable_undiscovered() = ToProto(result.undiscovered);
  return to;
}

v1::SetAside ToProto(const PatternId& pattern, const CallId& call,
                     const reconcile::SetAsideRecord& row) {
  v1::SetAside to;
  to.set_name(ToString(SetAsideName{pattern, call, row.id}));
  to.set_seat(ToString(SeatName{pattern, call, {row.set_aside.seat}}));
  *to.mutable_quantity() = ToProto(row.set_aside.quantity);
  to.set_note(row.set_aside.note);
  *to.mutable_create_time() = ToProto(row.set_at);
  return to;
}

absl::StatusOr<reconcile::Quantity> FromProto(const std::string& field,
                                              const v1::Quantity& quantity) {
  if (quantity.kind() == v1::QUANTITY_KIND_YARN) {
    ASSIGN_OR_RETURN(auto yarn, ColourOf(field + ".role", quantity.role()));
    return reconcile::QuantityOf(yarn);
  }
  if (quantity.role() != v1::YARN_ROLE_UNSPECIFIED) {
    return InvalidField(field + ".role", v1::YarnRole_Name(quantity.role()),
                        "unspecified unless the kind is QUANTITY_KIND_YARN");
  }
  switch (quantity.kind()) {
    case v1::QUANTITY_KIND_WIDTH:
      return reconcile::Quantity::kWidth;
    case v1::QUANTITY_KIND_HEIGHT:
      return reconcile::Quantity::kHeight;
    case v1::QUANTITY_KIND_TIME:
      return reconcile::Quantity::kTime;
    default:
      return InvalidField(field + ".kind", std::to_string(static_cast<int>(quantity.kind())),
                          "QUANTITY_KIND_YARN, _WIDTH, _HEIGHT or _TIME");
  }
}

}  // namespace rowproof::rpc
