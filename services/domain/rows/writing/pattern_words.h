// What a pattern says besides its rows: abbreviations, special stitches and notes, in US or UK
// terms. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_PATTERN_WORDS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_PATTERN_WORDS_H_

#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// What the rows hold besides plain stitches.
struct RowUses {
  bool drops = false;
  bool chain_spaces = false;
};

// How to work what has no common name: the drop and the chain spaces (if they are used), the
// loops of a plain stitch, the start and end of a row, and what RS means.
std::vector<std::string> SpecialStitches(const chart::Design& design,
                                         const WriterSettings& settings, const RowUses& uses);

// Terms, sizes, gauge, multiple, foundation, colours, reading direction, marks, hand.
std::vector<std::string> Notes(const chart::Design& design, const WriterSettings& settings,
                               const std::vector<WrittenRow>& rows);

// "sc - single crochet" for each abbreviation of the terms that occurs as a word in one of the
// texts, in alphabetical order. A word that is part of a longer one ("st" in "sl st") does not
// count.
std::vector<std::string> AbbreviationsIn(const std::vector<std::string>& texts, chart::Terms terms);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_PATTERN_WORDS_H_
