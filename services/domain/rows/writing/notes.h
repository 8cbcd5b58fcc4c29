// The notes of a pattern, in US or UK terms. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_NOTES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_NOTES_H_

#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// Terms, sizes, gauge, multiple, foundation, colours, reading direction, marks, hand.
std::vector<std::string> Notes(const chart::Design& design, const WriterSettings& settings,
                               const std::vector<WrittenRow>& rows);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_NOTES_H_
