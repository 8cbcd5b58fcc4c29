// The stitches of each row in the order in which a maker works them: what written rows say, and
// what they are compared with. Pure functions, thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_INSTRUCTIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_INSTRUCTIONS_H_

#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/expand.h"

namespace rowproof::rows {

// kPlain: sc in US terms. kDrop: the spike single crochet, ssc.
enum class Stitch : uint8_t { kPlain, kDrop };

// One worked row of one size.
struct RowInstruction {
  int row = 0;     // expanded row, from 1
  int number = 0;  // as the written rows call it: row + first_row_number - 1
  int chart_row = 0;
  chart::Side side = chart::Side::kRightSide;
  chart::Colour colour = chart::Colour::kA;
  // In the order in which they are worked; a standing stitch is one of them, ch 1 is not.
  std::vector<Stitch> stitches;

  bool operator==(const RowInstruction&) const = default;
};

// All rows of an expanded size, bottom first. `expanded` is what Expand returned for this design.
std::vector<RowInstruction> Instructions(const chart::Design& design,
                                         const chart::ExpandedSize& expanded, chart::Hand hand);

// One row (from 1) of them.
RowInstruction InstructionOfRow(const chart::Design& design, const chart::ExpandedSize& expanded,
                                int row, chart::Hand hand);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_INSTRUCTIONS_H_
