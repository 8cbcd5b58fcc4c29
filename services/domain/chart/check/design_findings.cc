#include "services/domain/chart/check/design_findings.h"

#include <algorithm>
#include <array>
#include <utility>

#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {

namespace {

class DesignFindings {
 public:
  DesignFindings(const Design& design, const RowStructure& structure)
      : design_(design), structure_(structure) {}

  std::vector<Finding> All() {
    AddEnds();
    AddRepeat();
    AddColours();
    std::stable_sort(findings_.begin(), findings_.end(),
                     [](const Finding& one, const Finding& other) { return one.row < other.row; });
    return std::move(findings_);
  }

 private:
  void Add(FindingCode code, Severity severity, int row, Seam seam, SizeSet sizes) {
    findings_.push_back({code, severity, row, 0, 0, seam, FirstSize(sizes), SizeCount(sizes)});
  }
  void AddInAll(FindingCode code, Severity severity, int row) {
    Add(code, severity, row, Seam::kNone, structure_.all_sizes);
  }

  void AddEnds() {
    switch (FitOfEnds(design_).verdict) {
      case EndsFit::Verdict::kFits:
        return;
      case EndsFit::Verdict::kFitsWithNote:
        return AddInAll(FindingCode::kEndsCouldWait, Severity::kNote, 0);
      case EndsFit::Verdict::kDoesNotFit:
        return AddInAll(FindingCode::kEndsDoNotFit, Severity::kError, 0);
    }
  }

  void AddRepeat() {
    if (!design_.row_band.has_value()) return;
    const Band& band = *design_.row_band;
    if (structure_.odd_band) {
      AddInAll(FindingCode::kOddRowRepeat, Severity::kError, band.first);
    } else if (band.length() * WorkedRows(design_) % FacingPeriod(design_) != 0) {
      AddInAll(FindingCode::kFacingRepeat, Severity::kWarning, band.first);
    }
  }

  // The chart row that brings a third colour; 0 if none does.
  int RowOfThirdColour() const {
    std::array<bool, kMostColours> met{};
    int count = 0;
    for (size_t i = 0; i < design_.row_colours.size(); ++i) {
      bool& known = met[static_cast<size_t>(design_.row_colours[i])];
      if (!known && ++count > 2) return static_cast<int>(i) + 1;
      known = true;
    }
    return 0;
  }

  void AddColours() {
    const bool strict = NeedsAlternation(design_);
    const int third = RowOfThirdColour();
    if (strict && third != 0) AddInAll(FindingCode::kTooManyColours, Severity::kError, third);
    if (!strict && third != 0) return;
    for (int row = 1; row <= design_.cells.rows(); ++row) {
      const RowFacts& facts = structure_.facts[static_cast<size_t>(row - 1)];
      if (facts.same_colour == 0) continue;
      Add(FindingCode::kColourOrder, strict ? Severity::kError : Severity::kWarning, row,
          facts.same_colour_drawn ? Seam::kNone : Seam::kRowRepeat, facts.same_colour);
    }
  }

  const Design& design_;
  const RowStructure& structure_;
  std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> FindingsOfDesign(const Design& design, const RowStructure& structure) {
  return DesignFindings(design, structure).All();
}

}  // namespace rowproof::chart
