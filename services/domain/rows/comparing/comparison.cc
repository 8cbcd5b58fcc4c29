#include "services/domain/rows/comparing/comparison.h"

#include <algorithm>
#include <utility>

#include "absl/container/flat_hash_map.h"
#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/rows/comparing/merge.h"
#include "services/domain/rows/comparing/rows.h"
#include "services/domain/rows/comparing/size.h"
#include "services/domain/rows/index.h"
#include "services/domain/rows/writing/row_sequence.h"
#include "services/domain/status_macros.h"

namespace rowproof::rows {
namespace {

// Names of all the design's colours as the text and the settings have them, in the order of the
// letters; none if one has no name.
std::vector<std::string> NamesOf(const chart::Design& design, const TextDocument& document) {
  size_t colours = 0;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    colours = std::max(colours, static_cast<size_t>(chart::RowColour(design, row)) + 1);
  }
  if (design.foundation_colour.has_value()) {
    colours = std::max(colours, static_cast<size_t>(*design.foundation_colour) + 1);
  }
  std::vector<std::string> names(colours);
  for (const ColourName& name : document.colours) {
    const auto colour = static_cast<size_t>(name.colour);
    if (colour < colours && names[colour].empty()) names[colour] = name.name;
  }
  const bool all = std::none_of(names.begin(), names.end(),
                                [](const std::string& name) { return name.empty(); });
  return all ? names : std::vector<std::string>();
}

// Whether the rows call colours by their names: one of the first rows does.
bool UsesNames(const TextDocument& document, std::string_view text,
               const std::vector<std::string>& names) {
  constexpr size_t kRowsLookedAt = 20;
  for (size_t i = 0; i < std::min(kRowsLookedAt, document.rows.size()); ++i) {
    const TextRow& row = document.rows[i];
    const std::string_view line = text.substr(row.begin, row.end - row.begin);
    for (const std::string& name : names) {
      if (name.size() > 1 && line.find(name) != std::string_view::npos) return true;
    }
  }
  return false;
}

// In the words of the text as far as it shows them, each row apart.
absl::StatusOr<WrittenPattern> WriteBeside(const chart::Design& design,
                                           const TextDocument& document, std::string_view text,
                                           const ComparisonSettings& settings) {
  WriterSettings written;
  written.hand = settings.hand;
  written.terms = document.terms.value_or(chart::Terms::kUs);
  written.every_row = true;
  written.work_budget = settings.work_budget;
  const std::vector<std::string> names = NamesOf(design, document);
  if (UsesNames(document, text, names)) {
    written.colour_names = names;
    auto pattern = WriteRows(design, written);
    // A name that only the text's own rows can have ("Row", two alike) leaves the letters.
    if (pattern.ok()) return pattern;
    written.colour_names.clear();
  }
  return WriteRows(design, written);
}

void Count(Comparison& comparison, chart::Severity severity) {
  switch (severity) {
    case chart::Severity::kError:
      ++comparison.error_count;
      return;
    case chart::Severity::kWarning:
      ++comparison.warning_count;
      return;
    case chart::Severity::kNote:
      ++comparison.note_count;
      return;
  }
}

}  // namespace

absl::StatusOr<Comparison> CompareRows(const chart::Design& design, std::string_view text,
                                       const ComparisonSettings& settings) {
  RETURN_IF_ERROR(chart::Validate(design));
  ReaderSettings reading;
  reading.terms = settings.terms;
  reading.colours = settings.colours;
  reading.definitions = settings.definitions;
  for (const chart::Size& size : design.sizes) reading.sizes.push_back(size.name);
  ASSIGN_OR_RETURN(auto document, ReadRows(text, reading));
  ASSIGN_OR_RETURN(auto written, WriteBeside(design, document, text, settings));

  Comparison comparison;
  comparison.sizes = document.sizes;
  comparison.terms = document.terms.value_or(chart::Terms::kUs);
  const RowTerms terms{design.technique, comparison.terms};
  const RowSequences sequences = SequenceRows(design, settings.hand);
  ComparisonWork work{kMostComparisonWork};
  EditorRows rows(document, text, written);
  FaultMerger merger;
  for (int size = 0; size < document.size_count(); ++size) {
    ChartRows chart(design, sequences, size, settings.hand, work);
    const SizeComparison compared = CompareSize(document, chart, terms, work);
    if (work.ran_out()) {
      return OverLimit("comparing this text",
                       fmt::format("{} steps and stitches", kMostComparisonWork));
    }
    merger.AddSize(chart, compared.faults);
    rows.AddSize(chart, compared);
  }
  comparison.findings = merger.Take();
  comparison.error_count = document.error_count;
  comparison.warning_count = document.warning_count;
  comparison.note_count = document.note_count;
  comparison.reading = std::move(document.findings);
  for (const ComparisonFinding& finding : comparison.findings) {
    Count(comparison, finding.severity);
  }
  if (comparison.findings.size() > Index(kMostComparisonFindings)) {
    comparison.findings.resize(Index(kMostComparisonFindings));
  }
  for (ComparisonFinding& finding : comparison.findings) {
    finding.corrected = rows.Corrected(finding.sizes.front(), finding.row);
  }
  comparison.rows = rows.Take();
  return comparison;
}

}  // namespace rowproof::rows
