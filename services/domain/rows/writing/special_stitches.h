// How to work what has no common name, in US or UK terms. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SPECIAL_STITCHES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SPECIAL_STITCHES_H_

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

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SPECIAL_STITCHES_H_
