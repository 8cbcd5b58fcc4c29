// Whether a design has rows that can be written.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_WRITABLE_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_WRITABLE_H_

#include "absl/status/status.h"
#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// INVALID_ARGUMENT with field "nesting_depth", "colour_names" or "colour_names[i]" for what
// WriterSettings does not allow. Thread-safe, as what follows.
absl::Status CheckRowStyle(const chart::Design& design, const RowStyle& style);

// The errors of WriteRows.
absl::Status CheckWritable(const chart::Design& design, const WriterSettings& settings,
                           const Stop& stop);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_WRITABLE_H_
