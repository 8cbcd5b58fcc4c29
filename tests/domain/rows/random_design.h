// Seeded random designs for the tests of written rows.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_RANDOM_DESIGN_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_RANDOM_DESIGN_H_

#include <random>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// A design that can be written: any technique, facing, ends, convention, flat or tube, with and
// without bands and a worked foundation, one to four sizes, row colours now and then of its own,
// also more than two; cells random, tiled by a motif, or sparse, so that rows and blocks of rows
// come again. It need not be workable.
chart::Design RandomDesign(std::mt19937& random);

// Either hand, terms and style, any depth, colours by name now and then, and sometimes too little
// work allowed to search with.
WriterSettings RandomSettings(std::mt19937& random);

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_RANDOM_DESIGN_H_
