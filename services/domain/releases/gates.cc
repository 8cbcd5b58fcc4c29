#include "services/domain/releases/gates.h"

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"

namespace rowproof::releases {
namespace {

struct GateNames {
  GateCode code;
  const char* name;
  const char* condition;  // type of the unmet condition
};
constexpr std::array<GateNames, kGates> kNames = {{
    {GateCode::kChartWorkable, "chart-workable", "CHART_WORKABLE"},
    {GateCode::kTextEqualsChart, "text-equals-chart", "TEXT_EQUALS_CHART"},
    {GateCode::kErrataDecided, "errata-decided", "ERRATA_DECIDED"},
    {GateCode::kSizesTested, "sizes-tested", "SIZES_TESTED"},
    {GateCode::kPredictionsReconciled, "predictions-reconciled", "PREDICTIONS_RECONCILED"},
}};

const GateNames& NamesOf(GateCode code) { return kNames[static_cast<size_t>(code)]; }

std::string Counted(int64_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

Gate Make(GateCode code, bool met, std::string sentence) {
  return {code, met ? GateState::kMet : GateState::kOpen, std::move(sentence), ""};
}

Gate ChartWorkable(const GateFacts& facts) {
  const bool met = facts.workability_errors == 0;
  return Make(GateCode::kChartWorkable, met,
              met ? "The chart can be worked in every size."
                  : fmt::format("The chart has {}; correct it and submit a new version.",
                                Counted(facts.workability_errors, "error", "errors")));
}

Gate TextEqualsChart(const GateFacts& facts) {
  constexpr auto kCode = GateCode::kTextEqualsChart;
  if (!facts.has_designer_text) {
    return Make(kCode, true, "The rows are written from the chart.");
  }
  if (!facts.text_compared) {
    return Make(kCode, false, "The designer's own rows have not been compared with the chart.");
  }
  std::vector<std::string> differing;
  for (const SizeFacts& size : facts.sizes) {
    if (size.text_differences == 0) continue;
    differing.push_back(fmt::format(
        "{} in size {}", Counted(size.text_differences, "difference", "differences"), size.size));
  }
  if (differing.empty()) {
    if (facts.text_errors == 0) {
      return Make(kCode, true, "The designer's own rows agree with the chart in every size.");
    }
    differing.emplace_back("rows that cannot be read");
  }
  return Make(
      kCode, false,
      fmt::format("The designer's own rows do not agree with the chart: {} ({}).",
                  Counted(facts.text_errors, "error", "errors"), fmt::join(differing, ", ")));
}

Gate ErrataDecided(const GateFacts& facts) {
  const bool met = facts.errata_undecided == 0;
  return Make(GateCode::kErrataDecided, met,
              met ? "Every reported erratum is decided."
                  : fmt::format("{} to be decided.",
                                Counted(facts.errata_undecided, "reported erratum is still",
                                        "reported errata are still")));
}

Gate SizesTested(const GateFacts& facts) {
  std::vector<std::string> missing;
  int fewest = facts.sizes.empty() ? facts.testers_required : std::numeric_limits<int>::max();
  for (const SizeFacts& size : facts.sizes) {
    const int required = size.testers_required.value_or(facts.testers_required);
    fewest = std::min(fewest, required);
    if (size.finished_testers >= required) continue;
    missing.push_back(
        fmt::format("Size {}: {} of {} testers have finished the rows as they now read.", size.size,
                    size.finished_testers, required));
  }
  if (!missing.empty() && !facts.has_call) {
    return Make(GateCode::kSizesTested, false,
                "No test call was named, so no tester is counted; name the pattern's call.");
  }
  if (!missing.empty()) {
    return Make(GateCode::kSizesTested, false, fmt::format("{}", fmt::join(missing, " ")));
  }
  return Make(
      GateCode::kSizesTested, true,
      fmt::format("Every size was finished by {} or more.", Counted(fewest, "tester", "testers")));
}

Gate PredictionsReconciled(const GateFacts& facts) {
  constexpr auto kCode = GateCode::kPredictionsReconciled;
  if (facts.quantities_unreconciled.empty()) {
    return Make(kCode, true, "The estimates are reconciled with the testers' measurements.");
  }
  if (!facts.has_call) {
    return Make(kCode, false,
                "No test call was named, so no measurement is counted; name the pattern's call.");
  }
  return Make(kCode, false,
              fmt::format("Not reconciled with the testers' measurements: {}.",
                          fmt::join(facts.quantities_unreconciled, ", ")));
}

absl::Status CheckWaiver(const std::vector<Waiver>& waivers, size_t index) {
  const std::string field = fmt::format("waivers[{}]", index);
  const Waiver& waiver = waivers[index];
  for (size_t earlier = 0; earlier < index; ++earlier) {
    if (waivers[earlier].code == waiver.code) {
      return InvalidField(field + ".code", CodeName(waiver.code), "a gate that is not waived yet");
    }
  }
  if (!IsReason(waiver.reason)) {
    return InvalidField(field + ".reason", waiver.reason,
                        fmt::format("a reason of at least {} characters", kShortestReason));
  }
  return ValidateText(field + ".reason", waiver.reason, kLongestReason, true);
}

}  // namespace

bool IsReason(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\r\n";
  const size_t first = text.find_first_not_of(kBlanks);
  return first != std::string_view::npos &&
         text.find_last_not_of(kBlanks) - first + 1 >= kShortestReason;
}

std::vector<Gate> EvaluateGates(const GateFacts& facts) {
  return {ChartWorkable(facts), TextEqualsChart(facts), ErrataDecided(facts), SizesTested(facts),
          PredictionsReconciled(facts)};
}

absl::StatusOr<std::vector<Gate>> PassOver(std::vector<Gate> gates,
                                           const std::vector<Waiver>& waivers) {
  for (size_t i = 0; i < waivers.size(); ++i) {
    RETURN_IF_ERROR(CheckWaiver(waivers, i));
  }
  for (Gate& gate : gates) {
    if (gate.state != GateState::kOpen) continue;
    const auto waiver = std::find_if(waivers.begin(), waivers.end(),
                                     [&](const Waiver& w) { return w.code == gate.code; });
    if (waiver == waivers.end()) continue;
    gate.state = GateState::kPassedOver;
    gate.reason = waiver->reason;
  }
  return gates;
}

absl::Status MayPublish(const std::vector<Gate>& gates, const std::vector<Waiver>& waivers) {
  ASSIGN_OR_RETURN(const auto passed, PassOver(gates, waivers));
  std::vector<UnmetCondition> open;
  std::string sentence;
  std::vector<std::string> codes;
  for (const Gate& gate : passed) {
    if (gate.state != GateState::kOpen) continue;
    open.push_back({NamesOf(gate.code).condition, CodeName(gate.code), gate.sentence});
    codes.emplace_back(CodeName(gate.code));
    sentence += " " + gate.sentence;
  }
  if (open.empty()) return absl::OkStatus();
  sentence = fmt::format("{} open: {}. Settle each, or pass it over with a reason.{}",
                         open.size() == 1 ? "Gate" : "Gates", fmt::join(codes, ", "), sentence);
  return UnmetConditions(sentence, std::move(open));
}

const char* CodeName(GateCode code) { return NamesOf(code).name; }

const char* Name(GateState state) {
  switch (state) {
    case GateState::kOpen:
      return "open";
    case GateState::kMet:
      return "met";
    case GateState::kPassedOver:
      return "passed-over";
  }
  return "";
}

}  // namespace rowproof::releases
