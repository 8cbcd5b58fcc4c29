// How much of each yarn's length is in stitches of which kind, and how much is not: the linear form
// of part_lengths.h split by stitch path. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_SHARES_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_SHARES_H_

#include <array>

#include "services/domain/estimate/calibration/path_covariance.h"
#include "services/domain/estimate/part_lengths.h"

namespace rowproof::estimate {

// length = sum over kinds of stitches[kind] * path(kind) + beside, without ball joins.
struct StitchShare {
  StitchNumbers stitches = {};
  LinearLength beside;  // tails, carried strand, climb, row starts, fringe
};
using StitchShares = std::array<StitchShare, kYarnColours>;

StitchShares StitchSharesOf(const Piece& piece);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_SHARES_H_
