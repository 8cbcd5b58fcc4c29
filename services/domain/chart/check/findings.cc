#include "services/domain/chart/check/findings.h"

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <tuple>
#include <utility>

#include "services/domain/chart/check/design_findings.h"
#include "services/domain/chart/check/edges.h"
#include "services/domain/chart/check/finding_collector.h"
#include "services/domain/chart/check/foreign_colours.h"
#include "services/domain/chart/check/other_reading.h"
#include "services/domain/chart/check/runs.h"
#include "services/domain/chart/marks.h"
#include "services/domain/chart/row_order.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

// Finds the one change of a cell that ends a finding.
class EditFinder {
 public:
  EditFinder(const Design& design, const RowStructure& structure,
             const std::vector<EdgeFault>& edges, const RunFinder& runs)
      : design_(design), structure_(structure), edges_(edges), runs_(runs), marks_(design) {}

  std::optional<Edit> EditFor(const Finding& finding) const {
    if (finding.stitch == 0) return std::nullopt;
    switch (finding.code) {
      case FindingCode::kEdgeDrop:
      case FindingCode::kEdgeSkip:
        return EdgeEdit(finding);
      case FindingCode::kLooseStrand:
      case FindingCode::kLongSkip:
      case FindingCode::kLooseFlap:
        return RunEdit(finding);
      default:
        // These rules forbid a mark, or one of two.
        return Exchange(finding.row, finding.stitch);
    }
  }

 private:
  // The cell's other value. A mark that is removed shows its row's own colour; one that is set
  // shows the colour of a row above, if it has another.
  std::optional<Edit> Exchange(int row, int stitch) const {
    Edit edit{row, stitch, !design_.cells.at(row, stitch)};
    if (!NamesColours(design_)) return edit;
    const Colour own = RowColour(design_, row);
    if (!edit.value) {
      edit.colour = own;
      return edit;
    }
    const RowsAbove above = RowsAboveOf(design_, structure_, row);
    for (const int candidate : {above.drawn, above.seam}) {
      if (candidate == 0 || RowColour(design_, candidate) == own) continue;
      edit.colour = RowColour(design_, candidate);
      return edit;
    }
    return std::nullopt;
  }

  std::optional<Edit> EdgeEdit(const Finding& finding) const {
    const auto fault = std::lower_bound(
        edges_.begin(), edges_.end(), finding, [](const EdgeFault& one, const Finding& other) {
          return std::tie(one.row, one.stitch) < std::tie(other.row, other.stitch);
        });
    if (fault == edges_.end() || !fault->cell_mends) return std::nullopt;
    return Exchange(finding.row, finding.stitch);
  }

  std::optional<Edit> RunEdit(const Finding& finding) const {
    const Run run{finding.stitch, finding.last_stitch, finding.seam, structure_.all_sizes};
    const SizeSet worked = structure_.facts[static_cast<size_t>(finding.row - 1)].worked;
    const int stitch = runs_.StitchThatBreaks(marks_.row(finding.row), run, worked);
    return stitch == 0 ? std::nullopt : Exchange(finding.row, stitch);
  }

  const Design& design_;
  const RowStructure& structure_;
  const std::vector<EdgeFault>& edges_;
  const RunFinder& runs_;
  const Marks marks_;
};

// Of the search for one edit, which may look at all stitches of a long run, in units of Stop.
constexpr int kEditWork = 2'000;

// Gives each finding its edit if there is one. `edges` are all edge faults of the design, by row
// and stitch; `runs` found the runs.
void AddEdits(const Design& design, const RowStructure& structure,
              const std::vector<EdgeFault>& edges, const RunFinder& runs, const Stop& stop,
              std::vector<Finding>& findings) {
  const EditFinder finder(design, structure, edges, runs);
  for (Finding& finding : findings) {
    if (stop.After(kEditWork)) return;
    finding.edit = finder.EditFor(finding);
  }
}

