// One written row against one row of the chart. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_ROW_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_ROW_H_

#include <optional>
#include <span>
#include <vector>

#include "services/domain/rows/comparing/difference.h"
#include "services/domain/rows/text_expansion.h"

namespace rowproof::rows {

// The text's runs as the chart has them: of kPlain, kDrop and chain spaces. Stitches that are
// neither plain nor the technique's drop stay what they are.
std::vector<WorkedRun> PlainAndDrop(std::span<const WorkedRun> runs, chart::Technique technique);

// `steps` are the row's, `expanded` their stitches over the row below as the chart has it, `chart`
// the chart's runs of the row, `stitches` those of its every row.
std::optional<StitchFault> CompareStitches(std::span<const TextStep> steps, int size,
                                           const ExpandedText& expanded,
                                           std::span<const WorkedRun> chart, int stitches,
                                           const RowTerms& terms);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_ROW_H_
