// Writes a design's rows as a maker reads them, from its chart alone. The text, US terms:
//   Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (34 sts)
//   Row 7 (RS, A): sc 4, [ssc, sc 2] 9 times, sc 3. (34 sts)
//   Rows 11-26: rep Rows 3-10 twice.
// Its grammar, what its numbers mean and what it costs are stated in writer_grammar.md.
//
// Everything is a value; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_WRITER_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_WRITER_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

inline constexpr int kDeepestNesting = 6;
inline constexpr int64_t kDefaultWorkBudget = 200'000'000;
// The row number of a line in a size that does not work it.
inline constexpr int kNotWorked = -1;

// kBrackets: "[ssc, sc 2] 9 times". kAsterisk: "*ssc, sc 2; rep from * to last 3 sts" for one
// group of a row, the declared band or else the largest, and brackets for the others and within.
enum class RepeatStyle : uint8_t { kBrackets, kAsterisk };

inline constexpr size_t kLongestColourName = 40;  // bytes of UTF-8

struct WriterSettings {
  chart::Hand hand = chart::Hand::kRight;
  chart::Terms terms = chart::Terms::kUs;
  RepeatStyle style = RepeatStyle::kBrackets;
  // What the heads of rows call colours A, B, ... in this order; empty: by their letters. A name is
  // needed for each colour of the design then. Letters, digits, spaces, hyphens and apostrophes, at
  // most kLongestColourName bytes, no two alike, none that is another colour's letter.
  std::vector<std::string> colour_names = {};
  // Brackets within brackets, 0 to kDeepestNesting. A declared stitch band that some size works
  // more than once is written as a bracket in any case.
  int nesting_depth = 2;
  // Every row written out, none as a repeat of others.
  bool every_row = false;
  // Elementary steps of the search for the shortest form, over the whole pattern. At least 1.
  int64_t work_budget = kDefaultWorkBudget;
};

// How rows are asked for: what is not set is left to others, at last to WriterSettings' usual
// values.
struct RowStyle {
  std::optional<chart::Hand> hand;
  std::optional<chart::Terms> terms;
  std::optional<RepeatStyle> repeats;
  std::optional<int> nesting_depth;
  bool every_row = false;
  std::vector<std::string> colour_names;

  bool operator==(const RowStyle&) const = default;
};

// What `asked` leaves open, `usual` fills.
RowStyle Filled(RowStyle asked, const RowStyle& usual);
WriterSettings SettingsOf(const RowStyle& style);

struct WrittenRow {
  enum class Kind : uint8_t { kWorked, kRepeat };

  Kind kind = Kind::kWorked;
  // If not empty, a line to print before this one: from here on the text is for the named size only
  // ("Size L:"). Only if no common text is exact in every size.
  std::string heading;
  std::string text;  // the whole line
  // Row numbers as written (the first worked row has design.first_row_number), in the first size
  // that works the line; and in every size, kNotWorked if it does not.
  int number = 0;
  int last_number = 0;
  std::vector<int> numbers;
  std::vector<int> last_numbers;
  // Of the (first) row: its chart row, side and colour, and its stitches in every size (0 in a size
  // that does not work the line).
  int chart_row = 0;
  chart::Side side = chart::Side::kRightSide;
  chart::Colour colour = chart::Colour::kA;
  std::vector<int> stitch_counts;
  // Its chain spaces likewise (inset).
  std::vector<int> chain_space_counts;
  // A term 1, a bracket 1 and its inside; a repeat kRepeatCost.
  int cost = 0;
  // kRepeat: the numbers of the rows that are worked again, and how often, in every size.
  std::vector<int> repeated_first;
  std::vector<int> repeated_last;
  std::vector<int> times;

  bool operator==(const WrittenRow&) const = default;
};

// What a repeat line costs against the rows that it saves; a row that costs no more is written out.
inline constexpr int kRepeatCost = 2;

struct WrittenPattern {
  std::vector<WrittenRow> rows;
  // "sc - single crochet": those that the text uses, and only those, by alphabet.
  std::vector<std::string> abbreviations;
  // How to work what has no common name: the drop, the loops of a plain stitch, chain spaces, a
  // row's start and end, RS.
  std::vector<std::string> special_stitches;
  // Terms, sizes, gauge, multiple, foundation, colours, reading direction, marks, hand. The first
  // is the caution on terms.
  std::vector<std::string> notes;
  // The search was cut short: the text is exact, but some row may have a shorter form.
  bool budget_ran_out = false;

  bool operator==(const WrittenPattern&) const = default;
};

// Writes all sizes of a design. Each row has the least cost over all nestings of brackets up to the
// depth, exact over the stitches (a bracket may split a run); a declared stitch band takes
// precedence, its parts each shortest. Equal costs are settled the same way always: a run before a
// bracket, then the shorter unit, then more copies, from the row's end. Rows that repeat earlier
// rows are written as such if stitches in working order, colour and side all agree, in every
// size. Time grows linearly with the rows.
//
// A design need not be workable (a draft is written too, and its findings are Check's to tell), but
// its rows must mean something:
//   INVALID_ARGUMENT    the design is not well formed; a setting is out of its range
//   FAILED_PRECONDITION UNCOVERED_TOP_ROW: an off-colour cell in a picture's last row has no row in
//                       which it could be worked; DROP_IN_FIRST_ROW: the chart's first row has
//                       nothing two rows below.
//   the stop's status   the work has to stop
absl::StatusOr<WrittenPattern> WriteRows(const chart::Design& design,
                                         const WriterSettings& settings = {},
                                         const Stop& stop = {});

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_WRITER_H_
