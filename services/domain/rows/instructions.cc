#include "services/domain/rows/instructions.h"

namespace rowproof::rows {

RowInstruction InstructionOfRow(const chart::Design& design, const chart::ExpandedSize& expanded,
                                int row, chart::Hand hand) {
  ROWPROOF_CHECK(row >= 1 && row <= expanded.drops.rows());
  RowInstruction instruction;
  instruction.row = row;
  instruction.number = row + design.first_row_number - 1;
  instruction.chart_row = expanded.chart_row[static_cast<size_t>(row - 1)];
  instruction.side = chart::SideOfRow(design, row);
  instruction.colour = expanded.row_colours[static_cast<size_t>(row - 1)];
  const int stitches = expanded.drops.stitches();
  const auto words = expanded.drops.row(row);
  const bool ascending = chart::StartsAtStitchOne(design, row, hand);
  instruction.stitches.reserve(static_cast<size_t>(stitches));
  for (int i = 0; i < stitches; ++i) {
    const auto bit = static_cast<unsigned>(ascending ? i : stitches - 1 - i);
    const bool drop = (words[bit / 64] >> (bit % 64) & 1) != 0;
    instruction.stitches.push_back(drop ? Stitch::kDrop : Stitch::kPlain);
  }
  return instruction;
}

std::vector<RowInstruction> Instructions(const chart::Design& design,
                                         const chart::ExpandedSize& expanded, chart::Hand hand) {
  std::vector<RowInstruction> rows;
  rows.reserve(static_cast<size_t>(expanded.drops.rows()));
  for (int row = 1; row <= expanded.drops.rows(); ++row) {
    rows.push_back(InstructionOfRow(design, expanded, row, hand));
  }
  return rows;
}

}  // namespace rowproof::rows
