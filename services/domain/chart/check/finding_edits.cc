#include "services/domain/chart/check/finding_edits.h"

#include <algorithm>
#include <tuple>

#include "services/domain/chart/check/foreign_colours.h"
#include "services/domain/chart/marks.h"

namespace rowproof::chart {
namespace {

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

}  // namespace

void AddEdits(const Design& design, const RowStructure& structure,
              const std::vector<EdgeFault>& edges, const RunFinder& runs,
              std::vector<Finding>& findings) {
  const EditFinder finder(design, structure, edges, runs);
  for (Finding& finding : findings) finding.edit = finder.EditFor(finding);
}

}  // namespace rowproof::chart
