// How many stitches the rows of a text come to, by themselves: without a chart. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_COUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_COUNTS_H_

#include <cstdint>
#include <optional>
#include <vector>

#include "services/domain/rows/instructions.h"
#include "services/domain/rows/reading/reader.h"

namespace rowproof::rows {

// Of one line in one size, where it is worked first; none if the size does not work it, it was
// not read, repeats other rows, or reaches "across" a row of unknown length.
using LineCount = std::optional<ClosingCount>;

struct TextCounts {
  // By line of the document, then by size.
  std::vector<std::vector<LineCount>> lines;
  // False if the work ran out before the last line.
  bool complete = true;
};

// Stitches and spaces that are worked out, over all rows and sizes.
inline constexpr int64_t kMostCounted = 20'000'000;

// Time is linear in what is worked out, at most `most` and one row more.
TextCounts CountRows(const TextDocument& document, int64_t most = kMostCounted);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_COUNTS_H_
