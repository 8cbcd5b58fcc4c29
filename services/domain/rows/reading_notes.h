// What a text says around its rows: terms, sizes, colours, defined stitches, the foundation chain.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_NOTES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_NOTES_H_

#include <vector>

#include "services/domain/rows/reading_row.h"

namespace rowproof::rows {

struct NoteReading {
  ReadingContext& context;
  TextDocument& document;
  bool sizes_given = false;  // by the settings: the text's own are not taken
  bool before_rows = true;   // no row was met yet
};

// Reads a line that is no row. Kept is what is understood; everything else is prose. Trouble only
// where a foundation or a definition begins and cannot be read; whether anything was understood.
bool ReadNote(NoteReading& note, const std::vector<Token>& tokens, std::optional<Trouble>* trouble);

// The tokens of a colour's name, as they are compared. Nothing for a name without words.
std::vector<std::string> WordsOfName(std::string_view name, const Vocabulary& words);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_NOTES_H_
