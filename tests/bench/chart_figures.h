// Figures of the pure rules, in this process.
#ifndef ROWPROOF_TESTS_BENCH_CHART_FIGURES_H_
#define ROWPROOF_TESTS_BENCH_CHART_FIGURES_H_

#include <string>

#include "services/domain/chart/design.h"
#include "tests/bench/figure.h"

namespace rowproof::bench {

// Each throws std::runtime_error where it cannot be measured.
Figure MeasureCheck();         // findings of 1000 x 1000 cells, over one count of their bits
Figure MeasureCheckCarried();  // the same with many warnings: long runs over a carried strand,
Figure MeasureCheckOverlay();  // loose flaps,
Figure MeasureCheckInset();    // long skips
Figure MeasureRepair();        // nearest workable chart of the same with faults, likewise
// 300 x 400 with bands in six sizes, over a count of its bits.
Figure MeasureEstimate(const std::string& name, chart::Technique technique, bool calibrated);
Figure MeasureRowsOfAMotif();  // written rows of 300 x 400, over one reading of the cells
Figure MeasureRowsOfRandomCells();

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_CHART_FIGURES_H_
