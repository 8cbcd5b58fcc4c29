// Compares a designer's text with the chart, in every size, row by row and stitch by stitch.
//
// Each row is compared as if all others were right: "across", "to last N sts" and "in each st" are
// worked out over the row below as the chart has it, so that one fault stays one finding. The cause
// of many faults is named instead of them: rows read from the wrong edge, US and UK mixed, rows
// shifted, colours exchanged, a group dropped or doubled, a row that reads as another. The same
// fault in several sizes, or in rows that repeat the row at fault, is one finding.
//
// Values; thread-safe. Time is linear in the text, the rows and the stitches of the distinct rows;
// the written rows beside it cost what WriteRows costs.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_COMPARISON_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_COMPARISON_H_

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/design.h"
#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/writing/writer.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

// Raised whenever the same text and design could get other findings.
inline constexpr int kComparisonVersion = 2;
inline constexpr int kMostComparisonFindings = 1000;
// Steps read and stitches looked at: more than the largest chart in ten sizes needs.
inline constexpr int64_t kMostComparisonWork = 500'000'000;

enum class ComparisonCode : uint8_t {
  kWrongStitch,      // as many stitches as there are, but not those of the chart
  kWrongChains,      // a chain space of another number of chains
  kWrongCount,       // more or fewer stitches than there are
  kLeavesOver,       // repeats that leave stitches of the row below over
  kRunsShort,        // repeats that need more stitches than there are
  kDroppedGroup,     // one group of stitches is left out
  kDoubledGroup,     // one group of stitches occurs twice
  kWrongEdge,        // the row's stitches in the other order
  kMixedTerms,       // right if dc, tr are read in the other system of terms
  kReadsAsOtherRow,  // the stitches of another row of the chart
  kRowsShifted,      // several successive rows, each with the stitches of a neighbouring row
  kWrongColour,
  kColoursExchanged,  // every row of a colour is called by another
  kWrongSide,         // RS and WS
  kWrongStatedCount,  // the count that closes the row
  kNoStatedCount,     // note: rows without a closing count
  kMissingRow,
  kDoubledRow,
  kMisplacedRow,
  kWrongNumber,      // a row that reads as a missing one, and is in its place
  kRowTooMany,       // a number that the chart does not have
  kWrongFoundation,  // chains, colour or ring
  kIntoChain,        // "in Nth ch from hook" if it does not fit
  kTurnDoesNotFit,   // warning: "turn", "do not turn" against the sides of the rows
  kOtherChains,      // warning: all chain spaces are longer or shorter by the same number
  kSideLeftOut,      // note: rows that say neither RS nor WS, if it is not certain
  kColourLeftOut,    // note: rows that name no colour, if it is not certain
};
inline constexpr size_t kComparisonCodes = 27;

// One fault.
struct ComparisonFinding {
  ComparisonCode code = ComparisonCode::kWrongStitch;
  chart::Severity severity = chart::Severity::kError;
  // Indices of the sizes in which it occurs, ascending; not empty.
  std::vector<int> sizes;
  // The row's number as the written rows count, in the first of the sizes; of the foundation, one
  // less than the first row's. `rows`: all rows concerned there, ascending, this one included.
  int row = 0;
  std::vector<int> rows;
  int chart_row = 0;  // from 1; 0: none (foundation, a number that the chart does not have)
  // The chart's stitches concerned, from 1, ascending; 0: the whole row. Of several repetitions or
  // places, the first that the maker meets.
  int stitch = 0;
  int last_stitch = 0;
  // By size (parallel to `sizes`): stitches or chains that the row is too long (above 0) or too
  // short (below 0); of kWrongStitch and kReadsAsOtherRow, how many stitches differ.
  std::vector<int> off_by;
  // kReadsAsOtherRow: the number of the row that it reads as. kWrongNumber: the number it has in
  // the text (`row` is the one that it reads as). kRowsShifted: by how many rows (1: each reads as
  // the next one).
  int other_row = 0;
  // Index of TextDocument::rows, -1: none; and its place in the text (line 0: none).
  int line = -1;
  TextPlace at;
  std::string text_says;   // short: "sc", "57 sts", "colour B"
  std::string chart_says;  // likewise
  // The row as WriteRows writes it; empty if the chart has no such row.
  std::string corrected;

  bool operator==(const ComparisonFinding&) const = default;
};

enum class Agreement : uint8_t {
  kAgrees,
  kDiffers,  // in at least one size
  kMissing,  // the text has no such row, in at least one size
  kNotRead,  // could not be read, or repeats a row that could not
  kTooMany,  // the chart has no such row
};

// One row for a technical editor.
struct ComparedRow {
  // In the first size that works it, and by size (kNotWorked if a size does not).
  int number = 0;
  std::vector<int> numbers;
  int chart_row = 0;  // 0: none
  Agreement agreement = Agreement::kAgrees;
  // If not empty: the chart's text holds for this size alone.
  std::string heading;
  std::string text;   // the designer's line that names the row; empty: none
  std::string chart;  // the row as WriteRows writes it; empty: none
  bool operator==(const ComparedRow&) const = default;
};

struct Comparison {
  // What could not be read (reader.h); its errors count as well.
  std::vector<TextFinding> reading;
  // Errors first, then by row and stitch; kMostComparisonFindings at most.
  std::vector<ComparisonFinding> findings;
  // True totals, those of reading included.
  int64_t error_count = 0;
  int64_t warning_count = 0;
  int64_t note_count = 0;
  std::vector<ComparedRow> rows;  // in working order; numbers that the chart does not have last
  std::vector<std::string> sizes;
  // As declared, recognised, or the first of the two if nothing says so.
  chart::Terms terms = chart::Terms::kUs;
  // Text and chart say the same in every size.
  bool equal() const { return error_count == 0; }
  bool operator==(const Comparison&) const = default;
};

struct ComparisonSettings {
  // For whom the text is written.
  chart::Hand hand = chart::Hand::kRight;
  // Not set: as the text declares or shows.
  std::optional<chart::Terms> terms;
  std::vector<ColourName> colours;
  std::vector<DefinedStitch> definitions;
  int64_t work_budget = kDefaultWorkBudget;  // of writing the rows
};

// Errors: those of ReadRows for the text and the settings, those of WriteRows for the design;
//   RESOURCE_EXHAUSTED OVER_LIMIT: the text takes more than kMostComparisonWork to compare
//   the stop's status if the work has to stop
absl::StatusOr<Comparison> CompareRows(const chart::Design& design, std::string_view text,
                                       const ComparisonSettings& settings = {},
                                       const Stop& stop = {});

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_COMPARISON_H_
