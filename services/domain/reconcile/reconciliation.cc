#include "services/domain/reconcile/reconciliation.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "services/domain/check.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/reconcile/outliers.h"
#include "services/domain/reconcile/tester_predictions.h"
#include "services/domain/status_macros.h"

namespace rowproof::reconcile {
namespace {

// As AmountsToPrint and CompareGauge accept it.
bool IsComparable(double per_100mm) { return per_100mm > 1 && per_100mm <= 1000; }

const Prior& PriorOf(Quantity quantity) {
  switch (quantity) {
    case Quantity::kWidth:
    case Quantity::kHeight:
      return kSizePrior;
    case Quantity::kTime:
      return kTimePrior;
    default:
      return kYarnPrior;
  }
}

// Of an estimate, in units of Stop: as much as lets it look each time.
constexpr int64_t kEstimateWork = Stop::kWorkBetweenLooks;

// Length of every yarn of one size at a stitch gauge, with as many rows to a stitch as the
// materials.
class LengthsAtGauge {
 public:
  LengthsAtGauge(const chart::Design& design, int size, const estimate::Materials& materials,
                 const Stop& stop)
      : design_(design), size_(size), materials_(materials), stop_(stop) {}

  double Metres(estimate::YarnColour colour, double stitches_per_decimetre) {
    if (stop_.After(kEstimateWork)) return NAN;
    auto found = made_.find(stitches_per_decimetre);
    if (found == made_.end()) {
      found = made_.emplace(stitches_per_decimetre, Make(stitches_per_decimetre)).first;
    }
    const auto length = found->second.find(colour);
    return length == found->second.end() ? NAN : length->second;
  }

 private:
  using Lengths = std::map<estimate::YarnColour, double>;

  Lengths Make(double stitches_per_decimetre) const {
    estimate::Materials materials = materials_;
    estimate::Gauge& gauge = materials.gauge;
    const double rows =
        gauge.rows_per_decimetre * stitches_per_decimetre / gauge.stitches_per_decimetre;
    gauge.stitches_per_decimetre = stitches_per_decimetre;
    gauge.rows_per_decimetre =
        std::clamp(rows, estimate::kLeastGaugePer100Mm, estimate::kMostGaugePer100Mm);
    const auto estimated = estimate::EstimateFigures(design_, size_, materials,
                                                     testcalls::WorkedRowCount(design_, size_));
    Lengths lengths;
    if (!estimated.ok()) return lengths;
    for (const auto& colour : estimated->colours) {
      lengths[colour.colour] = colour.length_mm / 1000;
    }
    return lengths;
  }

