// Charts of the benchmarks: seeded, the same on every machine.
#ifndef ROWPROOF_TESTS_BENCH_SAMPLE_CHARTS_H_
#define ROWPROOF_TESTS_BENCH_SAMPLE_CHARTS_H_

#include <cstdint>

#include "services/domain/chart/design.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::bench {

// Workable pictures of the two-face spike technique with cut ends, one size, edges plain.
chart::Design RandomDesign(int rows, int stitches, uint64_t seed);
// In every second row runs of seven off-colour cells with one between: with carried ends each is a
// warning.
chart::Design LongRunsDesign(int rows, int stitches);
// The same motif of 12 stitches and 8 rows all over.
chart::Design MotifDesign(int rows, int stitches);
// A random motif of 24 stitches and 40 rows all over, between plain edges of 2 rows and stitches.
chart::Design EdgedMotifDesign(int rows, int stitches);

// A picture of cells that are A or B at random, hardly a column of which is workable.
chart::Design RandomCells(int rows, int stitches, uint64_t seed);

// A copy with `count` random cells exchanged: some clash, most of them do not.
chart::Design WithFaults(const chart::Design& design, int count, uint64_t seed);

// Both yarns of weight class 4 with a ball band, 14 stitches and 16 rows in 100 mm.
estimate::Materials SampleMaterials();

// Set cells, in one pass over the words; and the same cell by cell.
int64_t CountBits(const chart::Grid& cells);
int64_t ReadCells(const chart::Grid& cells);

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_SAMPLE_CHARTS_H_
