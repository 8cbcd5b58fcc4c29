// The stitches of the text's rows against those of the chart, each pair of rows looked at once.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_STEPS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_STEPS_H_

#include <cstdint>
#include <optional>
#include <tuple>
#include <vector>

#include "absl/container/flat_hash_map.h"
#include "services/domain/rows/comparing/chart.h"
#include "services/domain/rows/comparing/difference.h"

namespace rowproof::rows {

// The stitches of a row in the text and in the chart.
struct RowCounts {
  int stitches = 0;
  int chain_spaces = 0;
  bool operator==(const RowCounts&) const = default;
};

struct ComparedSteps {
  std::optional<StitchFault> fault;
  RowCounts text;
  RowCounts chart;
};

// In one size. Not thread-safe.
class StepsComparer {
 public:
  // All outlive it.
  StepsComparer(const TextDocument& document, ChartRows& chart, const RowTerms& terms,
                ComparisonWork& work);

  // The steps of a line (index of TextDocument::rows, one that was read) worked as a row of the
  // chart.
  const ComparedSteps& Compare(int line, int worked);
  // The stitches of the line there, as the chart names them.
  std::vector<WorkedRun> TextRuns(int line, int worked);
  // Whether the line chains over each space as many chains as the row below has.
  bool CopiesChains(int line) { return FactsOf(line).copies_chains; }
  // How many of one kind of stitch the line and the chart's row have.
  int TextCount(int line, int worked, TextStitch stitch);
  int ChartCount(int worked, TextStitch stitch);

 private:
  // What is known of a line's steps without working them out.
  struct LineFacts {
    int64_t steps = 0;
    bool needs_below = false;  // to know the stitches below, not only their number
    bool copies_chains = false;
  };

  const LineFacts& FactsOf(int line);
  ExpandedText Expand(int line, int worked);

  const TextDocument& document_;
  ChartRows& chart_;
  RowTerms terms_;
  ComparisonWork& work_;
  std::vector<std::optional<LineFacts>> facts_;  // by line
  // By line, content, content of the row below where it matters, and whether that is reversed.
  absl::flat_hash_map<std::tuple<int, int, int, bool>, ComparedSteps> compared_;
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_STEPS_H_
