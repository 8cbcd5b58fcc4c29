#include "services/domain/testcalls/slips/slips.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "services/domain/estimate/hook_labels.h"
#include "services/domain/testcalls/slips/slip_ratios.h"
#include "services/domain/testcalls/slips/yarn_slips.h"
#include "services/quantities/measured.h"
#include "services/quantities/units.h"

namespace rowproof::testcalls {
namespace {

constexpr double kCmPerInch = quantities::kMmPerInch / 10;
// So near to 60 times that hours explain it: makers' times differ much.
constexpr double kTimeTolerance = 0.9;

constexpr std::array<const char*, kSlipCodes> kCodeNames = {"inches-as-centimetres",
                                                            "centimetres-as-inches",
                                                            "yards-as-metres",
                                                            "metres-as-yards",
                                                            "gauge-swapped",
                                                            "ridges-counted",
                                                            "short-span",
                                                            "colours-swapped",
                                                            "yarn-left",
                                                            "grams-as-metres",
                                                            "no-ball-band",
                                                            "row-behind-yarn",
                                                            "hook-label",
                                                            "hours-as-minutes",
                                                            "out-of-proportion"};

std::optional<Slip> AskLength(const std::string& field, const char* what, double mm,
                              const std::optional<double>& expected_mm) {
  if (!expected_mm.has_value()) return std::nullopt;
  const std::string met = fmt::format("You report a {} of {}; about {} is expected.", what,
                                      ShownExtent(mm), ShownExtent(*expected_mm));
  if (Near(mm * kCmPerInch, *expected_mm, kExplains)) {
    return Slip{SlipCode::kInchesAsCentimetres, SlipStrength::kQuestion, field,
                fmt::format("{} Did you measure {} inches? That would be {}.", met, Shown(mm / 10),
                            ShownExtent(mm * kCmPerInch)),
                mm * kCmPerInch};
  }
  if (Near(mm / kCmPerInch, *expected_mm, kExplains)) {
    return Slip{SlipCode::kCentimetresAsInches, SlipStrength::kQuestion, field,
                fmt::format("{} Did you measure {} centimetres? That would be {}.", met,
                            Shown(mm / quantities::kMmPerInch), ShownExtent(mm / kCmPerInch)),
                mm / kCmPerInch};
  }
  if (IsOutOfProportion(mm, *expected_mm, kGrossSize)) {
    return Slip{SlipCode::kOutOfProportion, SlipStrength::kQuestion, field,
                met + " Is a unit or a digit wrong?", std::nullopt};
  }
  return std::nullopt;
}

void AskFinishedSize(const Report& report, const Expected& expected, std::vector<Slip>& slips) {
  struct Length {
    const char* field;
    const char* what;
    const std::optional<double>* mm;
    const std::optional<double>* expected_mm;
  };
  const std::array<Length, 4> lengths = {
      {{"width_before_mm", "width", &report.width_before_mm, &expected.width_mm},
       {"height_before_mm", "height", &report.height_before_mm, &expected.height_mm},
       {"width_after_mm", "width", &report.width_after_mm, &expected.width_mm},
       {"height_after_mm", "height", &report.height_after_mm, &expected.height_mm}}};
  for (const Length& length : lengths) {
    if (!length.mm->has_value()) continue;
    auto slip = AskLength(length.field, length.what, **length.mm, *length.expected_mm);
    if (slip.has_value()) slips.push_back(*std::move(slip));
  }
}

// A gauge count and the expected gauge, per 100 mm.
struct GaugePair {
  const estimate::GaugeReading& reading;
  double stitches;
  double rows;
  double expected_stitches;
  double expected_rows;
  std::string field;  // "gauge_before[0]"