class Checker {
 public:
  Checker(const Design& design, const CheckSettings& settings, const Stop& stop)
      : design_(design),
        stop_(stop),
        facts_(FactsOf(design.technique)),
        marks_(design),
        structure_(StructureOf(design)),
        looks_at_runs_(!facts_.runs.only_carried || design.ends == Ends::kCarried),
        runs_(design, settings.*facts_.runs.longest),
        edges_(FindEdgeFaults(design, structure_)),
        of_design_(FindingsOfDesign(design, structure_)) {}

  CheckResult CheckAll() {
    AddRowless(0);
    for (int row = 1; row <= design_.cells.rows(); ++row) {
      if (stop_.After(RowWork())) return {};
      AddRowless(row);
      const MarkRow marks = marks_.row(row);
      const RowFacts& facts = structure_.facts[static_cast<size_t>(row - 1)];
      if (Suspect(row, marks, facts)) AddCells(row, marks, facts);
      if (NamesColours(design_)) AddForeignColours(row);
      if (looks_at_runs_ && facts.worked != 0) AddRuns(row, marks, facts.worked);
      collector_.EndRow();
    }
    CheckResult result = Result();
    AddEdits(design_, structure_, edges_, runs_, stop_, result.findings);
    return result;
  }

 private:
  // Of one row, in units of Stop: by words, but for colours and runs.
  int RowWork() const {
    return NamesColours(design_) || looks_at_runs_ ? design_.cells.stitches()
                                                   : design_.cells.stitches() / 16;
  }
  bool AtSeam(int row) const {
    return structure_.seam_sizes != 0 && row == design_.row_band->first;
  }
  bool AtPictureTop(int row) const {
    return design_.convention == Convention::kPicture && row == design_.cells.rows();
  }

  // Findings of the design as a whole and of the edges: few, and ordered by row beforehand.
  void AddRowless(int row) {
    for (; next_of_design_ < of_design_.size() && of_design_[next_of_design_].row == row;
         ++next_of_design_) {
      collector_.Add(of_design_[next_of_design_]);
    }
    const Severity severity =
        facts_.edges == EdgeRule::kPlain ? Severity::kError : Severity::kWarning;
    for (; next_edge_ < edges_.size() && edges_[next_edge_].row == row; ++next_edge_) {
      const EdgeFault& fault = edges_[next_edge_];
      collector_.Add({facts_.edge_code, severity, row, fault.stitch, fault.stitch, Seam::kNone,
                      FirstSize(fault.sizes), SizeCount(fault.sizes)});
    }
    if (row == 0) collector_.EndRow();
  }

  // A quick look that lets nothing slip: most rows of most charts end here.
  bool Suspect(int row, const MarkRow& marks, const RowFacts& facts) const {
    if ((facts.no_anchor | facts.foreign_anchor | facts.pointless) != 0) return true;
    if (AtPictureTop(row) || AtSeam(row)) return true;
    return row > 1 && Touch(marks, marks_.row(row - 1));
  }

  void AddCells(int row, const MarkRow& marks, const RowFacts& facts) {
    std::array<uint64_t, kMostWords> own;
    const std::span<const uint64_t> mask(own.data(), marks.words);
    for (size_t i = 0; i < marks.words; ++i) own[i] = marks.word(i);
    AddError(FindingCode::kNoAnchor, row, mask, Seam::kNone, facts.no_anchor);
    if (AtPictureTop(row)) {
      AddError(FindingCode::kUncoveredTopRow, row, mask, Seam::kNone, structure_.all_sizes);
    }
    Add(FindingCode::kForeignAnchor, Severity::kWarning, row, mask,
        facts.foreign_anchor_drawn ? Seam::kNone : Seam::kRowRepeat, facts.foreign_anchor);
    Add(FindingCode::kPointlessDrop, Severity::kWarning, row, mask,
        facts.pointless_drawn ? Seam::kNone : Seam::kRowRepeat, facts.pointless);
    AddDropsOverDrops(row, mask);
  }

