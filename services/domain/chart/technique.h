// What differs by technique. The facts of each are in a file of techniques/; to add a technique,
// add a file there and its line in FactsOf.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUE_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUE_H_

#include <cstdint>
#include <optional>

#include "absl/status/status.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/techniques/stitches.h"

namespace rowproof::chart {

// What the first and last stitch of a flat chart may hold (edge-drop, edge-skip).
enum class EdgeRule : uint8_t {
  kPlainOrColumn,  // no drop, or a drop in every row of one colour; a warning otherwise
  kPlain,          // no drop; an error otherwise
};

// Whether the ends can be treated so.
struct EndsFit {
  enum class Verdict : uint8_t { kFits, kFitsWithNote, kDoesNotFit };
  Verdict verdict = Verdict::kFits;
  // Unless it fits: why, one clause without a full stop.
  const char* why = nullptr;
};

// A finding for runs of more than `longest` drops (loose-strand, long-skip, loose-flap).
struct RunRule {
  FindingCode code = FindingCode::kLooseStrand;
  Severity severity = Severity::kWarning;
  int CheckSettings::*longest = nullptr;  // its default value is in CheckSettings
  bool only_carried = false;              // applies to carried ends only
};

struct TechniqueFacts {
  const char* name = "";
  StitchKind plain = StitchKind::kSingleCrochet;
  StitchKind drop = StitchKind::kSpikeSingleCrochet;
  // Worked rows a chart row.
  int worked_rows = 1;
  // A stitch that a later drop covers is skipped behind a chain instead of worked.
  bool skips = false;
  bool can_be_tube = false;
  // The one facing, counted in worked rows, if there is no choice; Design.facing is then not
  // looked at.
  std::optional<Facing> only_facing;
  EdgeRule edges = EdgeRule::kPlainOrColumn;
  FindingCode edge_code = FindingCode::kEdgeDrop;
  RunRule runs;
  bool drops_hold_strand = false;      // a carried strand is inside the drops (loose-strand)
  bool picture_on_both_faces = false;  // else face 2 shows stripes
  EndsFit (*fit_of_ends)(const Design&) = nullptr;
  // The two colours must alternate strictly: colour-order is an error, not a warning.
  bool (*needs_alternation)(const Design&) = nullptr;
};

extern const TechniqueFacts kSpikeFacts;
extern const TechniqueFacts kOverlayFacts;
extern const TechniqueFacts kInsetFacts;

const TechniqueFacts& FactsOf(Technique technique);

// Technique, facing and form of the design as they go together with its ends.
EndsFit FitOfEnds(const Design& design);

// Why the ends cannot be treated so with this technique, facing and form: one clause without a full
// stop; nullptr if they go together.
const char* WhyEndsDoNotFit(const Design& design);

// The facing in worked rows: a tube is one-face, overlay too, inset is turned after every row.
Facing FacingOf(const Design& design);

// Whether the facing is the designer's choice: in flat spike.
bool FacingIsChosen(const Design& design);

// Worked rows after which the sides of the work (RS, WS) come round again: 1, 2 or 4.
int FacingPeriod(const Design& design);

// The two colours must alternate strictly: colour-order is an error, not a warning.
bool NeedsAlternation(const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUE_H_
