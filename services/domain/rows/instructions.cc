#include "services/domain/rows/instructions.h"

#include "services/domain/chart/technique.h"

namespace rowproof::rows {
namespace {

bool Marked(std::span<const uint64_t> words, int bit) {
  const auto at = static_cast<size_t>(bit);
  return (words[at / 64] >> (at % 64) & 1) != 0;
}

// `drops` and `skips` (empty: none) by stitch of the chart.
std::vector<Element> Elements(std::span<const uint64_t> drops, std::span<const uint64_t> skips,
                              int stitches, bool ascending) {
  std::vector<Element> elements;
  elements.reserve(static_cast<size_t>(stitches));
  int skipped = 0;
  const auto close_space = [&] {
    if (skipped > 0) elements.push_back(ChainSpace(skipped));
    skipped = 0;
  };
  for (int i = 0; i < stitches; ++i) {
    const int bit = ascending ? i : stitches - 1 - i;
    if (!skips.empty() && Marked(skips, bit)) {
      ++skipped;
      continue;
    }
    close_space();
    elements.push_back(!drops.empty() && Marked(drops, bit) ? kDropStitch : kPlainStitch);
  }
  close_space();
  return elements;
}

}  // namespace

ClosingCount CountOf(std::span<const Element> elements) {
  ClosingCount count;
  for (const Element& element : elements) {
    ++(element.stitch == Stitch::kChainSpace ? count.chain_spaces : count.stitches);
  }
  return count;
}

int WidthOf(std::span<const Element> elements) {
  int width = 0;
  for (const Element& element : elements) width += element.width();
  return width;
}

RowInstruction InstructionOfRow(const chart::Design& design, const chart::ExpandedSize& expanded,
                                int worked_row, chart::Hand hand) {
  const int row = chart::ChartRowOfWorkedRow(design, worked_row);
  const int rows = expanded.drops.rows();
  ROWPROOF_CHECK(worked_row >= 1 && row <= rows);
  RowInstruction instruction;
  instruction.row = worked_row;
  instruction.number = worked_row + design.first_row_number - 1;
  instruction.expanded_row = row;
  instruction.chart_row = expanded.chart_row[static_cast<size_t>(row - 1)];
  instruction.side = chart::SideOfWorkedRow(design, worked_row);
  instruction.colour = expanded.row_colours[static_cast<size_t>(row - 1)];
  const bool ascending = chart::WorkedRowStartsAtStitchOne(design, worked_row, hand);
  std::span<const uint64_t> drops = expanded.drops.row(row);
  std::span<const uint64_t> skips;
  if (chart::FactsOf(design.technique).skips) {
    if (instruction.side == chart::Side::kWrongSide) drops = {};
    if (row < rows) skips = expanded.drops.row(row + 1);
  }
  instruction.elements = Elements(drops, skips, expanded.drops.stitches(), ascending);
  return instruction;
}

std::vector<RowInstruction> Instructions(const chart::Design& design,
                                         const chart::ExpandedSize& expanded, chart::Hand hand) {
  const int count = expanded.drops.rows() * chart::WorkedRows(design);
  std::vector<RowInstruction> rows;
  rows.reserve(static_cast<size_t>(count));
  for (int row = 1; row <= count; ++row) {
    rows.push_back(InstructionOfRow(design, expanded, row, hand));
  }
  return rows;
}

}  // namespace rowproof::rows
