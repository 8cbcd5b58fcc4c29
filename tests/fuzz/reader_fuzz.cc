// Reads any bytes as written rows, in one size and in three, and expands what was read: within
// limits, and the same each time. The first byte chooses terms and sizes.
#include <cstdint>
#include <string_view>

#include "services/domain/chart/grid.h"
#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/text_expansion.h"
#include "services/domain/rows/text_rows.h"

namespace {

using namespace rowproof::rows;
using rowproof::chart::kMostRows;
using rowproof::chart::kMostStitches;

void Demand(bool holds) {
  if (!holds) __builtin_trap();
}

void CheckFindings(const TextDocument& document) {
  Demand(document.findings.size() <= static_cast<size_t>(kMostTextFindings));
  Demand(document.error_count + document.warning_count + document.note_count >=
         static_cast<int64_t>(document.findings.size()));
  for (const TextFinding& finding : document.findings) {
    Demand(finding.at.line >= 1 && finding.at.column >= 1 && !Sentence(finding).empty());
  }
}

void Expand(const TextDocument& document, int size) {
  std::vector<WorkedRun> below;
  int left = 500;  // rows, so that one input stays quick
  for (const PlacedRow& row : RowsOfSize(document, size)) {
    if (row.worked < 0 || --left < 0) continue;
    const TextRow& text = document.rows[static_cast<size_t>(row.worked)];
    const ExpandedText expanded = ExpandSteps(text.steps, size, {60, below});
    Demand(expanded.stitches + expanded.chain_spaces <= kMostStitches);
    int64_t stitches = 0;
    for (const WorkedRun& run : expanded.runs) {
      Demand(run.count >= 1 && run.chains >= 0 && run.skipped >= 0);
      if (run.kind == WorkedRun::Kind::kStitches) stitches += run.count;
    }
    Demand(stitches == expanded.stitches);
    Demand(ExpandSteps(text.steps, size, {60, below}) == expanded);
    below = Reversed(expanded.runs);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  if (size == 0) return 0;
  ReaderSettings settings;
  if (data[0] % 3 != 2) settings.terms = static_cast<rowproof::chart::Terms>(data[0] % 3);
  if (data[0] / 3 % 2 == 1) settings.sizes = {"S", "M", "L"};
  settings.colours = {{"dark blue", rowproof::chart::Colour::kB}};
  const auto document = ReadRows({reinterpret_cast<const char*>(data) + 1, size - 1}, settings);
  if (!document.ok()) return 0;
  CheckFindings(*document);
  Demand(RowsOfSize(*document, 0).size() <= 2 * static_cast<size_t>(kMostRows));
  for (int of = 0; of < document->size_count() && of < 3; ++of) Expand(*document, of);
  return 0;
}
