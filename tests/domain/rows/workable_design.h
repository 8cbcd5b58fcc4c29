// Random designs that can be worked, and their text as a sheet prints it.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_WORKABLE_DESIGN_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_WORKABLE_DESIGN_H_

#include <string>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// Ends that fit, marks that do not fit taken away; false where that was not enough.
bool MakeWorkable(chart::Design& design);

// Headings and rows, a line each.
std::string RowsAlone(const WrittenPattern& pattern);

// What stands around the rows first.
std::string WholePattern(const WrittenPattern& pattern);

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_WORKABLE_DESIGN_H_
