#include "services/domain/chart/check/other_reading.h"

#include <array>
#include <bit>

#include "services/domain/chart/marks.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {
namespace {

bool AnyMark(const MarkRow& row) {
  uint64_t any = 0;
  for (size_t i = 0; i < row.words; ++i) any |= row.word(i);
  return any != 0;
}

bool BreaksRulesOneToFour(const Design& design) {
  const Marks marks(design);
  const RowStructure structure = StructureOf(design);
  const int rows = design.cells.rows();
  for (int row = 1; row <= rows; ++row) {
    const bool top = design.convention == Convention::kPicture && row == rows;
    const bool bare = top || structure.facts[static_cast<size_t>(row - 1)].no_anchor != 0;
    if (bare && AnyMark(marks.row(row))) return true;
    if (row > 1 && Touch(marks.row(row), marks.row(row - 1))) return true;
  }
  return structure.seam_sizes != 0 &&
         Touch(marks.row(design.row_band->first), marks.row(design.row_band->last));
}

void Exchange(Grid& cells, int row) {
  const auto words = cells.mutable_row(row);
  for (uint64_t& word : words) word = ~word;
  words.back() &= cells.last_word_mask();
}

int CountOf(std::span<const uint64_t> stitches) {
  int count = 0;
  for (const uint64_t word : stitches) count += std::popcount(word);
  return count;
}

// Whether at least half of the stitches that have a set cell fail, and not too few to judge.
bool HalfOfSetFail(const Design& design, std::span<const uint64_t> faulty) {
  std::array<uint64_t, kMostWords> set{};
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const auto cells = design.cells.row(row);
    for (size_t i = 0; i < cells.size(); ++i) set[i] |= cells[i];
  }
  const int with_set = CountOf(set);
  for (size_t i = 0; i < design.cells.words_per_row(); ++i) set[i] &= faulty[i];
  const int failing = CountOf(set);
  return failing >= kFewestStitchesToJudge && 2 * failing >= with_set;
}

}  // namespace

Design InReading(const Design& design, FindingCode reading) {
  Design read = design;
  if (reading != FindingCode::kColoursSwapped) {
    read.convention =
        design.convention == Convention::kPicture ? Convention::kWorking : Convention::kPicture;
  }
  if (reading == FindingCode::kOtherConvention) return read;
  for (int row = 1; row <= read.cells.rows(); ++row) {
    const bool all = reading == FindingCode::kColoursSwapped;
    if (all || RowColour(design, row) == Colour::kB) Exchange(read.cells, row);
  }
  return read;
}

std::optional<FindingCode> CertainReading(const Design& design, std::span<const uint64_t> faulty) {
  if (design.cells.stitches() < kFewestStitchesToJudge ||
      design.cells.rows() < kFewestRowsToJudge || HasMoreThanTwoColours(design)) {
    return std::nullopt;
  }
  const int failing = CountOf(faulty);
  const bool half = 2 * failing >= design.cells.stitches();
  const bool half_of_set = !half && failing >= kFewestStitchesToJudge &&
                           design.convention == Convention::kPicture &&
                           HalfOfSetFail(design, faulty);
  for (const FindingCode reading : kOtherReadings) {
    if (!half && !(half_of_set && reading == FindingCode::kOtherConvention)) continue;
    if (!BreaksRulesOneToFour(InReading(design, reading))) return reading;
  }
  return std::nullopt;
}

}  // namespace rowproof::chart
