#include "services/domain/chart/repair.h"

#include <algorithm>
#include <bit>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/alternatives.h"
#include "services/domain/chart/design_findings.h"
#include "services/domain/chart/kept_marks.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"

namespace rowproof::chart {
namespace {

// One condition for each code, by its first finding.
absl::Status RequireMendable(const Design& design) {
  std::vector<UnmetCondition> conditions;
  for (const Finding& finding : UnmendableErrors(design)) {
    const char* code = CodeName(finding.code);
    const bool named = std::any_of(conditions.begin(), conditions.end(),
                                   [code](const auto& known) { return known.subject == code; });
    if (!named) conditions.push_back({"CELLS_CANNOT_MEND", code, Sentence(finding, design)});
  }
  if (conditions.empty()) return absl::OkStatus();
  std::string sentence = fmt::format("changing cells cannot mend {}: {}",
                                     conditions.front().subject, conditions.front().description);
  return UnmetConditions(sentence, std::move(conditions));
}

}  // namespace

absl::StatusOr<Repair> FindRepair(const Design& design) {
  if (auto status = RequireMendable(design); !status.ok()) return status;
  Repair repair;
  repair.repaired = design.cells;
  const MarkRemover remover(design);
  repair.edit_count = remover.Count();
  if (repair.edit_count == 0) return repair;
  repair.edits.reserve(static_cast<size_t>(repair.edit_count));
  remover.Visit([&repair](int row, std::span<const uint64_t> removed) {
    const auto cells = repair.repaired.mutable_row(row);
    for (size_t i = 0; i < cells.size(); ++i) {
      cells[i] ^= removed[i];
      for (uint64_t word = removed[i]; word != 0; word &= word - 1) {
        const int bit = std::countr_zero(word);
        repair.edits.push_back(
            {row, static_cast<int>(i * 64) + bit + 1, (cells[i] >> bit & 1) != 0});
      }
    }
  });
  repair.alternatives = AlternativesOf(design);
  return repair;
}

}  // namespace rowproof::chart
