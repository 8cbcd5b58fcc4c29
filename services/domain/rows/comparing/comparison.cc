#include "services/domain/rows/comparing/comparison.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>

#include "absl/container/flat_hash_map.h"
#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/rows/comparing/rows.h"
#include "services/domain/rows/comparing/size.h"
#include "services/domain/rows/index.h"
#include "services/domain/rows/writing/row_sequence.h"
#include "services/domain/status_macros.h"

namespace rowproof::rows {
namespace {

// Joins the faults of several sizes, and those that follow from one line, into findings.
class FaultMerger {
 public:
  // The faults of one size, sizes ascending. `chart` is that size's.
  void AddSize(const ChartRows& chart, const std::vector<RowFault>& faults);

  // Errors first, then by row, stitch and code; all of them, without corrected rows.
  std::vector<ComparisonFinding> Take();

 private:
  // Code, line, line of the steps, chart row, stitch, last stitch, and which of those alike.
  using Key = std::tuple<ComparisonCode, int, int, int, int, int, int>;

  void Add(ComparisonFinding finding, int source, std::map<Key, int>& met);

  std::vector<ComparisonFinding> findings_;
  std::map<Key, size_t> by_key_;  // index of findings_
};

// What the whole text has in common: one finding, whatever the lines.
bool IsOfWholeText(ComparisonCode code) {
  switch (code) {
    case ComparisonCode::kWrongEdge:
    case ComparisonCode::kMixedTerms:
    case ComparisonCode::kColoursExchanged:
    case ComparisonCode::kNoStatedCount:
    case ComparisonCode::kOtherChains:
      return true;
    default:
      return false;
  }
}

// Whether the line that names the row has the fault; else the one whose steps it works.
bool IsOfLine(ComparisonCode code) {
  return !IsStitchFault(code) || code == ComparisonCode::kReadsAsOtherRow;
}

// Faults of one size with equal keys are one finding.
using RowKey = std::tuple<ComparisonCode, int, int, int, int, int, std::string, std::string>;

RowKey KeyOf(ComparisonCode code, int by) { return {code, by, 0, 0, 0, 0, "", ""}; }

// What neighbouring rows have in common: one finding a run of rows.
bool IsOfRun(ComparisonCode code) {
  return code == ComparisonCode::kMissingRow || code == ComparisonCode::kSideLeftOut ||
         code == ComparisonCode::kColourLeftOut;
}

RowKey KeyOf(const RowFault& fault, int run) {
  if (IsOfRun(fault.code)) return KeyOf(fault.code, run);
  switch (fault.code) {
    case ComparisonCode::kRowTooMany:
    case ComparisonCode::kDoubledRow:
    case ComparisonCode::kMisplacedRow:
      return KeyOf(fault.code, fault.line);
    case ComparisonCode::kRowsShifted:
      return KeyOf(fault.code, fault.source);
    default:
      if (IsOfWholeText(fault.code)) return KeyOf(fault.code, 0);
  }
  // By the other row's distance: of a block that is repeated the numbers differ, the fault does
  // not.
  const int other = fault.other_row > 0 ? fault.other_row - fault.number : 0;
  return {fault.code,
          IsOfLine(fault.code) ? fault.line : fault.source,
          fault.stitch,
          fault.last_stitch,
          fault.off_by,
          other,
          other == 0 ? fault.text_says : "",
          other == 0 ? fault.chart_says : ""};
}

ComparisonFinding FindingOf(const RowFault& fault, const ChartRows& chart) {
  ComparisonFinding finding;
  finding.code = fault.code;
  finding.severity = fault.severity;
  finding.sizes = {chart.size()};
  finding.row = fault.number;
  finding.chart_row = fault.worked > 0 ? chart.chart_row(fault.worked) : 0;
  finding.stitch = fault.stitch;
  finding.last_stitch = fault.last_stitch;
  finding.off_by = {fault.off_by};
  finding.other_row = fault.other_row;
  finding.line = fault.line;
  finding.at = fault.at;
  finding.text_says = fault.text_says;
  finding.chart_says = fault.chart_says;
  return finding;
}

auto OrderOf(const ComparisonFinding& finding) {
  return std::make_tuple(-static_cast<int>(finding.severity), finding.row, finding.stitch,
                         static_cast<int>(finding.code), finding.at.line, finding.at.column);
}

void FaultMerger::AddSize(const ChartRows& chart, const std::vector<RowFault>& faults) {
  std::map<RowKey, size_t> by_key;                      // index of here
  std::vector<std::pair<ComparisonFinding, int>> here;  // with the line of the steps
  std::map<ComparisonCode, std::pair<int, int>> runs;   // first row of the present run, last row
  for (const RowFault& fault : faults) {
    int run = 0;
    if (IsOfRun(fault.code)) {
      auto& [first, last] = runs[fault.code];
      if (fault.worked != last + 1) first = fault.worked;
      last = fault.worked;
      run = first;
    }
    const auto [found, added] = by_key.try_emplace(KeyOf(fault, run), here.size());
    if (added) here.emplace_back(FindingOf(fault, chart), fault.source);
    here[found->second].first.rows.push_back(fault.number);
  }
  std::map<Key, int> met;
  for (auto& [finding, source] : here) {
    std::sort(finding.rows.begin(), finding.rows.end());
    finding.rows.erase(std::unique(finding.rows.begin(), finding.rows.end()), finding.rows.end());
    // What the whole text has in common has no stitch.
    if (finding.rows.size() > 1 && IsOfWholeText(finding.code)) {
      finding.stitch = 0;
      finding.last_stitch = 0;
    }
    Add(std::move(finding), source, met);
  }
}

// The same code at the same line and stitch is the same finding in another size; what it says, and
// by how much it is off, may differ.
void FaultMerger::Add(ComparisonFinding finding, int source, std::map<Key, int>& met) {
  Key key{finding.code,   finding.line,        source, finding.chart_row,
          finding.stitch, finding.last_stitch, 0};
  std::get<6>(key) = met[key]++;
  const auto [found, added] = by_key_.try_emplace(key, findings_.size());
  if (added) {
    findings_.push_back(std::move(finding));
    return;
  }
  ComparisonFinding& known = findings_[found->second];
  known.sizes.push_back(finding.sizes.back());
  known.off_by.push_back(finding.off_by.back());
}

std::vector<ComparisonFinding> FaultMerger::Take() {
  std::stable_sort(findings_.begin(), findings_.end(),
                   [](const ComparisonFinding& a, const ComparisonFinding& b) {
                     return OrderOf(a) < OrderOf(b);
                   });
  by_key_.clear();
  return std::move(findings_);
}

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
                                           const ComparisonSettings& settings, const Stop& stop) {
  WriterSettings written;
  written.hand = settings.hand;
  written.terms = document.terms.value_or(chart::Terms::kUs);
  written.every_row = true;
  written.work_budget = settings.work_budget;
  const std::vector<std::string> names = NamesOf(design, document);
  if (UsesNames(document, text, names)) {
    written.colour_names = names;
    auto pattern = WriteRows(design, written, stop);
    // A name that only the text's own rows can have ("Row", two alike) leaves the letters.
    if (pattern.ok() || !stop.status().ok()) return pattern;
    written.colour_names.clear();
  }
  return WriteRows(design, written, stop);
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
                                       const ComparisonSettings& settings, const Stop& stop) {
  RETURN_IF_ERROR(chart::Validate(design, stop));
  ReaderSettings reading;
  reading.terms = settings.terms;
  reading.colours = settings.colours;
  reading.definitions = settings.definitions;
  for (const chart::Size& size : design.sizes) reading.sizes.push_back(size.name);
  ASSIGN_OR_RETURN(auto document, ReadRows(text, reading, stop));
  ASSIGN_OR_RETURN(auto written, WriteBeside(design, document, text, settings, stop));

  Comparison comparison;
  comparison.sizes = document.sizes;
  comparison.terms = document.terms.value_or(chart::Terms::kUs);
  const RowTerms terms{design.technique, comparison.terms};
  const RowSequences sequences = SequenceRows(design, settings.hand, stop);
  RETURN_IF_ERROR(stop.status());
  ComparisonWork work{kMostComparisonWork, &stop};
  EditorRows rows(document, text, written);
  FaultMerger merger;
  for (int size = 0; size < document.size_count(); ++size) {
    ChartRows chart(design, sequences, size, settings.hand, work);
    const SizeComparison compared = CompareSize(document, chart, terms, work);
    RETURN_IF_ERROR(stop.status());
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