  const chart::Design& design_;
  int size_;
  const estimate::Materials& materials_;
  const Stop& stop_;
  std::map<double, Lengths> made_;
};

struct Measured {
  std::vector<Measurement> inputs;
  std::vector<MeasurementResult> results;
  std::vector<bool> slipped;
};

void SetThetas(const Agreement& agreement, QuantityResult& quantity) {
  for (size_t i = 0; i < quantity.measurements.size(); ++i) {
    const MakerRatio& maker = agreement.makers[i];
    MeasurementResult& result = quantity.measurements[i];
    result.theta_mean = maker.theta_mean;
    result.theta_sd = maker.theta_sd;
    const double whole = agreement.mu.mean - maker.y;
    result.shrinkage =
        std::abs(whole) < 1e-12 ? 0 : std::clamp((maker.theta_mean - maker.y) / whole, 0.0, 1.0);
  }
}

absl::Status SetOutliers(const Measured& measured, const Stop& stop, QuantityResult& quantity) {
  ASSIGN_OR_RETURN(const auto views, FindOutliers(measured.inputs, quantity.prior, {}, stop));
  for (size_t i = 0; i < views.size(); ++i) {
    const OutlierView& view = views[i];
    MeasurementResult& result = quantity.measurements[i];
    result.modified_z = view.modified_z;
    result.predictive_probability = view.predictive_probability;
    result.flagged = view.flagged() || measured.slipped[i];
    if (!view.reason.empty()) result.reasons.push_back(view.reason);
  }
  return absl::OkStatus();
}

SizeAmount WithBalls(SizeAmount amount, const estimate::Materials& materials) {
  const estimate::Yarn& yarn = estimate::YarnOf(materials, amount.colour);
  const auto metres = static_cast<double>(amount.amounts.suffices.rounded_m);
  if (yarn.ball_length_m.has_value() && yarn.ball_mass_g.has_value()) {
    amount.mass_g =
        static_cast<int64_t>(std::ceil(metres * *yarn.ball_mass_g / *yarn.ball_length_m));
    amount.balls = static_cast<int64_t>(std::ceil(metres / *yarn.ball_length_m));
  } else if (yarn.tex.has_value()) {
    amount.mass_g = static_cast<int64_t>(std::ceil(metres * *yarn.tex / 1000));
  }
  return amount;
}

// The version that is printed, at its own gauge, and the testers' gauges.
struct Print {
  const chart::Design& design;
  const estimate::Materials& materials;
  std::vector<estimate::SizeEstimate> sizes;
  std::vector<double> tester_gauges;
  const Stop& stop;
};

bool Takes(const estimate::SizeEstimate& size, estimate::YarnColour colour) {
  return std::any_of(size.colours.begin(), size.colours.end(),
                     [&](const auto& c) { return c.colour == colour; });
}

absl::Status SetAmounts(const Print& print, const Agreement& agreement, QuantityResult& quantity) {
  const auto colour = YarnOfQuantity(quantity.quantity);
  const double design_gauge = print.materials.gauge.stitches_per_decimetre;
  if (!colour.has_value() || !IsComparable(design_gauge)) return absl::OkStatus();
  AmountSettings settings;
  settings.assurance = print.materials.assurance;
  for (size_t i = 0; i < print.sizes.size(); ++i) {
    if (!Takes(print.sizes[i], *colour)) continue;
    LengthsAtGauge lengths(print.design, static_cast<int>(i), print.materials, print.stop);
    auto amounts = AmountsToPrint(
        agreement, design_gauge, [&](double gauge) { return lengths.Metres(*colour, gauge); },
        print.tester_gauges, settings);
    RETURN_IF_ERROR(print.stop.status());
    if (!amounts.ok()) return amounts.status();
    quantity.amounts.push_back(
        WithBalls({print.sizes[i].size, *colour, *amounts, {}, {}}, print.materials));
  }
  return absl::OkStatus();
}

absl::StatusOr<QuantityResult> ReconcileQuantity(Quantity which, Measured measured,
                                                 const Print& print) {
  QuantityResult quantity;
  quantity.quantity = which;
  quantity.prior = PriorOf(which);
  quantity.measurements = std::move(measured.results);
  ASSIGN_OR_RETURN(auto agreement,
                   Agree(measured.inputs, quantity.prior, quantity.interval_probability));
  quantity.used = agreement.reports_used;
  quantity.set_aside = agreement.reports_set_aside;
  quantity.note = Sentence(agreement.note, agreement.reports_used);
  quantity.mu = agreement.mu;
  quantity.tau = agreement.tau;
  quantity.new_maker = agreement.new_maker;
  quantity.classical = agreement.classical;
  SetThetas(agreement, quantity);
  RETURN_IF_ERROR(SetOutliers(measured, print.stop, quantity));
  RETURN_IF_ERROR(SetAmounts(print, agreement, quantity));
  return quantity;
}

void AddGauges(const std::vector<TesterReport>& reports, Print& print, Reconciliation* made) {
  std::vector<GaugeReading> stitches;
  std::vector<GaugeReading> rows;
  for (const TesterReport& tester : reports) {
    const auto gauge = estimate::GaugeFromReadings(tester.report.gauge_before);
    if (gauge.ok() && IsComparable(gauge->stitches_per_decimetre)) {
      print.tester_gauges.push_back(gauge->stitches_per_decimetre);
    }
    for (const estimate::GaugeReading& reading : tester.report.gauge_before) {
      const double of_stitches = 100 * reading.stitches / reading.stitch_span_mm;
      const double of_rows = 100 * reading.rows / reading.row_span_mm;
      if (IsComparable(of_stitches)) stitches.push_back({tester.seat, of_stitches});
      if (IsComparable(of_rows)) rows.push_back({tester.seat, of_rows});
    }
  }
  const estimate::Gauge& design = print.materials.gauge;
  if (IsComparable(design.stitches_per_decimetre)) {
    auto compared = CompareGauge(design.stitches_per_decimetre, stitches);
    if (compared.ok()) made->stitch_gauge = *compared;
  }
  if (IsComparable(design.rows_per_decimetre)) {
    auto compared = CompareGauge(design.rows_per_decimetre, rows);
    if (compared.ok()) made->row_gauge = *compared;
  }
}

const SetAside* Find(const std::vector<SetAside>& all, const std::string& seat, Quantity quantity) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const SetAside& one) {
    return one.seat == seat && one.quantity == quantity;
  });
  return found == all.end() ? nullptr : &*found;
}

