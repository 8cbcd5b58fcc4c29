// Reads rows as designers write them: text in the trade's usual forms, US or UK terms, any number
// of sizes. What is read, and how, is in reader_grammar.md beside this file.
//
//   ReadRows        text -> rows as written, with what could not be read
//   RowsOfSize      -> the rows of one size in the order in which they are worked (text_rows.h)
//   ExpandSteps     -> one row's stitches in one size (text_expansion.h)
//
// Never a guess: what can be understood in two ways is a finding. One row that cannot be read is
// one finding; reading continues with the next row. Time is linear in the text; nesting, numbers,
// rows and stitches are checked against a limit before anything is worked out. Values; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_READER_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_READER_H_

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/rows/text_row.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

inline constexpr size_t kLongestText = size_t{4} << 20;  // bytes
inline constexpr int kMostTextRows = 20'000;             // heads in a text
inline constexpr size_t kLongestRow = 256 << 10;         // bytes, including continuation lines
inline constexpr int kMostSteps = 1'000'000;             // in a text
inline constexpr int kDeepestReadNesting = 12;           // repeats within repeats
inline constexpr int kLargestNumber = 99'999;            // any number in a text
inline constexpr int kMostTextFindings = 1000;
inline constexpr size_t kMostColourNames = 64;  // in the settings
inline constexpr int kMostDefinedStitches = 32;
inline constexpr size_t kLongestStitchName = 12;  // letters

// A name for a colour's letter, as in "Colour A: dark blue" or "MC".
struct ColourName {
  std::string name;
  chart::Colour colour = chart::Colour::kA;
  bool operator==(const ColourName&) const = default;
};

// Those of colours A, B, ... in this order, at most chart::kMostColours.
std::vector<ColourName> ColourNames(const std::vector<std::string>& names);

// A stitch that a text defines itself: letters only, compared without regard to capitals.
struct DefinedStitch {
  std::string name;
  TextStitch meaning = TextStitch::kDrop;
  bool operator==(const DefinedStitch&) const = default;
};

struct ReaderSettings {
  // Not set: the text's own declaration ("Terms: US", "UK terms"), else the words that only one
  // system has (reader_grammar.md), else unknown.
  std::optional<chart::Terms> terms;
  // In the order of number lists, unless the text's "Sizes: M (S, L)" names the same sizes in
  // another; a text that names others is at fault. Empty: the text's own, else one size.
  std::vector<std::string> sizes;
  std::vector<ColourName> colours;         // besides the letters A to H
  std::vector<DefinedStitch> definitions;  // besides those of the text
};

enum class TextFindingCode : uint8_t {
  kUnreadable,     // a row, a heading or a foundation that cannot be read
  kTooMuch,        // nesting, a number, stitches or rows beyond a limit
  kWrongList,      // a list by size that does not have one number a size
  kTwoReadings,    // what can be understood in two ways
  kContradiction,  // the row says two things of its colour or side; the text of its sizes
  kUnknownTerms,   // dc, tr or dtr in a text of which US or UK is not certain
  kMixedTerms,     // a word of the other system (warning; read as what it says)
  kUnknownColour,
  kUnknownSize,
  kUnknownSource,   // a row repeated before it is written
  kRowsDoNotAddUp,  // "Rows 9-25: rep Rows 1-8 twice"
  kPassedOver,      // a line among the rows that is no row (note)
};

struct TextFinding {
  TextFindingCode code = TextFindingCode::kUnreadable;
  chart::Severity severity = chart::Severity::kError;
  TextPlace at;
  // Index of TextDocument::rows, -1: none.
  int row = -1;
  std::string met;   // as in the text, cut to 40 characters; may be empty
  std::string fits;  // what would fit there, for people
  bool operator==(const TextFinding&) const = default;
};

const char* CodeName(TextFindingCode code);  // "unreadable-row", ...
// "Line 12, column 8: expected a stitch, a bracket or the row's end, found \"sx\"."
std::string Sentence(const TextFinding& finding);

struct TextDocument {
  std::optional<chart::Terms> terms;
  bool terms_declared = false;     // by the settings or the text, not from words
  std::vector<std::string> sizes;  // at least one; {"one size"} if none are named
  std::vector<ColourName> colours;
  std::vector<DefinedStitch> definitions;
  std::optional<TextFoundation> foundation;
  std::vector<TextRow> rows;  // in the order of the text
  // By place; kMostTextFindings at most.
  std::vector<TextFinding> findings;
  int64_t error_count = 0;  // true totals
  int64_t warning_count = 0;
  int64_t note_count = 0;
  bool complete() const { return error_count == 0; }
  int size_count() const { return static_cast<int>(sizes.size()); }
};

// Errors:
//   INVALID_ARGUMENT  `text`: longer than kLongestText, no UTF-8, a control character other than
//                     line ends, tabs and form feeds; `sizes`: more than chart::kMostSizes;
//                     `colour_names`: more than kMostColourNames, a name that is empty or over
//                     kLongestColourName (writer.h); `definitions`: a name that is empty, too long,
//                     no letters or taken
//   the stop's status if the work has to stop
absl::StatusOr<TextDocument> ReadRows(std::string_view text, const ReaderSettings& settings = {},
                                      const Stop& stop = {});

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_READER_H_
