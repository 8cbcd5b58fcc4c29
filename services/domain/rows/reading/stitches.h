// One term of a row: "sc 3", "3 sc in BLO", "sc in each of next 3 sts", "sc in each st across",
// "ch 3", "sk next 2 sts".
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_STITCHES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_STITCHES_H_

#include <optional>

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

// At a stitch; `before` is the number before it.
bool ReadStitches(RowReading& reading, std::optional<SizedCount> before);
// Tokens of a stitch that is alone or only with its number: "ssc,", "sc 3," as most steps are; 0 if
// there is no such step.
size_t ShortStepLength(const RowReading& reading);
// What ReadStitches reads there, without looking for what else a step could have.
bool ReadShortStep(RowReading& reading, size_t length);
// At "ch"; `before` is the number before it.
bool ReadChains(RowReading& reading, const std::optional<SizedCount>& before);
// At "sk" or "miss".
bool ReadSkip(RowReading& reading);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_STITCHES_H_
