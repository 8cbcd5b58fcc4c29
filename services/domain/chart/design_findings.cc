#include "services/domain/chart/design_findings.h"

#include <algorithm>

#include "services/domain/chart/technique.h"

namespace rowproof::chart {

std::vector<Finding> FindingsOfDesign(const Design& design, const RowStructure& structure) {
  std::vector<Finding> findings;
  const auto add = [&findings](FindingCode code, Severity severity, int row, Seam seam,
                               SizeSet sizes) {
    findings.push_back({code, severity, row, 0, 0, seam, FirstSize(sizes), SizeCount(sizes)});
  };
  if (WhyEndsDoNotFit(design) != nullptr) {
    add(FindingCode::kEndsDoNotFit, Severity::kError, 0, Seam::kNone, structure.all_sizes);
  }
  if (structure.odd_band) {
    add(FindingCode::kOddRowRepeat, Severity::kError, design.row_band->first, Seam::kNone,
        structure.all_sizes);
  } else if (design.row_band.has_value() && design.row_band->length() % FacingPeriod(design) != 0) {
    add(FindingCode::kFacingRepeat, Severity::kWarning, design.row_band->first, Seam::kNone,
        structure.all_sizes);
  }
  const Severity order = NeedsAlternation(design) ? Severity::kError : Severity::kWarning;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const RowFacts& facts = structure.facts[static_cast<size_t>(row - 1)];
    if (facts.same_colour == 0) continue;
    add(FindingCode::kColourOrder, order, row,
        facts.same_colour_drawn ? Seam::kNone : Seam::kRowRepeat, facts.same_colour);
  }
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& one, const Finding& other) { return one.row < other.row; });
  return findings;
}

}  // namespace rowproof::chart
