// Seeded random designs for the tests of written rows.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_RANDOM_DESIGN_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_RANDOM_DESIGN_H_

#include <random>

#include "services/domain/chart/design.h"

namespace rowproof::rows {

// A design of the spike technique that can be written: flat or tube, any facing, either convention,
// with and without bands, one to four sizes, row colours now and then of its own; cells random,
// tiled by a motif, or sparse, so that rows and blocks of rows come again.
chart::Design RandomDesign(std::mt19937& random);

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_RANDOM_DESIGN_H_
