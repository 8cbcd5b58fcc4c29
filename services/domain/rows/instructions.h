// What a maker works in each row, in the order in which it is worked: what written rows say, and
// what they are compared with. Pure functions, thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_INSTRUCTIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_INSTRUCTIONS_H_

#include <cstdint>
#include <span>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/expand.h"

namespace rowproof::rows {

// kPlain: sc. kDrop: the technique's drop (ssc; mdc). kChainSpace: chains over stitches that are
// skipped (inset only). US terms.
enum class Stitch : uint8_t { kPlain, kDrop, kChainSpace };

// One thing that a row does: a stitch, or one chain space.
struct Element {
  Stitch stitch = Stitch::kPlain;
  // kChainSpace: the chart's stitches that it passes over, from 1, and its chains. 0 for a stitch.
  int16_t skipped = 0;
  int16_t chains = 0;

  // Stitches of the chart that it takes up.
  int width() const { return stitch == Stitch::kChainSpace ? skipped : 1; }
  bool operator==(const Element&) const = default;
};

inline constexpr Element kPlainStitch{Stitch::kPlain, 0, 0};
inline constexpr Element kDropStitch{Stitch::kDrop, 0, 0};

// A chain space over `skipped` stitches (at least 1) as it is written: of one chain more (common
// practice).
constexpr Element ChainSpace(int skipped) {
  return {Stitch::kChainSpace, static_cast<int16_t>(skipped), static_cast<int16_t>(skipped + 1)};
}

// What a row's closing count says: stitches worked (chains never count) and chain spaces.
struct ClosingCount {
  int stitches = 0;
  int chain_spaces = 0;
  bool operator==(const ClosingCount&) const = default;
};

ClosingCount CountOf(std::span<const Element> elements);
// Stitches of the chart that the elements take up.
int WidthOf(std::span<const Element> elements);

// One worked row of one size.
struct RowInstruction {
  int row = 0;           // worked row, from 1
  int number = 0;        // as the written rows number it: row + first_row_number - 1
  int expanded_row = 0;  // of the expanded chart, from 1; in inset two worked rows share one
  int chart_row = 0;
  chart::Side side = chart::Side::kRightSide;
  chart::Colour colour = chart::Colour::kA;
  // In the order in which they are worked; a standing stitch is one of them, ch 1 is not. A skipped
  // run is one chain space, as long as it is.
  std::vector<Element> elements;

  bool operator==(const RowInstruction&) const = default;
};

// Inset works two rows for each of the chart: the first (RS) drops where the chart does and skips
// where the next chart row does; the second (WS) is plain over every stitch and skips the same
// stitches. If a draft drops and skips in one place (drop over drop), it is skipped.

// All rows of an expanded size, bottom first. `expanded` is what Expand returned for this design.
std::vector<RowInstruction> Instructions(const chart::Design& design,
                                         const chart::ExpandedSize& expanded, chart::Hand hand);

// One worked row (from 1) of them.
RowInstruction InstructionOfRow(const chart::Design& design, const chart::ExpandedSize& expanded,
                                int worked_row, chart::Hand hand);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_INSTRUCTIONS_H_
