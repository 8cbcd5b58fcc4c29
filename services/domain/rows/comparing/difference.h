// Where the stitches of a written row differ from those of the chart. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_DIFFERENCE_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_DIFFERENCE_H_

#include <span>
#include <string>
#include <vector>

#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/text_expansion.h"

namespace rowproof::rows {

// What is alike for all rows of a comparison.
struct RowTerms {
  chart::Technique technique = chart::Technique::kSpike;
  chart::Terms terms = chart::Terms::kUs;
};

// How one row differs from the chart.
struct StitchFault {
  ComparisonCode code = ComparisonCode::kWrongStitch;
  // Stitches in working order, from 1; 0: the whole row.
  int first = 0;
  int last = 0;
  int off_by = 0;  // as in ComparisonFinding
  TextPlace at;    // of a repeat that does not fit; line 0: none
  // kWrongChains: all spaces differ by this many chains; 0: not all of them, or not alike.
  int chains_more = 0;
  std::string text_says;
  std::string chart_says;
  bool operator==(const StitchFault&) const = default;
};

// "sc", "ch 3, sk 2": one stitch or space in words. "1 st", "53 sts".
std::string Words(const WorkedRun& element, const RowTerms& terms);
std::string CountedStitches(int count);

// Both rows as runs of plain stitches, drops, other stitches and spaces, in working order; they
// are not equal. At most chart::kMostStitches elements each, as ExpandSteps sees to.
class RowDifference {
 public:
  RowDifference(std::span<const WorkedRun> text, std::span<const WorkedRun> chart,
                const RowTerms& terms);

  // Both take the same number of stitches: kWrongStitch or kWrongChains, from the first stitch that
  // differs to the last of its neighbours that differ too.
  StitchFault Exchanged() const;

  // The text takes more or fewer: the place where they diverge. A group that is left out or
  // repeated becomes kDroppedGroup or kDoubledGroup.
  void Place(StitchFault& fault) const;

 private:
  bool OnlyChains(StitchFault* fault) const;
  bool StandsBeside(std::span<const WorkedRun> block) const;
  std::string GroupWords(std::span<const WorkedRun> elements) const;

  // Each stitch and each space apart: runs of one.
  std::vector<WorkedRun> text_;
  std::vector<WorkedRun> chart_;
  RowTerms terms_;
  // How many elements both begin and end alike.
  size_t prefix_ = 0;
  size_t suffix_ = 0;
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_DIFFERENCE_H_
