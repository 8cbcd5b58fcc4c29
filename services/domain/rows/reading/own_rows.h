// Whether a row of a designer's own text reads the same in two versions of the text.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_OWN_ROWS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_OWN_ROWS_H_

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/text_rows.h"

namespace rowproof::rows {

// One text, read. Const access is thread-safe.
class OwnRows {
 public:
  // The design says how the text's sizes are called and what number worked row 1 has. A text that
  // ReadRows refuses has no rows. `terms` as in ReaderSettings; `colour_names` are those of colours
  // A, B, ... besides their letters.
  OwnRows(const chart::Design& design, std::string text, std::optional<chart::Terms> terms,
          const std::vector<std::string>& colour_names);

  // Whether the text says the same of worked row `row` (from 1) of `size` as `other` does of its
  // own: side, colour, start and end, steps and closing count, those of the repeated row if it
  // repeats one. Spelling, punctuation, the row's number and the counts of other sizes do not
  // matter; other repeats, and a label or count more or less, do. Rows that neither text has are
  // the same. A row that cannot be read is compared letter by letter.
  bool SameRow(int size, int row, const OwnRows& other, int other_size, int other_row) const;

 private:
  using Row = std::span<const PlacedRow>;  // all that have one number

  Row RowsAt(int size, int row) const;
  const TextRow& Line(int line) const { return document_.rows[static_cast<size_t>(line)]; }
  std::string_view TextOf(int line) const;
  bool SamePlaced(const PlacedRow& row, int size, const OwnRows& other, const PlacedRow& its,
                  int other_size) const;

  std::string text_;
  int first_number_;
  TextDocument document_;
  std::vector<std::vector<PlacedRow>> sizes_;  // by number; in the order of the text within one
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_OWN_ROWS_H_
