#include "tests/domain/rows/workable_design.h"

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/chart/technique.h"

namespace rowproof::rows {

bool MakeWorkable(chart::Design& design) {
  for (int ends = 0; ends < 3 && chart::WhyEndsDoNotFit(design) != nullptr; ++ends) {
    design.ends = static_cast<chart::Ends>(ends);
  }
  if (chart::Check(design).workable()) return true;
  const auto repair = chart::FindRepair(design);
  if (!repair.ok()) return false;
  design.cells = repair->repaired;
  for (size_t i = 0; i < design.picture_colours.size(); ++i) {
    const int row = 1 + static_cast<int>(i) / design.cells.stitches();
    const int stitch = 1 + static_cast<int>(i) % design.cells.stitches();
    if (!design.cells.at(row, stitch)) {
      design.picture_colours[i] = chart::RowColour(design, row);
    }
  }
  return chart::Check(design).workable();
}

std::string RowsAlone(const WrittenPattern& pattern) {
  std::string text;
  for (const WrittenRow& row : pattern.rows) {
    if (!row.heading.empty()) text += row.heading + '\n';
    text += row.text + '\n';
  }
  return text;
}

std::string WholePattern(const WrittenPattern& pattern) {
  std::string text = "Abbreviations\n\n";
  for (const std::string& line : pattern.abbreviations) text += line + '\n';
  text += "\nSpecial stitches\n\n";
  for (const std::string& line : pattern.special_stitches) text += line + '\n';
  text += "\nNotes\n\n";
  for (const std::string& line : pattern.notes) text += line + '\n';
  return text + "\nRows\n\n" + RowsAlone(pattern);
}

}  // namespace rowproof::rows
