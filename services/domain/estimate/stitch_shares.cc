#include "services/domain/estimate/stitch_shares.h"

namespace rowproof::estimate {
namespace {

using Totals = std::array<LinearLength, kYarnColours>;

Totals TotalsWith(const Piece& piece, Materials& materials, const StitchPaths& paths) {
  materials.assumptions.paths = paths;
  const PartLengths parts = PartsOf({piece.design, materials, piece.worked, piece.whole});
  Totals totals;
  for (size_t yarn = 0; yarn < kYarnColours; ++yarn) {
    for (const LinearLength& part : parts[yarn]) totals[yarn] += part;
  }
  return totals;
}

}  // namespace

// Every part is linear in the paths: with all of them 0 the rest is left, and a path of one stitch
// pitch alone counts its stitches.
StitchShares StitchSharesOf(const Piece& piece) {
  Materials materials = piece.materials;
  StitchShares shares = {};
  const Totals beside = TotalsWith(piece, materials, StitchPaths{});
  for (size_t yarn = 0; yarn < kYarnColours; ++yarn) shares[yarn].beside = beside[yarn];
  for (size_t kind = 0; kind < kStitchKinds; ++kind) {
    StitchPaths one = {};
    one[kind].across = 1;
    const Totals totals = TotalsWith(piece, materials, one);
    for (size_t yarn = 0; yarn < kYarnColours; ++yarn) {
      shares[yarn].stitches[kind] = totals[yarn].w - beside[yarn].w;
    }
  }
  return shares;
}

}  // namespace rowproof::estimate