  void AddDropsOverDrops(int row, std::span<const uint64_t> own) {
    std::array<uint64_t, kMostWords> drawn{};
    const std::span<uint64_t> drawn_mask(drawn.data(), own.size());
    if (row > 1) {
      const MarkRow below = marks_.row(row - 1);
      for (size_t i = 0; i < own.size(); ++i) drawn[i] = own[i] & below.word(i);
      AddError(FindingCode::kDropOverDrop, row, drawn_mask, Seam::kNone, structure_.all_sizes);
    }
    if (!AtSeam(row)) return;
    const MarkRow below = marks_.row(design_.row_band->last);
    for (size_t i = 0; i < own.size(); ++i) drawn[i] = own[i] & below.word(i) & ~drawn[i];
    AddError(FindingCode::kDropOverDrop, row, drawn_mask, Seam::kRowRepeat, structure_.seam_sizes);
  }

  void AddForeignColours(int row) {
    const RowsAbove above = RowsAboveOf(design_, structure_, row);
    std::array<uint64_t, kMostWords> drawn{};
    std::array<uint64_t, kMostWords> at_seam{};
    const size_t words = design_.cells.words_per_row();
    const std::span<uint64_t> drawn_mask(drawn.data(), words);
    const std::span<uint64_t> seam_mask(at_seam.data(), words);
    if (above.drawn != 0) FindForeignColours(design_, row, above.drawn, drawn_mask);
    if (above.seam != 0) FindForeignColours(design_, row, above.seam, seam_mask);
    for (size_t i = 0; i < words; ++i) at_seam[i] &= ~drawn[i];
    Add(FindingCode::kForeignColour, Severity::kError, row, drawn_mask, Seam::kNone,
        above.drawn_sizes);
    Add(FindingCode::kForeignColour, Severity::kError, row, seam_mask, Seam::kRowRepeat,
        above.seam_sizes);
  }

  void AddRuns(int row, const MarkRow& marks, SizeSet worked) {
    const RunRule& rule = facts_.runs;
    if (collector_.Full(rule.severity)) {
      if (const auto count = runs_.CountDrawn(marks); count.has_value()) {
        collector_.Count(rule.code, rule.severity, *count);
        return;
      }
    }
    runs_.Find(marks, found_runs_);
    for (const Run& run : found_runs_) {
      const SizeSet sizes = run.sizes & worked;
      if (sizes == 0) continue;
      collector_.Add({rule.code, rule.severity, row, run.first, run.last, run.seam,
                      FirstSize(sizes), SizeCount(sizes)});
    }
  }

  void AddError(FindingCode code, int row, std::span<const uint64_t> mask, Seam seam,
                SizeSet sizes) {
    if (sizes == 0) return;
    for (size_t i = 0; i < mask.size(); ++i) faulty_[i] |= mask[i];
    Add(code, Severity::kError, row, mask, seam, sizes);
  }

  void Add(FindingCode code, Severity severity, int row, std::span<const uint64_t> mask, Seam seam,
           SizeSet sizes) {
    if (sizes == 0) return;
    collector_.AddCells({code, severity, row, 0, 0, seam, FirstSize(sizes), SizeCount(sizes)},
                        mask);
  }

  CheckResult Result() {
    const auto reading = CertainReading(design_, faulty_);
    if (reading.has_value()) {
      collector_.AddOfChart(
          {*reading, Severity::kNote, 0, 0, 0, Seam::kNone, 0, SizeCount(structure_.all_sizes)});
    }
    return std::move(collector_).Take();
  }

  const Design& design_;
  const Stop& stop_;
  const TechniqueFacts& facts_;
  const Marks marks_;
  const RowStructure structure_;
  const bool looks_at_runs_;
  const RunFinder runs_;
  const std::vector<EdgeFault> edges_;
  const std::vector<Finding> of_design_;
  size_t next_edge_ = 0;
  size_t next_of_design_ = 0;
  // Stitches with the error no-anchor, drop-over-drop or uncovered-top-row.
  std::array<uint64_t, kMostWords> faulty_{};
  std::vector<Run> found_runs_;
  FindingCollector collector_;
};

}  // namespace

CheckResult Check(const Design& design, const CheckSettings& settings, const Stop& stop) {
  return Checker(design, settings, stop).CheckAll();
}

}  // namespace rowproof::chart
