// Reads a written pattern back, one size at a time: a strict reader of exactly the grammar that
// writer.h states. It shares no code with the writer.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_TEXT_READER_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_TEXT_READER_H_

#include <map>
#include <string>
#include <vector>

namespace rowproof::rows {

struct ReadRow {
  std::string side;      // "RS", "WS"
  std::string colour;    // "A", "B"
  std::string stitches;  // in working order, '.' plain and 'x' drop
  bool operator==(const ReadRow&) const = default;
};

struct ReadPattern {
  std::map<int, ReadRow> rows;  // by number
  std::string error;            // empty where every line was read
};

// `lines`: headings and rows, as printed. `size` of `size_names`; `chain`: the stitches of the
// first row, which its text does not give.
ReadPattern ReadBack(const std::vector<std::string>& lines,
                     const std::vector<std::string>& size_names, size_t size, int chain);

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_TEXT_READER_H_
