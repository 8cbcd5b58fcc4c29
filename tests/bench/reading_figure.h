// How fast written rows are read and compared, in this process.
#ifndef ROWPROOF_TESTS_BENCH_READING_FIGURE_H_
#define ROWPROOF_TESTS_BENCH_READING_FIGURE_H_

#include "tests/bench/figure.h"

namespace rowproof::bench {

// Reading rows of a random chart, over one search of the same bytes for line ends. Of a text as
// long as is allowed, and of a tenth of it: time grows no faster than the rows. Each throws
// std::runtime_error where the text cannot be read.
Figure MeasureReading();
Figure MeasureReadingOfATenth();

// Comparing all rows of 300 x 400 cells, tiled by a motif and written out, with their chart, over
// one reading of the cells. Throws where they do not agree.
Figure MeasureComparison();

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_READING_FIGURE_H_