  std::string met() const {
    return fmt::format("You count {} stitches and {} rows in 10 cm; about {} and {} are expected.",
                       Shown(stitches), Shown(rows), Shown(expected_stitches),
                       Shown(expected_rows));
  }
};

std::optional<Slip> AskGaugeSwapped(const GaugePair& gauge) {
  const bool swapped = Near(gauge.stitches, gauge.expected_rows, kExplains) &&
                       Near(gauge.rows, gauge.expected_stitches, kExplains);
  const bool straight = Near(gauge.stitches, gauge.expected_stitches, kExplains) &&
                        Near(gauge.rows, gauge.expected_rows, kExplains);
  if (!swapped || straight) return std::nullopt;
  return Slip{SlipCode::kGaugeSwapped, SlipStrength::kQuestion, gauge.field + ".stitches",
              gauge.met() + " Are stitches and rows swapped?",
              gauge.rows * gauge.reading.stitch_span_mm / 100};
}

std::optional<Slip> AskRidgesCounted(const GaugePair& gauge) {
  if (!Near(2 * gauge.rows, gauge.expected_rows, kExplains) ||
      !Near(gauge.stitches, gauge.expected_stitches, kUsual)) {
    return std::nullopt;
  }
  return Slip{SlipCode::kRidgesCounted, SlipStrength::kQuestion, gauge.field + ".rows",
              fmt::format("{} Did you count ridges, stripes or chart rows? A ridge is two worked "
                          "rows: {} ridges are {} rows.",
                          gauge.met(), Shown(gauge.reading.rows), Shown(2 * gauge.reading.rows)),
              2 * gauge.reading.rows};
}

std::optional<Slip> AskSpanUnit(const GaugePair& gauge) {
  const double span_mm = gauge.reading.stitch_span_mm;
  const auto explains = [&](double factor) {
    return Near(gauge.stitches * factor, gauge.expected_stitches, kExplains) &&
           Near(gauge.rows * factor, gauge.expected_rows, kExplains);
  };
  if (explains(1 / kCmPerInch)) {
    return Slip{SlipCode::kInchesAsCentimetres, SlipStrength::kQuestion,
                gauge.field + ".stitch_span_mm",
                fmt::format("{} Did you count over {} inches, not centimetres?", gauge.met(),
                            Shown(span_mm / 10)),
                span_mm * kCmPerInch};
  }
  if (explains(kCmPerInch)) {
    return Slip{SlipCode::kCentimetresAsInches, SlipStrength::kQuestion,
                gauge.field + ".stitch_span_mm",
                fmt::format("{} Did you count over {} centimetres, not inches?", gauge.met(),
                            Shown(span_mm / quantities::kMmPerInch)),
                span_mm / kCmPerInch};
  }
  return std::nullopt;
}

std::optional<Slip> AskGaugeProportion(const GaugePair& gauge) {
  const bool stitches = IsOutOfProportion(gauge.stitches, gauge.expected_stitches, kGrossGauge);
  if (!stitches && !IsOutOfProportion(gauge.rows, gauge.expected_rows, kGrossGauge)) {
    return std::nullopt;
  }
  return Slip{SlipCode::kOutOfProportion, SlipStrength::kQuestion,
              gauge.field + (stitches ? ".stitches" : ".rows"),
              gauge.met() + " Is a count or the span wrong?", std::nullopt};
}

std::optional<Slip> AskShortSpan(const estimate::GaugeReading& reading, const std::string& field) {
  const bool stitches = reading.stitch_span_mm < kShortestGoodSpanMm;
  if (!stitches && reading.row_span_mm >= kShortestGoodSpanMm) return std::nullopt;
  return Slip{
      SlipCode::kShortSpan, SlipStrength::kQuestion,
      field + (stitches ? ".stitch_span_mm" : ".row_span_mm"),
      fmt::format("You counted over {}. Can you count over {}, or at least {}, away from the "
                  "edges?",
                  ShownExtent(stitches ? reading.stitch_span_mm : reading.row_span_mm),
                  ShownExtent(100), ShownExtent(kShortestGoodSpanMm)),
      std::nullopt};
}

void AskGauge(const std::vector<estimate::GaugeReading>& readings, const std::string& name,
              const Expected& expected, std::vector<Slip>& slips) {
  for (size_t i = 0; i < readings.size(); ++i) {
    const estimate::GaugeReading& reading = readings[i];
    const std::string field = fmt::format("{}[{}]", name, i);
    std::optional<Slip> slip;
    if (expected.stitches_per_decimetre.has_value() && expected.rows_per_decimetre.has_value()) {
      const GaugePair gauge = {reading,
                               100 * reading.stitches / reading.stitch_span_mm,
                               100 * reading.rows / reading.row_span_mm,
                               *expected.stitches_per_decimetre,
                               *expected.rows_per_decimetre,
                               field};
      for (const auto ask : {AskGaugeSwapped, AskRidgesCounted, AskSpanUnit, AskGaugeProportion}) {
        if (!slip.has_value()) slip = ask(gauge);
      }
    }
    if (!slip.has_value()) slip = AskShortSpan(reading, field);
    if (slip.has_value()) slips.push_back(*std::move(slip));
  }
}

void AskHook(const Report& report, const Expected& expected, std::vector<Slip>& slips) {
  if (!report.hook_mm.has_value() || !expected.hook_mm.has_value()) return;
  const std::optional<double> mm = estimate::HookMmOfUsNumber(*report.hook_mm);
  if (!mm.has_value() || !Near(*mm, *expected.hook_mm, kExplains) ||
      Near(*report.hook_mm, *expected.hook_mm, kUsual)) {
    return;
  }
  slips.push_back({SlipCode::kHookLabel, SlipStrength::kQuestion, "hook_mm",
                   fmt::format("You report a hook of {} mm; the pattern has {} mm. Is {} the US "
                               "number on your hook? That hook is {} mm.",
                               Shown(*report.hook_mm), Shown(*expected.hook_mm),
                               Shown(*report.hook_mm), Shown(*mm)),
                   *mm});
}

void AskTime(const Report& report, const Expected& expected, std::vector<Slip>& slips) {
  if (!report.minutes.has_value() || !expected.minutes.has_value()) return;
  const std::string met =
      fmt::format("You report {}; about {} is expected.", quantities::StatedTime(*report.minutes),
                  quantities::WorkingTime(*expected.minutes));
  if (Near(60 * *report.minutes, *expected.minutes, kTimeTolerance)) {
    slips.push_back({SlipCode::kHoursAsMinutes, SlipStrength::kQuestion, "minutes",
                     met + " Are these hours?", 60 * *report.minutes});
  } else if (IsOutOfProportion(*report.minutes, *expected.minutes, kGrossTime)) {
    slips.push_back({SlipCode::kOutOfProportion, SlipStrength::kQuestion, "minutes",
                     met + " Is a unit or a digit wrong?", std::nullopt});
  }
}

}  // namespace

std::vector<Slip> FindSlips(const Report& report, const Expected& expected) {
  std::vector<Slip> slips = FindYarnSlips(report, expected);
  // The question about the last row belongs to the end.
  std::vector<Slip> of_rows;
  const auto rows_from = std::stable_partition(slips.begin(), slips.end(),
                                               [](const Slip& s) { return s.field != "last_row"; });
  std::move(rows_from, slips.end(), std::back_inserter(of_rows));
  slips.erase(rows_from, slips.end());
  std::stable_sort(slips.begin(), slips.end(),
                   [](const Slip& a, const Slip& b) { return a.field < b.field; });
  AskHook(report, expected, slips);
  AskGauge(report.gauge_before, "gauge_before", expected, slips);
  AskGauge(report.gauge_after, "gauge_after", expected, slips);
  AskFinishedSize(report, expected, slips);
  AskTime(report, expected, slips);
  std::move(of_rows.begin(), of_rows.end(), std::back_inserter(slips));
  return slips;
}

const char* CodeName(SlipCode code) { return kCodeNames[static_cast<size_t>(code)]; }

}  // namespace rowproof::testcalls