void AddTester(const TesterReport& tester, const std::vector<SetAside>& set_aside,
               std::map<Quantity, Measured>& measured, Reconciliation* made) {
  made->reports.push_back(
      {tester.seat, tester.number, tester.version, tester.report.size, tester.report.last_row});
  for (Prediction& prediction : PredictFor(tester, &made->left_out)) {
    Measured& of_quantity = measured[prediction.quantity];
    MeasurementResult& result = prediction.result;
    if (const SetAside* found = Find(set_aside, tester.seat, prediction.quantity)) {
      result.set_aside = true;
      result.set_aside_note = found->note;
    }
    of_quantity.inputs.push_back({tester.seat, result.measured, result.predicted,
                                  result.relative_uncertainty, result.set_aside});
    of_quantity.slipped.push_back(prediction.slipped);
    of_quantity.results.push_back(std::move(result));
  }
}

}  // namespace

absl::StatusOr<Reconciliation> ReconcileReports(const chart::Design& design,
                                                const estimate::Materials& materials,
                                                const std::vector<TesterReport>& reports,
                                                const std::vector<SetAside>& set_aside,
                                                const Stop& stop) {
  ASSIGN_OR_RETURN(auto sizes, estimate::EstimateSizes(design, materials));
  Print print{design, materials, std::move(sizes), {}, stop};
  Reconciliation made;
  made.set_aside = set_aside;
  std::map<Quantity, Measured> measured;
  for (const auto& size : print.sizes) {
    for (const auto& colour : size.colours) {
      measured[QuantityOf(colour.colour)];
    }
  }
  for (const Quantity always : {Quantity::kWidth, Quantity::kHeight, Quantity::kTime}) {
    measured[always];
  }
  for (const TesterReport& tester : reports) {
    if (stop.After(kEstimateWork)) return stop.status();
    AddTester(tester, set_aside, measured, &made);
  }
  AddGauges(reports, print, &made);
  for (const Quantity quantity : kQuantitiesAsListed) {
    const auto found = measured.find(quantity);
    if (found == measured.end()) continue;
    if (stop.After(kEstimateWork)) return stop.status();
    ASSIGN_OR_RETURN(auto reconciled, ReconcileQuantity(quantity, std::move(found->second), print));
    made.quantities.push_back(std::move(reconciled));
  }
  return made;
}

CoverageResult InRuns(const std::string& size, const faults::SizeCoverage& coverage) {
  CoverageResult result{size, {}};
  for (size_t i = 0; i < coverage.rows.size(); ++i) {
    const int row = static_cast<int>(i) + 1;
    if (!result.runs.empty() && result.runs.back().coverage == coverage.rows[i]) {
      result.runs.back().last = row;
    } else {
      result.runs.push_back({row, row, coverage.rows[i]});
    }
  }
  return result;
}

std::optional<estimate::YarnColour> YarnOfQuantity(Quantity quantity) {
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    if (QuantityOf(colour) == quantity) return colour;
  }
  return std::nullopt;
}

Quantity QuantityOf(estimate::YarnColour colour) {
  switch (colour) {
    case estimate::YarnColour::kA:
      return Quantity::kYarnA;
    case estimate::YarnColour::kB:
      return Quantity::kYarnB;
    case estimate::YarnColour::kBorder:
      return Quantity::kYarnBorder;
    default:
      return static_cast<Quantity>(static_cast<int>(Quantity::kYarnC) + static_cast<int>(colour) -
                                   static_cast<int>(estimate::YarnColour::kC));
  }
}

const char* Name(Quantity quantity) {
  constexpr const char* kNames[kQuantities] = {"yarn A", "yarn B", "yarn border", "width",
                                               "height", "time",   "yarn C",      "yarn D",
                                               "yarn E", "yarn F", "yarn G",      "yarn H"};
  return kNames[static_cast<size_t>(quantity) - 1];
}

}  // namespace rowproof::reconcile
