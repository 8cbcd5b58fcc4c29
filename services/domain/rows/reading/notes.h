// What a text says around its rows: terms, sizes, colours, defined stitches, the foundation chain.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_NOTES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_NOTES_H_

#include <vector>

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

struct NoteReading {
  ReadingContext& context;
  TextDocument& document;
  bool sizes_given = false;  // by the settings or a line before
  bool before_rows = true;   // no row has been read yet
  bool order_known = false;  // a line has given the order of the text's lists
};

// Reads a line that is no row. Kept is what is understood; everything else is prose. ReadingError
// only if a foundation or a definition begins and cannot be read, or sizes do not fit. Returns
// whether anything was understood.
bool ReadNote(NoteReading& note, const std::vector<Token>& tokens,
              std::optional<ReadingError>* error);

// The tokens of a colour's name, as they are compared. Nothing for a name without words.
std::vector<std::string> WordsOfName(std::string_view name, const Vocabulary& words);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_NOTES_H_
