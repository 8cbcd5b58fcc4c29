// A text and its chart side by side, one line for each row, as a technical editor reads them. Not
// thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_ROWS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_ROWS_H_

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "services/domain/rows/comparing/size.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// Of a line that names several rows, the first shows it whole and the others so many bytes of it:
// a text of megabytes does not become one of gigabytes.
inline constexpr size_t kLongestTextAgain = 120;

class EditorRows {
 public:
  // All outlive it; `written` has every row apart.
  EditorRows(const TextDocument& document, std::string_view text, const WrittenPattern& written);

  // The rows and faults of one size, sizes ascending.
  void AddSize(const ChartRows& chart, const SizeComparison& compared);

  // The row as it is written; empty if the size has no row of that number.
  const std::string& Corrected(int size, int number) const;

  std::vector<ComparedRow> Take();

 private:
  std::string LineText(int line);
  void AddTooMany(const ChartRows& chart, const RowFault& fault);

  const TextDocument& document_;
  std::string_view text_;
  const WrittenPattern& written_;
  std::map<std::pair<int, int>, size_t> of_number_;  // by size and number: index of written rows
  std::vector<ComparedRow> rows_;                    // as written
  std::vector<int> lines_;                           // by row: the line that names it, -1: none yet
  std::vector<ComparedRow> too_many_;
  std::map<int, size_t> too_many_of_number_;
  std::vector<bool> shown_;  // by line
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_ROWS_H_
