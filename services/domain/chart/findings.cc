#include "services/domain/chart/findings.h"

#include <algorithm>
#include <array>
#include <bit>
#include <span>
#include <tuple>

#include "services/domain/chart/design_findings.h"
#include "services/domain/chart/edges.h"
#include "services/domain/chart/marks.h"
#include "services/domain/chart/row_order.h"
#include "services/domain/chart/runs.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

// Counts all findings and keeps the first kMostFindings of each severity. Rows come in ascending
// order; within a row the order does not matter.
class Collector {
 public:
  void Add(const Finding& finding) {
    Kind& kind = KindOf(finding.severity);
    ++kind.count;
    if (kind.kept.size() < static_cast<size_t>(kMostFindings)) kind.of_row.push_back(finding);
  }

  // One finding for each set bit of `mask`, a row's words; `finding` has all but the stitch.
  void AddCells(Finding finding, std::span<const uint64_t> mask) {
    Kind& kind = KindOf(finding.severity);
    for (const uint64_t word : mask) kind.count += std::popcount(word);
    if (kind.kept.size() >= static_cast<size_t>(kMostFindings)) return;
    for (size_t i = 0; i < mask.size(); ++i) {
      for (uint64_t word = mask[i]; word != 0; word &= word - 1) {
        finding.stitch = static_cast<int>(i * 64) + std::countr_zero(word) + 1;
        finding.last_stitch = finding.stitch;
        kind.of_row.push_back(finding);
      }
    }
  }

  void EndRow() {
    for (Kind& kind : kinds_) {
      if (kind.of_row.empty()) continue;
      std::sort(kind.of_row.begin(), kind.of_row.end(),
                [](const Finding& one, const Finding& other) {
                  return std::tie(one.stitch, one.code, one.last_stitch) <
                         std::tie(other.stitch, other.code, other.last_stitch);
                });
      const size_t room = static_cast<size_t>(kMostFindings) - kind.kept.size();
      kind.of_row.resize(std::min(kind.of_row.size(), room));
      kind.kept.insert(kind.kept.end(), kind.of_row.begin(), kind.of_row.end());
      kind.of_row.clear();
    }
  }

  CheckResult Take() {
    CheckResult result;
    result.error_count = KindOf(Severity::kError).count;
    result.warning_count = KindOf(Severity::kWarning).count;
    result.note_count = KindOf(Severity::kNote).count;
    for (const Severity severity : {Severity::kError, Severity::kWarning, Severity::kNote}) {
      const auto& kept = KindOf(severity).kept;
      const size_t room = static_cast<size_t>(kMostFindings) - result.findings.size();
      const auto end = kept.begin() + static_cast<std::ptrdiff_t>(std::min(kept.size(), room));
      result.findings.insert(result.findings.end(), kept.begin(), end);
    }
    return result;
  }

 private:
  struct Kind {
    int64_t count = 0;
    std::vector<Finding> kept;
    std::vector<Finding> of_row;
  };
  Kind& KindOf(Severity severity) { return kinds_[static_cast<size_t>(severity)]; }

  std::array<Kind, 3> kinds_;
};

class Checker {
 public:
  Checker(const Design& design, const CheckSettings& settings)
      : design_(design),
        marks_(design),
        structure_(StructureOf(design)),
        carried_(design.ends == Ends::kCarried && FactsOf(design.technique).drops_hold_strand),
        runs_(design, settings.longest_carried_run),
        edges_(FindEdgeFaults(design, structure_)),
        of_design_(FindingsOfDesign(design, structure_)) {}

  CheckResult CheckAll() {
    AddRowless(0);
    collector_.EndRow();
    for (int row = 1; row <= design_.cells.rows(); ++row) {
      AddRowless(row);
      const MarkRow marks = marks_.row(row);
      const RowFacts& facts = structure_.facts[static_cast<size_t>(row - 1)];
      if (Suspect(row, marks, facts)) AddCells(row, marks, facts);
      if (carried_ && facts.worked != 0) AddRuns(row, marks, facts.worked);
      collector_.EndRow();
    }
    return collector_.Take();
  }

 private:
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
    const Severity severity = FactsOf(design_.technique).edges == EdgeRule::kPlain
                                  ? Severity::kError
                                  : Severity::kWarning;
    for (; next_edge_ < edges_.size() && edges_[next_edge_].row == row; ++next_edge_) {
      const EdgeFault& fault = edges_[next_edge_];
      collector_.Add({FindingCode::kEdgeDrop, severity, row, fault.stitch, fault.stitch,
                      Seam::kNone, FirstSize(fault.sizes), SizeCount(fault.sizes)});
    }
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
    Add(FindingCode::kNoAnchor, Severity::kError, row, mask, Seam::kNone, facts.no_anchor);
    if (AtPictureTop(row)) {
      Add(FindingCode::kUncoveredTopRow, Severity::kError, row, mask, Seam::kNone,
          structure_.all_sizes);
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
      Add(FindingCode::kDropOverDrop, Severity::kError, row, drawn_mask, Seam::kNone,
          structure_.all_sizes);
    }
    if (!AtSeam(row)) return;
    const MarkRow below = marks_.row(design_.row_band->last);
    for (size_t i = 0; i < own.size(); ++i) drawn[i] = own[i] & below.word(i) & ~drawn[i];
    Add(FindingCode::kDropOverDrop, Severity::kError, row, drawn_mask, Seam::kRowRepeat,
        structure_.seam_sizes);
  }

  void AddRuns(int row, const MarkRow& marks, SizeSet worked) {
    runs_.Find(marks, found_runs_);
    for (const Run& run : found_runs_) {
      const SizeSet sizes = run.sizes & worked;
      if (sizes == 0) continue;
      collector_.Add({FindingCode::kLooseStrand, Severity::kWarning, row, run.first, run.last,
                      run.at_seam ? Seam::kStitchRepeat : Seam::kNone, FirstSize(sizes),
                      SizeCount(sizes)});
    }
  }

  void Add(FindingCode code, Severity severity, int row, std::span<const uint64_t> mask, Seam seam,
           SizeSet sizes) {
    if (sizes == 0) return;
    collector_.AddCells({code, severity, row, 0, 0, seam, FirstSize(sizes), SizeCount(sizes)},
                        mask);
  }

  const Design& design_;
  const Marks marks_;
  const RowStructure structure_;
  const bool carried_;
  const RunFinder runs_;
  const std::vector<EdgeFault> edges_;
  const std::vector<Finding> of_design_;
  size_t next_edge_ = 0;
  size_t next_of_design_ = 0;
  std::vector<Run> found_runs_;
  Collector collector_;
};

}  // namespace

CheckResult Check(const Design& design, const CheckSettings& settings) {
  return Checker(design, settings).CheckAll();
}

}  // namespace rowproof::chart
