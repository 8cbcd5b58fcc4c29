#include "services/domain/chart/technique.h"

#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::chart {
namespace {

constexpr TechniqueFacts kSpikeFacts{true, EdgeRule::kPlainOrColumn, true};
constexpr TechniqueFacts kOverlayFacts{false, EdgeRule::kPlain, false};
constexpr TechniqueFacts kInsetFacts{false, EdgeRule::kPlain, false};

constexpr char kFarEdge[] =
    "after a row its yarn lies at the far edge, and its colour's next row starts at the other one; "
    "only cut ends fit";

const char* WhySpikeEndsDoNotFit(Facing facing, Ends ends) {
  switch (facing) {
    case Facing::kOneFace:
      return ends == Ends::kCut ? nullptr : kFarEdge;
    case Facing::kTwoFace:
      return ends != Ends::kWaiting
                 ? nullptr
                 : "a waiting yarn lies at one edge, and its colour's next row starts at the other "
                   "one; cut and carried ends fit";
    case Facing::kPaired:
      return ends != Ends::kCarried ? nullptr
                                    : "each yarn already lies at the edge where its next row "
                                      "starts, and carrying would "
                                      "take it away from there; waiting and cut ends fit";
  }
  return nullptr;
}

}  // namespace

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

absl::Status RequireRules(const Design& design) {
  if (FactsOf(design.technique).has_rules) return absl::OkStatus();
  return NotSupported("technique", fmt::format("\"{}\" charts cannot be checked; \"spike\" can",
                                               Name(design.technique)));
}

const char* WhyEndsDoNotFit(const Design& design) {
  if (design.form == Form::kTube) {
    return design.ends != Ends::kCarried ? nullptr
                                         : "every round of a tube ends where its colour's next "
                                           "round starts, so that there is "
                                           "nowhere to carry the yarn to; waiting and cut ends fit";
  }
  switch (design.technique) {
    case Technique::kSpike:
      return WhySpikeEndsDoNotFit(design.facing, design.ends);
    case Technique::kOverlay:
      return design.ends == Ends::kCut ? nullptr : kFarEdge;
    case Technique::kInset:
      return design.ends == Ends::kWaiting
                 ? nullptr
                 : "both yarns wait at the edge where the RS rows start; only waiting ends fit";
  }
  return nullptr;
}

int FacingPeriod(const Design& design) {
  if (design.form == Form::kTube || design.technique != Technique::kSpike) return 1;
  switch (design.facing) {
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
  if (design.technique != Technique::kSpike) return false;
  if (design.ends == Ends::kCarried) return true;
  return design.ends == Ends::kWaiting && design.form == Form::kFlat &&
         design.facing == Facing::kPaired;
}

}  // namespace rowproof::chart
