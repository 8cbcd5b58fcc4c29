// Overlay mosaic: every row RS; the drop is a double crochet into the front loop of the stitch two
// rows down, in front of the work. Face 2 shows plain stripes.
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

EndsFit FitOfOverlayEnds(const Design& design) {
  if (design.ends == Ends::kCut) return {};
  return {
      EndsFit::Verdict::kDoesNotFit,
      "every row is a RS row and ends at the far edge from where its colour is needed next; cut "
      "the ends"};
}

}  // namespace

const TechniqueFacts kOverlayFacts = {
    .name = "overlay",
    .plain = StitchKind::kSingleCrochet,
    .drop = StitchKind::kDoubleTwoRowsDown,
    .worked_rows = 1,
    .skips = false,
    .can_be_tube = true,
    .only_facing = Facing::kOneFace,
    .edges = EdgeRule::kPlain,
    .edge_code = FindingCode::kEdgeDrop,
    .runs = {FindingCode::kLooseFlap, Severity::kNote, &CheckSettings::longest_flap, false},
    .drops_hold_strand = false,
    .picture_on_both_faces = false,
    .fit_of_ends = FitOfOverlayEnds,
    .needs_alternation = nullptr,
};

}  // namespace rowproof::chart
