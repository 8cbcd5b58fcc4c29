#include "services/domain/estimate/stitch_counts.h"

#include <algorithm>
#include <bit>
#include <span>

#include "services/domain/chart/expand.h"
#include "services/domain/check.h"

namespace rowproof::estimate {
namespace {

using chart::Colour;

// Ones among bits [from, to).
int OnesBetween(std::span<const uint64_t> words, size_t from, size_t to) {
  int ones = 0;
  for (size_t word = from / 64; word * 64 < to; ++word) {
    uint64_t bits = words[word];
    if (word == from / 64) bits &= ~uint64_t{0} << from % 64;
    if ((word + 1) * 64 > to) bits &= (uint64_t{1} << to % 64) - 1;
    ones += std::popcount(bits);
  }
  return ones;
}

Colour Other(Colour colour) { return colour == Colour::kA ? Colour::kB : Colour::kA; }

}  // namespace

StitchCounter::StitchCounter(const chart::Design& design) : design_(design) {
  const chart::Grid& cells = design.cells;
  set_cells_.reserve(static_cast<size_t>(cells.rows()));
  for (int row = 1; row <= cells.rows(); ++row) {
    const auto words = cells.row(row);
    SetCells set;
    for (const uint64_t word : words) set.in_row += std::popcount(word);
    if (design.stitch_band.has_value()) {
      set.in_band = OnesBetween(words, static_cast<size_t>(design.stitch_band->first - 1),
                                static_cast<size_t>(design.stitch_band->last));
    }
    set_cells_.push_back(set);
  }
}

int64_t StitchCounter::SetCellsOf(int chart_row, int stitch_repeats) const {
  const SetCells& set = set_cells_[static_cast<size_t>(chart_row - 1)];
  return set.in_row + int64_t{stitch_repeats - 1} * set.in_band;
}

std::vector<StitchCounter::Run> StitchCounter::RunsUpTo(int row_repeats, int last_row) const {
  std::vector<Run> runs;
  runs.reserve(static_cast<size_t>(design_.cells.rows()) * 2);
  const auto& band = design_.row_band;
  const int length = band.has_value() ? band->length() : 1;
  const bool alternating = design_.row_colours.empty();
  for (int row = 1; row <= design_.cells.rows(); ++row) {
    const bool repeated = band.has_value() && row >= band->first && row <= band->last;
    const bool above = band.has_value() && row > band->last;
    const int first = above ? row + (row_repeats - 1) * length : row;
    if (first > last_row) continue;
    const int count = repeated ? std::min(row_repeats, (last_row - first) / length + 1) : 1;
    const Colour colour = chart::RowColour(design_, alternating ? first : row);
    if (!alternating || length % 2 == 0 || count == 1) {
      runs.push_back({row, first, length, count, colour});
      continue;
    }
    // An odd band alternates its colours from one repetition to the next.
    runs.push_back({row, first, 2 * length, (count + 1) / 2, colour});
    runs.push_back({row, first + length, 2 * length, count / 2, Other(colour)});
  }
  return runs;
}

// An off-colour cell of an expanded row is a drop in the row above it, in that row's colour.
void StitchCounter::AddPictureDrops(int size, int last_row, ChartCounts& counts) const {
  const chart::Size& wanted = design_.sizes[static_cast<size_t>(size)];
  for (const Run& run : RunsUpTo(wanted.row_repeats, last_row - 1)) {
    const int64_t set = SetCellsOf(run.chart_row, wanted.stitch_repeats);
    const int64_t off_colour = run.colour == Colour::kA ? set : counts.stitches - set;
    const auto add = [&](Colour above, int times) {
      counts.colours[static_cast<size_t>(above)].drops += off_colour * times;
    };
    if (design_.row_colours.empty()) {
      add(Other(run.colour), run.count);
      continue;
    }
    // The last row of a band has the band's first row above it, but for its last repetition.
    const bool ends_band = design_.row_band.has_value() && run.chart_row == design_.row_band->last;
    const int inner = ends_band ? std::min(run.count, wanted.row_repeats - 1) : 0;
    if (inner > 0) add(chart::RowColour(design_, design_.row_band->first), inner);
    if (run.count > inner) {
      add(chart::RowColour(design_, run.chart_row + 1), run.count - inner);
    }
  }
}

ChartCounts StitchCounter::Count(int size, int last_row) const {
  ROWPROOF_CHECK(last_row >= 1 && last_row <= chart::ExpandedRows(design_, size));
  const chart::Size& wanted = design_.sizes[static_cast<size_t>(size)];
  const bool working = design_.convention == chart::Convention::kWorking;
  ChartCounts counts;
  counts.stitches = chart::ExpandedStitches(design_, size);
  counts.rows = last_row;
  for (const Run& run : RunsUpTo(wanted.row_repeats, last_row)) {
    ColourCounts& colour = counts.colours[static_cast<size_t>(run.colour)];
    colour.rows += run.count;
    colour.first_row = colour.first_row == 0 ? run.first : std::min(colour.first_row, run.first);
    colour.last_row = std::max(colour.last_row, run.first + (run.count - 1) * run.step);
    if (working) colour.drops += run.count * SetCellsOf(run.chart_row, wanted.stitch_repeats);
  }
  if (!working) AddPictureDrops(size, last_row, counts);
  for (ColourCounts& colour : counts.colours) {
    colour.plain = int64_t{colour.rows} * counts.stitches - colour.drops;
  }
  return counts;
}

}  // namespace rowproof::estimate
