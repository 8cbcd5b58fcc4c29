#include "services/domain/chart/technique.h"

namespace rowproof::chart {

const TechniqueFacts& FactsOf(Technique technique) {
  switch (technique) {
    case Technique::kSpike:
      return kSpikeFacts;
    case Technique::kOverlay:
      return kOverlayFacts;
    case Technique::kInset:
      return kInsetFacts;
  }
  return kSpikeFacts;
}

EndsFit FitOfEnds(const Design& design) {
  if (design.form != Form::kTube) return FactsOf(design.technique).fit_of_ends(design);
  switch (design.ends) {
    case Ends::kWaiting:
      return {};
    case Ends::kCut:
      return {EndsFit::Verdict::kFitsWithNote,
              "each yarn could wait at the join for its next round"};
    case Ends::kCarried:
      return {EndsFit::Verdict::kDoesNotFit,
              "every round ends where its colour's next round starts; let the yarns wait there, or "
              "cut them"};
  }
  return {};
}

const char* WhyEndsDoNotFit(const Design& design) {
  const EndsFit fit = FitOfEnds(design);
  return fit.verdict == EndsFit::Verdict::kDoesNotFit ? fit.why : nullptr;
}

Facing FacingOf(const Design& design) {
  if (design.form == Form::kTube) return Facing::kOneFace;
  return FactsOf(design.technique).only_facing.value_or(design.facing);
}

bool FacingIsChosen(const Design& design) {
  return design.form != Form::kTube && !FactsOf(design.technique).only_facing.has_value();
}

int FacingPeriod(const Design& design) {
  switch (FacingOf(design)) {
    case Facing::kOneFace:
      return 1;
    case Facing::kTwoFace:
      return 2;
    case Facing::kPaired:
      return 4;
  }
  return 1;
}

bool NeedsAlternation(const Design& design) {
  const auto needs = FactsOf(design.technique).needs_alternation;
  return needs != nullptr && needs(design);
}

}  // namespace rowproof::chart
