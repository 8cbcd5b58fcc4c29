#include "services/domain/chart/expand.h"

#include <algorithm>
#include <optional>

#include "services/domain/chart/bit_copy.h"
#include "services/domain/chart/technique.h"
#include "services/domain/chart/unfold.h"

namespace rowproof::chart {
namespace {

int Unfolded(int length, const std::optional<Band>& band, int repeats) {
  return band.has_value() ? length + (repeats - 1) * band->length() : length;
}

const Size& SizeAt(const Design& design, int size) {
  ROWPROOF_CHECK(size >= 0 && static_cast<size_t>(size) < design.sizes.size());
  return design.sizes[static_cast<size_t>(size)];
}

void ExpandRow(std::span<const uint64_t> source, int stitches, const std::optional<Band>& band,
               int repeats, std::span<uint64_t> target) {
  if (!band.has_value()) {
    std::copy(source.begin(), source.end(), target.begin());
    return;
  }
  const auto first = static_cast<size_t>(band->first - 1);
  const auto length = static_cast<size_t>(band->length());
  CopyBits(source, 0, first, target, 0);
  size_t to = first;
  for (int n = 0; n < repeats; ++n, to += length) CopyBits(source, first, length, target, to);
  const size_t rest = first + length;
  CopyBits(source, rest, static_cast<size_t>(stitches) - rest, target, to);
}

// In place: off-colour cells of `grid` against the row colours, one row up (or one row down, back).
void XorColour(std::span<uint64_t> words, Colour colour, uint64_t last_mask) {
  if (colour == Colour::kA) return;
  for (uint64_t& word : words) word = ~word;
  words.back() &= last_mask;
}

// The marks of a picture as drops; those in the last row are left out.
Grid OneRowUp(const Grid& marks) {
  Grid drops(marks.rows(), marks.stitches());
  for (int row = 1; row < marks.rows(); ++row) {
    const auto source = marks.row(row);
    std::copy(source.begin(), source.end(), drops.mutable_row(row + 1).begin());
  }
  return drops;
}

}  // namespace

int ExpandedRows(const Design& design, int size) {
  return Unfolded(design.cells.rows(), design.row_band, SizeAt(design, size).row_repeats);
}

int ExpandedStitches(const Design& design, int size) {
  return Unfolded(design.cells.stitches(), design.stitch_band, SizeAt(design, size).stitch_repeats);
}

ExpandedSize Expand(const Design& design, int size) {
  const Size& wanted = SizeAt(design, size);
  ExpandedSize expanded;
  expanded.chart_row = Unfold(design.cells.rows(), design.row_band, wanted.row_repeats);
  expanded.chart_stitch = ChartStitchesAsWorked(design, size);
  const int rows = static_cast<int>(expanded.chart_row.size());
  Grid grid(rows, static_cast<int>(expanded.chart_stitch.size()));
  expanded.row_colours.reserve(expanded.chart_row.size());
  for (int row = 1; row <= rows; ++row) {
    const int chart_row = expanded.chart_row[static_cast<size_t>(row - 1)];
    ExpandRow(design.cells.row(chart_row), design.cells.stitches(), design.stitch_band,
              wanted.stitch_repeats, grid.mutable_row(row));
    expanded.row_colours.push_back(RowColour(design, design.row_colours.empty() ? row : chart_row));
  }
  if (design.convention == Convention::kWorking) {
    expanded.drops = std::move(grid);
  } else if (NamesColours(design)) {
    expanded.drops = OneRowUp(grid);
  } else {
    expanded.drops = DropsFromPicture(grid, expanded.row_colours);
  }
  return expanded;
}

std::vector<int> ChartRowsAsWorked(const Design& design, int size) {
  const int each = WorkedRows(design);
  std::vector<int> once =
      Unfold(design.cells.rows(), design.row_band, SizeAt(design, size).row_repeats);
  if (each == 1) return once;
  std::vector<int> rows;
  rows.reserve(once.size() * static_cast<size_t>(each));
  for (const int row : once) rows.insert(rows.end(), static_cast<size_t>(each), row);
  return rows;
}

std::vector<int> ChartStitchesAsWorked(const Design& design, int size) {
  return Unfold(design.cells.stitches(), design.stitch_band, SizeAt(design, size).stitch_repeats);
}

int WorkedRows(const Design& design) { return FactsOf(design.technique).worked_rows; }

Side SideOfWorkedRow(const Design& design, int worked_row) {
  ROWPROOF_CHECK(worked_row >= 1);
  switch (FacingOf(design)) {
    case Facing::kOneFace:
      return Side::kRightSide;
    case Facing::kTwoFace:
      return worked_row % 2 == 1 ? Side::kRightSide : Side::kWrongSide;
    case Facing::kPaired:
      return (worked_row - 1) % 4 < 2 ? Side::kRightSide : Side::kWrongSide;
  }
  return Side::kRightSide;
}

bool WorkedRowStartsAtStitchOne(const Design& design, int worked_row, Hand hand) {
  return (SideOfWorkedRow(design, worked_row) == Side::kRightSide) == (hand == Hand::kRight);
}

bool YarnEndsAtStitchOne(const Design& design, int worked_row, Hand hand) {
  const bool start = WorkedRowStartsAtStitchOne(design, worked_row, hand);
  return design.form == Form::kTube ? start : !start;
}

Side SideOfRow(const Design& design, int row) {
  return SideOfWorkedRow(design, (row - 1) * WorkedRows(design) + 1);
}

bool StartsAtStitchOne(const Design& design, int row, Hand hand) {
  return WorkedRowStartsAtStitchOne(design, (row - 1) * WorkedRows(design) + 1, hand);
}

Grid DropsFromPicture(const Grid& picture, const std::vector<Colour>& row_colours) {
  Grid drops(picture.rows(), picture.stitches());
  for (int row = 1; row < picture.rows(); ++row) {
    const auto source = picture.row(row);
    const auto target = drops.mutable_row(row + 1);
    std::copy(source.begin(), source.end(), target.begin());
    XorColour(target, row_colours[static_cast<size_t>(row - 1)], drops.last_word_mask());
  }
  return drops;
}

Grid PictureFromDrops(const Grid& drops, const std::vector<Colour>& row_colours) {
  Grid picture(drops.rows(), drops.stitches());
  for (int row = 1; row <= drops.rows(); ++row) {
    const auto target = picture.mutable_row(row);
    if (row < drops.rows()) {
      const auto source = drops.row(row + 1);
      const Colour own = row_colours[static_cast<size_t>(row - 1)];
      const Colour above = row_colours[static_cast<size_t>(row)];
      // A drop over a row of its own colour shows nothing new.
      if (own != above) std::copy(source.begin(), source.end(), target.begin());
    }
    XorColour(target, row_colours[static_cast<size_t>(row - 1)], picture.last_word_mask());
  }
  return picture;
}

std::vector<Colour> PictureColours(const Grid& drops, const std::vector<Colour>& row_colours) {
  std::vector<Colour> picture;
  picture.reserve(static_cast<size_t>(drops.rows()) * static_cast<size_t>(drops.stitches()));
  for (int row = 1; row <= drops.rows(); ++row) {
    const Colour own = row_colours[static_cast<size_t>(row - 1)];
    for (int stitch = 1; stitch <= drops.stitches(); ++stitch) {
      const bool covered = row < drops.rows() && drops.at(row + 1, stitch);
      picture.push_back(covered ? row_colours[static_cast<size_t>(row)] : own);
    }
  }
  return picture;
}

}  // namespace rowproof::chart
