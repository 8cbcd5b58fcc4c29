// Width and height of a piece at one gauge. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_EXTENTS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_EXTENTS_H_

#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/part_lengths.h"

namespace rowproof::estimate {

// Stitch and row pitch with their standard uncertainties; `assumed` if the gauge states none.
struct Pitches {
  double w_mm = 0;
  double w_uncertainty_mm = 0;
  double h_mm = 0;
  double h_uncertainty_mm = 0;
  bool assumed = false;
};
Pitches PitchesOf(const Gauge& gauge);

// What fringe adds at both ends of one direction: the longer of the cut rows' and the added one.
double FringeWidthMm(const Piece& piece);
double FringeHeightMm(const Piece& piece);

// S*w by R*h (a worked foundation is one row more), a border round adding h at each edge it runs
// along, fringe at the end. The size model's uncertainty does not affect the fringe.
Extent ExtentOf(const Piece& piece, const Pitches& pitches);

// Contributions, the largest first.
void SortLargestFirst(std::vector<Contribution>& contributions);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_EXTENTS_H_
