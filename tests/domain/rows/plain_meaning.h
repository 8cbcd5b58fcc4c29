// What a read text says, worked out as plainly as can be: rows as strings, stitch by stitch. Shares
// with the service only the reading of words into steps; expansion, references, sizes and counts
// are its own.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_PLAIN_MEANING_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_PLAIN_MEANING_H_

#include <map>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/reading/reader.h"

namespace rowproof::rows {

// One worked row in one size.
struct PlainRow {
  int number = 0;
  std::string says;  // side, colour, stitches, counts that are wrong, where it begins
  bool operator==(const PlainRow&) const = default;
};
// By size, in the order of the text; the foundation is a row of its own.
using PlainSizes = std::vector<std::vector<PlainRow>>;

// An element of a row: a stitch, or a chain space over so many stitches.
struct PlainElement {
  std::string says;
  int width = 1;
  bool space = false;
};
using PlainElements = std::vector<PlainElement>;

// Texts of one design, beside one that is right: of that a row has the row below (for chain
// spaces), a side or colour that it does not say, and the counts that it ought to state.
class PlainReading {
 public:
  // All outlive it; `stitches` by size.
  PlainReading(const chart::Design& design, const std::vector<int>& stitches,
               const TextDocument& right);

  PlainSizes Meaning(const TextDocument& document) const;

 private:
  struct RightRow {
    std::string side;
    std::string colour;
    PlainElements elements;
    PlainElements as_below;  // as the row above meets them
  };
  struct Placed;

  static std::vector<Placed> Place(const TextDocument& document, int size);
  std::string Said(const Placed& row, int size) const;
  PlainElements ElementsOf(const Placed& row, int size, const PlainElements& below) const;

  const chart::Design& design_;
  const std::vector<int>& stitches_;
  std::vector<std::map<int, RightRow>> right_;  // by size, by number
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_PLAIN_MEANING_H_
