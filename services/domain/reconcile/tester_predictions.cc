#include "services/domain/reconcile/tester_predictions.h"

#include <cmath>
#include <string_view>

#include "absl/status/statusor.h"
#include "fmt/format.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/uncertainty.h"
#include "services/domain/status_macros.h"

namespace rowproof::reconcile {
namespace {

using estimate::CombinedMeasuring;
using estimate::RectangularUncertainty;

struct Judged {
  estimate::SizeEstimate estimate;
  bool gauge_assumed = false;
  bool swatch_unknown = false;
};

absl::StatusOr<Judged> Estimate(const TesterReport& tester,
                                std::optional<estimate::YarnColour> yarn) {
  testcalls::TesterMaterials made = testcalls::MaterialsOf(tester.report, *tester.materials, yarn);
  if (made.gauge_assumed) {
    estimate::Gauge& gauge = made.materials.gauge;
    gauge.stitches_uncertainty_per_decimetre =
        kUnreadGaugeUncertainty * gauge.stitches_per_decimetre;
    gauge.rows_uncertainty_per_decimetre = kUnreadGaugeUncertainty * gauge.rows_per_decimetre;
  }
  const int size = testcalls::SizeIndex(*tester.design, tester.report.size);
  ASSIGN_OR_RETURN(auto estimated, estimate::EstimateFigures(*tester.design, size, made.materials,
                                                             tester.report.last_row));
  return Judged{std::move(estimated), made.gauge_assumed, made.swatch_unknown};
}

bool StartsWith(std::string_view text, std::string_view start) {
  return text.substr(0, start.size()) == start;
}

// The report's entry that "yarn[1].length_m" names.
bool NamesYarn(const testcalls::Report& report, std::string_view field,
               estimate::YarnColour colour) {
  for (size_t i = 0; i < report.yarn.size(); ++i) {
    if (report.yarn[i].colour == colour && StartsWith(field, fmt::format("yarn[{}]", i))) {
      return true;
    }
  }
  return false;
}

bool Concerns(const testcalls::Slip& slip, const testcalls::Report& report,
              const Prediction& prediction) {
  if (slip.code == testcalls::SlipCode::kShortSpan) return false;  // it is in the uncertainty
  const auto yarn = YarnOfQuantity(prediction.quantity);
  const bool after = prediction.result.after_blocking;
  if (StartsWith(slip.field, "gauge_before"))
    return !after && prediction.quantity != Quantity::kTime;
  if (StartsWith(slip.field, "gauge_after")) return after;
  if (StartsWith(slip.field, "last_row")) return yarn.has_value();
  if (yarn.has_value()) return NamesYarn(report, slip.field, *yarn);
  switch (prediction.quantity) {
    case Quantity::kWidth:
      return slip.field == (after ? "width_after_mm" : "width_before_mm");
    case Quantity::kHeight:
      return slip.field == (after ? "height_after_mm" : "height_before_mm");
    default:
      return slip.field == "minutes";
  }
}

class Predictor {
 public:
  Predictor(const TesterReport& tester, std::vector<std::string>* left_out)
      : tester_(tester), report_(tester.report), left_out_(*left_out) {}

  std::vector<Prediction> Make() {
    const std::vector<testcalls::UsedYarn> used = testcalls::YarnUsed(report_, *tester_.materials);
    const bool sized = report_.width_before_mm || report_.height_before_mm ||
                       report_.width_after_mm || report_.height_after_mm || report_.minutes;
    if (used.empty() && !sized) return {};
    if (report_.last_row < 1) {
      LeaveOut("report", "no row was worked");
      return {};
    }
    for (const testcalls::UsedYarn& yarn : used) AddYarn(yarn);
    if (sized) AddSizeAndTime();
    for (Prediction& prediction : made_) AddSlips(prediction);
    return std::move(made_);
  }

 private:
  void LeaveOut(const std::string& what, const std::string& why) {
    left_out_.push_back(fmt::format("Seat {}, {}: left out, because {}.", tester_.seat, what, why));
  }

