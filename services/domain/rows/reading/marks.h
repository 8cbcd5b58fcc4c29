// Starts, ends and colours of a row: "join B with sc in first st", "turn", "fasten off", "with B".
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_MARKS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_MARKS_H_

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

// A start, an end, a colour, a remark: what takes no stitch of the row below, or the stitch with
// which the yarn is joined. kNo if there is none here.
Match ReadMark(RowReading& reading);

// "(does not count as a st)", ", does not count as a stitch" after chains. kFailed for chains that
// would count.
Match ReadNotCounted(RowReading& reading);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_MARKS_H_
