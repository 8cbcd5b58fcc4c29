// The abbreviations that a pattern uses, in US or UK terms. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ABBREVIATIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ABBREVIATIONS_H_

#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

// "sc - single crochet" for each abbreviation of the terms that occurs as a word in one of the
// texts, in alphabetical order. A word that is part of a longer one ("st" in "sl st") does not
// count.
// Not all if the work has to stop.
std::vector<std::string> AbbreviationsIn(const std::vector<std::string>& texts, chart::Terms terms,
                                         const Stop& stop = {});

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ABBREVIATIONS_H_
