// The stitches of one written row in one size, in working order.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_EXPANSION_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_EXPANSION_H_

#include <cstdint>
#include <span>
#include <vector>

#include "services/domain/rows/text_row.h"

namespace rowproof::rows {

// `count` stitches of one kind, or `count` chain spaces alike: `chains` over `skipped` stitches of
// the row below (a skip without chains has 0 chains, chains without a skip have 0 skipped).
struct WorkedRun {
  enum class Kind : uint8_t { kStitches, kChainSpace };
  Kind kind = Kind::kStitches;
  TextStitch stitch = TextStitch::kSingleCrochet;
  int count = 1;
  int chains = 0;
  int skipped = 0;
  bool operator==(const WorkedRun&) const = default;
};

struct ExpandedText {
  // How a repeat "across" or "to last N sts" meets the stitches of the row below.
  enum class Fit : uint8_t {
    kFits,
    kLeavesOver,  // `off_by` stitches are left that a whole repeat does not fit in
    kRunsShort,   // not even once: `off_by` stitches more are needed
    kTooMuch,     // more than chart::kMostStitches stitches or spaces; `runs` is empty
  };
  Fit fit = Fit::kFits;
  int off_by = 0;
  TextPlace at;  // of that repeat
  // Neighbours differ: each run is as long as it can be.
  std::vector<WorkedRun> runs;
  int stitches = 0;      // worked; chains never count
  int chain_spaces = 0;  // those with chains
  // Stitches of the row below that are taken: worked into or skipped.
  int taken = 0;
  bool operator==(const ExpandedText&) const = default;
};

// The row below: the stitches to be worked into (also those under chain spaces; of a foundation
// chain one chain fewer than it has, or as many as "in 2nd ch from hook" leaves), and if it is
// known its runs in the order in which the row to be expanded meets them (reversed after a turn).
// The runs are needed by kFollow and make "sk ch-sp" exact; without them a skipped chain space of
// ch n is taken to span n-1 stitches (ch n+1 over n: common practice).
struct RowBelow {
  int stitches = 0;
  std::span<const WorkedRun> runs = {};
};

// Expands the steps of a row that was read. Time and memory are linear in the steps and in the
// stitches, of which there are at most chart::kMostStitches: counted before they are made.
ExpandedText ExpandSteps(std::span<const TextStep> steps, int size, const RowBelow& below);

// Stitches and spaces that the steps come to in a size, repeats "across" counted once; stops
// growing at 10^12.
int64_t LeastElements(std::span<const TextStep> steps, int size);

// Adds a run behind the others; alike neighbours become one.
void AppendRun(std::vector<WorkedRun>& runs, const WorkedRun& run);

// The runs of the same stitches from the other edge.
std::vector<WorkedRun> Reversed(std::span<const WorkedRun> runs);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_EXPANSION_H_
