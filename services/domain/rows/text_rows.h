// The rows of a text in one size, in the order in which they are written to be worked.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_ROWS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_ROWS_H_

#include <optional>
#include <vector>

#include "services/domain/rows/reading/reader.h"

namespace rowproof::rows {

struct PlacedRow {
  int number = 0;  // as the text numbers it
  // Index of TextDocument::rows: the line that names the row, and the one whose steps are worked
  // (the same, or an earlier row that is repeated). -1 if no earlier row has that number.
  int line = 0;
  int worked = 0;
  // As stated by the line, else by the row that is repeated.
  std::optional<chart::Side> side;
  std::optional<chart::Colour> colour;
  bool operator==(const PlacedRow&) const = default;
};

// All rows that a size (from 0) works, in the order of the text: missing, doubled and misplaced
// numbers are left as they are. A repeat takes the last earlier row of a number. At most 2 *
// chart::kMostRows. If a repeat does not add up, as many rows as its own numbers name are placed
// (ReadRows has reported it). Linear in rows.
std::vector<PlacedRow> RowsOfSize(const TextDocument& document, int size);

// Faults of the references, in any size: each at its line once. Called by ReadRows.
void CheckReferences(const TextDocument& document, std::vector<TextFinding>& findings);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_ROWS_H_