  void Add(Quantity quantity, double measured, double reading, double predicted,
           double predicted_uncertainty, const Judged& judged, bool after_blocking) {
    if (!(predicted > 0)) {
      LeaveOut(Name(quantity), "none is predicted for the rows worked");
      return;
    }
    Prediction prediction;
    prediction.quantity = quantity;
    MeasurementResult& result = prediction.result;
    result.seat = tester_.seat;
    result.measured = measured;
    result.predicted = predicted;
    // Independent relative parts in quadrature (JCGM 100:2008 5.1.2).
    result.relative_uncertainty = std::hypot(reading / measured, predicted_uncertainty / predicted);
    result.after_blocking = after_blocking;
    result.gauge_assumed = judged.gauge_assumed && !after_blocking && quantity != Quantity::kTime;
    if (result.gauge_assumed) {
      result.reasons.push_back("No gauge was reported; the version's gauge is used.");
    }
    if (judged.swatch_unknown) {
      result.reasons.push_back(
          "The amount includes a swatch, but the version does not say how large.");
    }
    made_.push_back(std::move(prediction));
  }

  void AddYarn(const testcalls::UsedYarn& yarn) {
    const Quantity quantity = QuantityOf(yarn.colour);
    if (!yarn.length_m.has_value()) {
      LeaveOut(Name(quantity), "it was weighed, but no ball band gives its length");
      return;
    }
    const auto judged = Estimate(tester_, yarn.colour);
    if (!judged.ok()) {
      LeaveOut(Name(quantity), std::string(judged.status().message()));
      return;
    }
    for (const estimate::ColourEstimate& colour : judged->estimate.colours) {
      if (colour.colour != yarn.colour) continue;
      Add(quantity, *yarn.length_m, yarn.length_uncertainty_m.value_or(0), colour.length_mm / 1000,
          CombinedMeasuring(colour.length_contributions) / 1000, *judged, false);
      return;
    }
    LeaveOut(Name(quantity), "none is predicted for the rows worked");
  }

  // Before blocking if that was measured: only then does the yarn's gauge predict it.
  void AddExtent(Quantity quantity, std::optional<double> before, std::optional<double> after,
                 const Judged& judged) {
    if (!before.has_value() && !after.has_value()) return;
    const bool after_blocking = !before.has_value();
    if (after_blocking && !judged.estimate.after_blocking.has_value()) {
      LeaveOut(Name(quantity),
               "only the blocked piece was measured, and there is no blocked gauge");
      return;
    }
    const estimate::Extent& extent =
        after_blocking ? *judged.estimate.after_blocking : judged.estimate.before_blocking;
    const bool width = quantity == Quantity::kWidth;
    Add(quantity, after_blocking ? *after : *before,
        RectangularUncertainty(report_.tape_step_mm / 2),
        width ? extent.width_mm : extent.height_mm,
        CombinedMeasuring(width ? extent.width_contributions : extent.height_contributions), judged,
        after_blocking);
  }

  void AddSizeAndTime() {
    const auto judged = Estimate(tester_, std::nullopt);
    if (!judged.ok()) {
      LeaveOut("size and time", std::string(judged.status().message()));
      return;
    }
    AddExtent(Quantity::kWidth, report_.width_before_mm, report_.width_after_mm, *judged);
    AddExtent(Quantity::kHeight, report_.height_before_mm, report_.height_after_mm, *judged);
    if (report_.minutes.has_value()) {
      Add(Quantity::kTime, *report_.minutes, RectangularUncertainty(kMinutesStep / 2),
          judged->estimate.minutes, 0, *judged, false);
    }
  }

  void AddSlips(Prediction& prediction) const {
    size_t place = 0;
    for (const testcalls::Slip& slip : tester_.slips) {
      if (!Concerns(slip, report_, prediction)) continue;
      auto& reasons = prediction.result.reasons;
      reasons.insert(reasons.begin() + static_cast<std::ptrdiff_t>(place++), slip.sentence);
      prediction.slipped =
          prediction.slipped || slip.strength == testcalls::SlipStrength::kQuestion;
    }
  }

  const TesterReport& tester_;
  const testcalls::Report& report_;
  std::vector<std::string>& left_out_;
  std::vector<Prediction> made_;
};

}  // namespace

std::vector<Prediction> PredictFor(const TesterReport& report, std::vector<std::string>* left_out) {
  return Predictor(report, left_out).Make();
}

}  // namespace rowproof::reconcile
