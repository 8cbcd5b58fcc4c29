// A text against the chart in one size: each row by itself, as if all others were right.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_SIZE_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_SIZE_H_

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/rows/comparing/chart.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/difference.h"

namespace rowproof::rows {

// By how many rows a text can be shifted and still be recognised: by one, or by two if its colours
// stay right.
inline constexpr std::array<int, 4> kShifts = {1, -1, 2, -2};

// One fault of one row in one size.
struct RowFault {
  ComparisonCode code = ComparisonCode::kWrongStitch;
  chart::Severity severity = chart::Severity::kError;
  // Row of the chart, from 1; 0: the foundation or a number that the chart does not have.
  int worked = 0;
  int number = 0;  // as written, of the text if the chart has none
  int line = -1;   // the line that names the row, and the one whose steps it works
  int source = -1;
  TextPlace at;
  // The chart's stitches, as in ComparisonFinding.
  int stitch = 0;
  int last_stitch = 0;
  int off_by = 0;
  int other_row = 0;
  int chains_more = 0;
  // Bit i: the row reads as the one kShifts[i] rows on.
  uint8_t shifts = 0;
  std::string text_says;
  std::string chart_says;
};

// Whether what differs are the row's stitches.
bool IsStitchFault(ComparisonCode code);

// How one row of the chart appears in the text.
struct RowStanding {
  Agreement agreement = Agreement::kMissing;
  int line = -1;
  // If stated; -1: not.
  int side = -1;
  int colour = -1;
  bool has_spaces = false;  // of so many chains as the text itself says
};

struct SizeComparison {
  std::vector<RowFault> faults;
  std::vector<RowStanding> rows;  // index 0 is worked row 1
};

// Compares and names causes (causes.h). If the work runs out, the result is meaningless.
SizeComparison CompareSize(const TextDocument& document, ChartRows& chart, const RowTerms& terms,
                           ComparisonWork& work);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_SIZE_H_
