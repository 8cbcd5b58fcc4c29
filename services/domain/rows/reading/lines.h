// The lines of a text: rows with their continuation lines, size headings, everything else.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_LINES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_LINES_H_

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string_view>

namespace rowproof::rows {

struct TextLine {
  enum class Kind : uint8_t { kRow, kSize, kOther };
  Kind kind = Kind::kOther;
  size_t begin = 0;  // bytes; of a row, including its continuation lines
  size_t end = 0;
  int line = 0;  // from 1
};

// Calls `take` for each line in the order of the text; blank lines are left out. A row continues in
// the lines below it until a blank line, a row, a size heading, or a line after its closing count
// or its full stop (which only a count may follow). Linear, in constant memory.
void ForEachLine(std::string_view text, const std::function<void(const TextLine&)>& take);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_LINES_H_
