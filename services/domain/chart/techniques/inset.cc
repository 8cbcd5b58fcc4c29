// Inset mosaic: a chart row is two worked rows (RS, then WS) of one colour; if the picture needs
// the next colour the stitch is skipped behind a chain in both, and the next colour's RS row fills
// it with a double crochet in front of the chains. Face 2 shows stripes of two rows.
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

EndsFit FitOfInsetEnds(const Design& design) {
  switch (design.ends) {
    case Ends::kWaiting:
      return {};
    case Ends::kCut:
      return {EndsFit::Verdict::kDoesNotFit,
              "both rows of a chart row end where its colour is needed next; let the yarns wait "
              "there"};
    case Ends::kCarried:
      return {EndsFit::Verdict::kDoesNotFit,
              "both yarns lie at the edge where RS rows start; let them wait there"};
  }
  return {};
}

}  // namespace

const TechniqueFacts kInsetFacts = {
    .name = "inset",
    .plain = StitchKind::kSingleCrochet,
    .drop = StitchKind::kDoubleThreeRowsDown,
    .worked_rows = 2,
    .skips = true,
    .can_be_tube = false,
    .only_facing = Facing::kTwoFace,
    .edges = EdgeRule::kPlain,
    .edge_code = FindingCode::kEdgeSkip,
    .runs = {FindingCode::kLongSkip, Severity::kWarning, &CheckSettings::longest_skip, false},
    .drops_hold_strand = false,
    .picture_on_both_faces = false,
    .fit_of_ends = FitOfInsetEnds,
    .needs_alternation = nullptr,
};

}  // namespace rowproof::chart
