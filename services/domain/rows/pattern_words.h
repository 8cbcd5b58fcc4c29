// What a pattern says beside its rows: abbreviations, special stitches and notes, in US terms.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_PATTERN_WORDS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_PATTERN_WORDS_H_

#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writer.h"

namespace rowproof::rows {

// How to work what has no common name: the drop (only `with_drops`), the loops of a plain stitch,
// the start and end of a row, and what RS means.
std::vector<std::string> SpecialStitches(const chart::Design& design, bool with_drops);

// Terms, sizes, foundation, reading direction, marks, hand.
std::vector<std::string> Notes(const chart::Design& design, chart::Hand hand,
                               const std::vector<WrittenRow>& rows);

// "sc - single crochet" for each abbreviation that stands as a word in one of the texts, by
// alphabet.
std::vector<std::string> AbbreviationsIn(const std::vector<std::string>& texts);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_PATTERN_WORDS_H_
