// Compares any bytes as a text with small charts, of spike in three sizes and of inset: within
// limits, consistent in itself, and the same each time. The first byte chooses chart, hand and
// terms.
#include <algorithm>
#include <cstdint>
#include <string_view>

#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/sentences.h"

namespace {

using namespace rowproof::rows;
namespace chart = rowproof::chart;

void Demand(bool holds) {
  if (!holds) __builtin_trap();
}

chart::Design Spike() {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(6, 7);
  for (const auto& [row, stitch] : {std::pair{3, 2}, {3, 5}, {4, 3}, {5, 5}, {6, 2}}) {
    design.cells.set(row, stitch, true);
  }
  design.stitch_band = chart::Band{3, 5};
  design.row_band = chart::Band{3, 4};
  design.sizes = {{"S", 1, 1}, {"M", 2, 1}, {"L", 3, 2}};
  return design;
}

chart::Design Inset() {
  chart::Design design;
  design.technique = chart::Technique::kInset;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(4, 7);
  for (const auto& [row, stitch] : {std::pair{2, 3}, {2, 4}, {3, 6}}) {
    design.cells.set(row, stitch, true);
  }
  return design;
}

void CheckFinding(const ComparisonFinding& finding, const Comparison& compared) {
  const size_t sizes = compared.sizes.size();
  Demand(!finding.sizes.empty() && finding.sizes.size() <= sizes);
  Demand(std::is_sorted(finding.sizes.begin(), finding.sizes.end()));
  Demand(finding.sizes.front() >= 0 && finding.sizes.back() < static_cast<int>(sizes));
  Demand(finding.off_by.size() == finding.sizes.size());
  Demand(std::is_sorted(finding.rows.begin(), finding.rows.end()));
  Demand(std::count(finding.rows.begin(), finding.rows.end(), finding.row) == 1);
  Demand(finding.stitch >= 0 && finding.stitch <= finding.last_stitch && finding.last_stitch <= 7);
  Demand(!Sentence(finding, compared).empty());
  Demand((finding.chart_row > 0) == !finding.corrected.empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  if (size == 0) return 0;
  static const chart::Design kSpike = Spike();
  static const chart::Design kInset = Inset();
  const chart::Design& design = data[0] % 2 == 0 ? kSpike : kInset;
  ComparisonSettings settings;
  settings.hand = static_cast<chart::Hand>(data[0] / 2 % 2);
  if (data[0] / 4 % 3 != 2) settings.terms = static_cast<chart::Terms>(data[0] / 4 % 3);
  const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
  const auto compared = CompareRows(design, text, settings);
  if (!compared.ok()) return 0;
  Demand(compared->findings.size() <= static_cast<size_t>(kMostComparisonFindings));
  int64_t errors = 0;
  for (const ComparisonFinding& finding : compared->findings) {
    CheckFinding(finding, *compared);
    errors += finding.severity == chart::Severity::kError;
  }
  Demand(compared->error_count >= errors);
  bool agree = true;
  for (const ComparedRow& row : compared->rows) agree &= row.agreement == Agreement::kAgrees;
  Demand(agree || !compared->equal());
  const auto again = CompareRows(design, text, settings);
  Demand(again.ok() && *again == *compared);
  return 0;
}
