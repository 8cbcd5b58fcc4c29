// The cause of many faults in one size, named instead of them. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_CAUSES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_CAUSES_H_

#include "services/domain/rows/comparing/size.h"

namespace rowproof::rows {

// How many successive rows must each read as a neighbouring row before they are called shifted.
inline constexpr int kFewestShiftedRows = 3;
// How many rows must be in the opposite order before they are read as those of a maker of the other
// hand.
inline constexpr int kFewestTurnedRows = 3;
// Rows of each colour that is called by another, before the colours are called exchanged.
inline constexpr int kFewestExchangedRows = 2;
// Rows with chain spaces, all longer or shorter by as much, before that is the text's own way.
inline constexpr int kFewestOtherChains = 4;

// kRowsShifted instead of the stitches, sides and colours of the rows that are shifted.
// kColoursExchanged instead of kWrongColour if every row of a colour is called by another.
// kOtherChains instead of kWrongChains if all chain spaces differ by as many chains. kWrongEdge
// says so if every row is as a maker of the other hand works it.
void NameCauses(ChartRows& chart, SizeComparison& comparison);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_CAUSES_H_
