// "Sizes: S (M, L)": the sizes of a text, and the order of its lists. Used by reading_notes.cc.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_SIZES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_SIZES_H_

#include "services/domain/rows/reading/notes.h"

namespace rowproof::rows {

// Reads a line that names sizes where a sentence begins; returns whether it does. If the sizes are
// known already (by the settings, or an earlier line), the same names in another order set the
// order of the text's lists; settings whose names the line does not have, and a second order, are
// errors.
bool ReadSizes(RowReading& line, NoteReading& note);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_SIZES_H_
