#include "services/domain/chart/conversion/convention_change.h"

#include <algorithm>
#include <bit>
#include <optional>
#include <string>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/marks.h"
#include "services/domain/errors.h"

namespace rowproof::chart {
namespace {

void AddMarksOfRow(const MarkRow& marks, int row, std::vector<Place>& places) {
  for (size_t i = 0; i < marks.words; ++i) {
    for (uint64_t word = marks.word(i); word != 0; word &= word - 1) {
      places.push_back({row, static_cast<int>(i * 64) + std::countr_zero(word) + 1});
    }
  }
}

// One colour a chart row, bottom first.
std::vector<Colour> RowColours(const Design& design) {
  std::vector<Colour> colours;
  colours.reserve(static_cast<size_t>(design.cells.rows()));
  for (int row = 1; row <= design.cells.rows(); ++row) colours.push_back(RowColour(design, row));
  return colours;
}

Grid MarksMoved(const Design& design, int rows_up) {
  const Marks marks(design);
  Grid moved(design.cells.rows(), design.cells.stitches());
  for (int row = 1; row <= moved.rows(); ++row) {
    const int from = row - rows_up;
    if (from < 1 || from > moved.rows()) continue;
    const MarkRow source = marks.row(from);
    const auto target = moved.mutable_row(row);
    for (size_t i = 0; i < source.words; ++i) target[i] = source.word(i);
  }
  return moved;
}

// The drawn rows without regard to the bands: neighbours stay neighbours.
Design WithCells(const Design& design, Convention convention) {
  Design changed = design;
  changed.convention = convention;
  if (convention == Convention::kWorking) {
    changed.cells = MarksMoved(design, 1);
    changed.picture_colours.clear();
  } else if (HasMoreThanTwoColours(design)) {
    changed.cells = MarksMoved(design, -1);
    changed.picture_colours = PictureColours(design.cells, RowColours(design));
  } else {
    changed.cells = PictureFromDrops(design.cells, RowColours(design));
  }
  return changed;
}

// What a maker works: the places in the chart are left out.
bool WorkedAlike(const Design& one, const Design& other) {
  for (int size = 0; size < static_cast<int>(one.sizes.size()); ++size) {
    const ExpandedSize a = Expand(one, size);
    const ExpandedSize b = Expand(other, size);
    if (a.drops != b.drops || a.row_colours != b.row_colours) return false;
  }
  return true;
}

absl::Status NoBandSaysTheSame(const Design& design, Convention convention) {
  const std::string sentence = fmt::format(
      "Rows {} to {} repeat in the {} chart, but not in the {} chart: what the last of them shows "
      "depends on the row that follows, which is another after the last repeat. Convert the chart "
      "without a repeat.",
      design.row_band->first, design.row_band->last, Name(design.convention), Name(convention));
  return UnmetConditions(sentence, {{"CANNOT_BE_CONVERTED", "row_band", sentence}});
}

}  // namespace

std::vector<Edit> TakeMarksAway(Design& design, std::vector<Place> places) {
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  std::vector<Edit> edits;
  edits.reserve(places.size());
  for (const Place& place : places) {
    Edit edit{place.row, place.stitch, false, std::nullopt};
    if (NamesColours(design)) {
      edit.colour = RowColour(design, place.row);
    } else {
      edit.value = !design.cells.at(place.row, place.stitch);
    }
    edits.push_back(edit);
  }
  for (const Edit& edit : edits) Apply(edit, design);
  return edits;
}

std::vector<Place> MarksLostIn(const Design& design, Convention convention) {
  std::vector<Place> places;
  if (convention == design.convention) return places;
  const Marks marks(design);
  const int rows = design.cells.rows();
  for (int row = 1; row <= rows; ++row) {
    const bool of_picture = design.convention == Convention::kPicture;
    const int lower = of_picture ? row : row - 1;
    if (lower < 1 || lower == rows || RowColour(design, lower) == RowColour(design, lower + 1)) {
      AddMarksOfRow(marks.row(row), row, places);
    } else if (of_picture && NamesColours(design)) {
      std::vector<Place> marked;
      AddMarksOfRow(marks.row(row), row, marked);
      for (const Place& place : marked) {
        const size_t cell = PictureCell(design, place.row, place.stitch);
        if (design.picture_colours[cell] != RowColour(design, row + 1)) places.push_back(place);
      }
    }
  }
  return places;
}

absl::StatusOr<Design> InConvention(const Design& design, Convention convention) {
  if (convention == design.convention) return design;
  Design changed = WithCells(design, convention);
  if (!design.row_band.has_value()) return changed;
  const int step = convention == Convention::kWorking ? 1 : -1;
  for (const int rows : {step, 0}) {
    const Band moved{design.row_band->first + rows, design.row_band->last + rows};
    if (moved.first < 1 || moved.last > design.cells.rows()) continue;
    changed.row_band = moved;
    if (WorkedAlike(design, changed)) return changed;
  }
  return NoBandSaysTheSame(design, convention);
}

}  // namespace rowproof::chart
