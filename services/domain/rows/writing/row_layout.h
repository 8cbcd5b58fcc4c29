// The order of a pattern's rows in all sizes at once, before rows are written as repeats of others.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_LAYOUT_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_LAYOUT_H_

#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/row_sequence.h"

namespace rowproof::rows {

// Expanded rows (from 1) first..last of one size; both kNotWorked if the size has none.
struct RowRange {
  int first = 0;
  int last = 0;
  bool operator==(const RowRange&) const = default;
};

struct LaidRow {
  // kRow: one row. kBandRepeat: the declared row band worked again. kGap: no row; nothing may be
  // repeated across it, because the sizes part or meet here.
  enum class Type : uint8_t { kRow, kBandRepeat, kGap };
  Type type = Type::kRow;
  int kind = 0;                // kRow, kBandRepeat: of the first row
  std::vector<RowRange> rows;  // one for each size
  bool in_every_size = true;   // of the section's sizes
  // kBandRepeat, one for each size.
  std::vector<RowRange> repeated;
  std::vector<int> times;
};

// Rows that hold for all sizes (only_size -1) or for one. The first `written` rows are in an
// earlier section and can only be referred to.
struct Section {
  int only_size = -1;
  size_t written = 0;
  std::vector<LaidRow> rows;
};

// Sections in the order in which they are written, exact in every size. With `every_row` no
// kBandRepeat: each pass of the row band is laid out.
std::vector<Section> LayOutRows(const chart::Design& design, const RowSequences& sequences,
                                bool every_row);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_LAYOUT_H_
