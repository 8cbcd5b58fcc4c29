// Spike mosaic: the drop goes under both loops of the stitch two rows down and covers the row
// between on both faces.
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

using Verdict = EndsFit::Verdict;

EndsFit FitOfSpikeEnds(const Design& design) {
  switch (design.facing) {
    case Facing::kOneFace:
      if (design.ends == Ends::kCut) return {};
      return {Verdict::kDoesNotFit,
              "every row ends at the far edge from where its colour is needed next; cut the ends"};
    case Facing::kTwoFace:
      if (design.ends != Ends::kWaiting) return {};
      return {Verdict::kDoesNotFit,
              "a waiting yarn lies at one edge, and its colour's next row starts at the other; cut "
              "the ends or carry them"};
    case Facing::kPaired:
      if (design.ends == Ends::kWaiting) return {};
      if (design.ends == Ends::kCut) {
        return {Verdict::kFitsWithNote, "each yarn could wait at the edge for its next row"};
      }
      return {Verdict::kDoesNotFit,
              "each yarn already lies at the edge where its next row starts; let it wait there, or "
              "cut it"};
  }
  return {};
}

bool SpikeNeedsAlternation(const Design& design) {
  if (design.ends == Ends::kCarried) return true;
  return design.ends == Ends::kWaiting && design.form == Form::kFlat &&
         design.facing == Facing::kPaired;
}

}  // namespace

const TechniqueFacts kSpikeFacts = {
    .name = "spike",
    .plain = StitchKind::kSingleCrochet,
    .drop = StitchKind::kSpikeSingleCrochet,
    .worked_rows = 1,
    .skips = false,
    .can_be_tube = true,
    .only_facing = std::nullopt,
    .edges = EdgeRule::kPlainOrColumn,
    .edge_code = FindingCode::kEdgeDrop,
    .runs = {FindingCode::kLooseStrand, Severity::kWarning, &CheckSettings::longest_carried_run,
             true},
    .drops_hold_strand = true,
    .picture_on_both_faces = true,
    .fit_of_ends = FitOfSpikeEnds,
    .needs_alternation = SpikeNeedsAlternation,
};

}  // namespace rowproof::chart
