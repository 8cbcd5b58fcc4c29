#include "services/domain/estimate/stitch_counts.h"

#include <algorithm>

#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/check.h"

namespace rowproof::estimate {

using chart::Colour;

StitchCounter::StitchCounter(const chart::Design& design)
    : design_(design),
      skips_(chart::FactsOf(design.technique).skips),
      worked_rows_(chart::FactsOf(design.technique).worked_rows),
      marks_(design, skips_) {}

Colour StitchCounter::ColourOf(int chart_row, int expanded_row) const {
  return chart::RowColour(design_, design_.row_colours.empty() ? expanded_row : chart_row);
}

MarkCounts::Marks StitchCounter::OffColour(int chart_row, Colour colour) const {
  // Set cells of a picture show B, unless it names its colours: then they are off-colour.
  return {chart_row, design_.picture_colours.empty() && colour != Colour::kA};
}

// Its repetitions, apart if they have other neighbours or colours.
void StitchCounter::AddBandRow(int chart_row, int row_repeats, int last_row,
                               std::vector<Run>& runs) const {
  const chart::Band& band = *design_.row_band;
  const int length = band.length();
  const int rows = design_.cells.rows();
  const auto add = [&](int from, int to, int stride) {  // repetitions, from 0
    const int first = chart_row + from * length;
    to = std::min(to, (last_row - chart_row) / length);
    if (from > to || first > last_row) return;
    Run run = {chart_row, chart_row - 1,   chart_row + 1,
               first,     stride * length, (to - from) / stride + 1};
    if (chart_row == band.first && from > 0) run.below = band.last;
    if (chart_row == band.last && from < row_repeats - 1) run.above = band.first;
    if (run.above > rows) run.above = 0;
    run.colour = ColourOf(chart_row, first);
    if (run.below > 0) run.colour_below = ColourOf(run.below, first - 1);
    runs.push_back(run);
  };
  // An odd band alternates its colours from one repetition to the next.
  const int stride = design_.row_colours.empty() && length % 2 == 1 ? 2 : 1;
  const auto add_all = [&](int from, int to) {
    for (int start = from; start < from + stride; ++start) add(start, to, stride);
  };
  if (chart_row != band.first && chart_row != band.last) return add_all(0, row_repeats - 1);
  add(0, 0, 1);
  add_all(1, row_repeats - 2);
  if (row_repeats > 1) add(row_repeats - 1, row_repeats - 1, 1);
}

std::vector<StitchCounter::Run> StitchCounter::RunsUpTo(int row_repeats, int last_row) const {
  const int rows = design_.cells.rows();
  std::vector<Run> runs;
  runs.reserve(static_cast<size_t>(rows) + 8);
  const auto& band = design_.row_band;
  for (int row = 1; row <= rows; ++row) {
    if (band.has_value() && row >= band->first && row <= band->last) {
      AddBandRow(row, row_repeats, last_row, runs);
      continue;
    }
    const bool above_band = band.has_value() && row > band->last;
    const int first = above_band ? row + (row_repeats - 1) * band->length() : row;
    if (first > last_row) break;
    Run run = {row, row - 1, row < rows ? row + 1 : 0, first, 1, 1};
    run.colour = ColourOf(row, first);
    if (run.below > 0) run.colour_below = ColourOf(run.below, first - 1);
    runs.push_back(run);
  }
  return runs;
}

ChartCounts StitchCounter::Count(int size, int last_row) const {
  ROWPROOF_CHECK(last_row >= 1 && last_row <= worked_rows_ * chart::ExpandedRows(design_, size));
  const chart::Size& wanted = design_.sizes[static_cast<size_t>(size)];
  const int repeats = wanted.stitch_repeats;
  const bool working = design_.convention == chart::Convention::kWorking;
  const int last_expanded = (last_row + worked_rows_ - 1) / worked_rows_;
  ChartCounts counts;
  counts.stitches = chart::ExpandedStitches(design_, size);
  counts.rows = last_row;
  const int64_t stitches = counts.stitches;
  for (const Run& run : RunsUpTo(wanted.row_repeats, last_expanded)) {
    ColourCounts& colour = counts.colours[static_cast<size_t>(run.colour)];
    const int last = run.first + (run.count - 1) * run.step;
    const int unworked = last == last_expanded ? last_expanded * worked_rows_ - last_row : 0;
    const int rows = run.count * worked_rows_ - unworked;
    const int first_row = (run.first - 1) * worked_rows_ + 1;
    colour.rows += rows;
    colour.chart_rows += run.count;
    colour.first_row = colour.first_row == 0 ? first_row : std::min(colour.first_row, first_row);
    colour.last_row = std::max(colour.last_row, std::min(last * worked_rows_, last_row));

    // An off-colour cell is a drop in the row above it.
    const bool has_drops = working || run.below > 0;
    const MarkCounts::Marks drops_at =
        working ? MarkCounts::Marks{run.chart_row, false} : OffColour(run.below, run.colour_below);
    int64_t drops = has_drops ? marks_.Count(drops_at, repeats, stitches) : 0;
    int64_t skipped = 0;
    if (skips_ && run.above > 0) {
      const MarkCounts::Marks skipped_at =
          working ? MarkCounts::Marks{run.above, false} : OffColour(run.chart_row, run.colour);
      skipped = marks_.Count(skipped_at, repeats, stitches);
      const int64_t spaces = marks_.Runs(skipped_at, repeats);
      if (has_drops) drops -= marks_.Both(drops_at, skipped_at, repeats, stitches);
      colour.chains += rows * (skipped + spaces);
      colour.chain_spaces += rows * spaces;
    }
    colour.drops += run.count * drops;  // filled in a chart row's first worked row
    colour.plain += rows * (stitches - skipped) - run.count * drops;
  }
  return counts;
}

}  // namespace rowproof::estimate
