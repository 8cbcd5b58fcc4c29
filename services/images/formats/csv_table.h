// The entries of a CSV or TSV, before they are a chart.
#ifndef ROWPROOF_SERVICES_IMAGES_FORMATS_CSV_TABLE_H_
#define ROWPROOF_SERVICES_IMAGES_FORMATS_CSV_TABLE_H_

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "absl/status/statusor.h"

namespace rowproof::images {

// 0 to 7: the letters A to H.
enum class TableEntry : uint8_t { kPlain = 8, kDrop = 9, kNumber = 10, kEmpty = 11 };

// Entries of one file, top line first, as many in every line.
struct Table {
  int width = 0;
  int height = 0;
  char separator = '\0';  // none
  std::vector<TableEntry> entries;
  TableEntry at(int x, int y) const {
    return entries[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
  }
};

inline constexpr char kTableForm[] =
    "write A and B, or . and x, with commas, semicolons or tabs between all cells or nothing "
    "between any";

// `letters`: how many of A to H a cell may have. INVALID_ARGUMENT, field "content": anything else,
// with line and column.
// The stop's status if the work has to stop.
absl::StatusOr<Table> ReadTable(std::string_view bytes, size_t letters, const Stop& stop = {});

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FORMATS_CSV_TABLE_H_
