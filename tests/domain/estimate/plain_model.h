// A plain model of the estimate that walks every stitch of every worked row, written apart from the
// product: no bit counting, no runs of bits, no linear forms, no shared expansion.
#ifndef ROWPROOF_TESTS_DOMAIN_ESTIMATE_PLAIN_MODEL_H_
#define ROWPROOF_TESTS_DOMAIN_ESTIMATE_PLAIN_MODEL_H_

#include <array>
#include <vector>

#include "services/domain/estimate/estimate.h"

namespace rowproof::estimate {

enum class PlainStitch { kPlain, kDrop, kSkipped };

struct PlainRow {
  chart::Colour colour = chart::Colour::kA;
  std::vector<PlainStitch> stitches;
  bool foundation = false;
  bool begins_chart_row = true;  // false for the second worked row of inset
};

// All worked rows of a size.
std::vector<PlainRow> PlainRows(const chart::Design& design, int size);

// Chains over the skipped stitches of a row: one more than each run has stitches.
int PlainChains(const PlainRow& row, int* spaces = nullptr);

using PlainLengths = std::array<std::array<double, kPartKinds>, kYarnColours>;

// Lengths by yarn and part, added up one stitch and one row at a time; border and closing round
// only where `finished`. Wraps per inch must be declared, and there is neither swatch, added fringe
// nor ball band.
PlainLengths PlainLengthsOf(const chart::Design& design, const Materials& materials,
                            std::vector<PlainRow> rows, bool finished);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_TESTS_DOMAIN_ESTIMATE_PLAIN_MODEL_H_
