#include "services/drawing/charts/model.h"

#include <algorithm>
#include <array>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/cells.h"
#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

using chart::Band;
using chart::Convention;
using chart::Design;
using chart::Grid;

// "12 (16, 20) times", or "12 times" if all sizes agree.
std::string BySize(const Design& design, int chart::Size::*count) {
  std::string rest;
  bool differ = false;
  const int first = design.sizes.front().*count;
  for (size_t i = 1; i < design.sizes.size(); ++i) {
    differ = differ || design.sizes[i].*count != first;
    rest += fmt::format("{}{}", rest.empty() ? "" : ", ", design.sizes[i].*count);
  }
  if (differ) return fmt::format("{} ({}) times", first, rest);
  return first == 1 ? "once" : fmt::format("{} times", first);
}

std::string SizeNames(const Design& design) {
  std::string rest;
  for (size_t i = 1; i < design.sizes.size(); ++i) {
    rest += (rest.empty() ? "" : ", ") + design.sizes[i].name;
  }
  return rest.empty() ? "" : fmt::format("{} ({})", design.sizes.front().name, rest);
}

bool RowIsEmpty(const Grid& grid, int row) {
  const auto words = grid.row(row);
  return std::all_of(words.begin(), words.end(), [](uint64_t word) { return word == 0; });
}

void AddLabels(const Design& design, chart::Hand hand, ChartModel& model) {
  const int worked = chart::WorkedRows(design);
  for (int row = 1; row <= worked * model.rows; ++row) {
    RowLabel label;
    label.chart_row = chart::ChartRowOfWorkedRow(design, row);
    label.number = design.first_row_number + row - 1;
    label.side = chart::SideOfWorkedRow(design, row);
    label.at_right = chart::WorkedRowStartsAtStitchOne(design, row, hand);
    label.colour = model.row_colours[static_cast<size_t>(label.chart_row - 1)];
    model.labels.push_back(label);
  }
  model.highest_number = model.labels.back().number;
}

int PrintedFirst(const ChartModel& model, int chart_row) {
  for (const RowLabel& label : model.labels) {
    if (label.chart_row == chart_row) return label.number;
  }
  return 0;
}

int PrintedLast(const ChartModel& model, int chart_row) {
  int number = 0;
  for (const RowLabel& label : model.labels) {
    if (label.chart_row == chart_row) number = label.number;
  }
  return number;
}

void DescribeRepeats(const Design& design, ChartModel& model) {
  if (model.stitch_band.has_value()) {
    model.repeated_stitches =
        fmt::format("stitches {} to {}", model.stitch_band->first, model.stitch_band->last);
    model.stitch_times = BySize(design, &chart::Size::stitch_repeats);
  }
  if (model.row_band.has_value()) {
    model.repeated_rows = fmt::format("rows {} to {}", PrintedFirst(model, model.row_band->first),
                                      PrintedLast(model, model.row_band->last));
    model.row_times = BySize(design, &chart::Size::row_repeats);
  }
  if ((model.stitch_times + model.row_times).find('(') != std::string::npos) {
    model.sizes = SizeNames(design);
  }
}

void AddColours(ChartModel& model) {
  std::array<bool, chart::kMostColours> used{};
  for (const uint8_t colour : model.row_colours) used[colour] = true;
  for (const uint8_t colour : model.cell_colours) used[colour] = true;
  for (size_t colour = 0; colour < used.size(); ++colour) {
    if (used[colour]) model.colours.push_back(colour);
  }
}

}  // namespace

bool ChartModel::HeavyAfterRow(int chart_row) const {
  return (chart_row + before_first_) % 10 == 0;
}

absl::StatusOr<std::optional<Band>> ShownRowBand(const Design& design, Convention shown) {
  if (!design.row_band.has_value() || shown == design.convention) return design.row_band;
  const int step = shown == Convention::kWorking ? 1 : -1;
  const Band moved{design.row_band->first + step, design.row_band->last + step};
  const int rows = design.cells.rows();
  if (moved.first >= 1 && moved.last <= rows) return std::optional<Band>(moved);
  const Band& band = *design.row_band;
  bool same;
  if (shown == Convention::kWorking) {
    // The band ends in the picture's last row. Repeated or not, its first row
    // is then worked over the same stitches if neither the row before the band
    // nor that last row is off-colour.
    const Grid marks = OffColourCells(design);
    same = RowIsEmpty(marks, band.last) && (band.first == 1 || RowIsEmpty(marks, band.first - 1));
  } else {
    // The band starts in row 1. What its last row shows depends on the row
    // worked next.
    same = RowIsEmpty(design.cells, 1) &&
           (band.last == rows || RowIsEmpty(design.cells, band.last + 1));
  }
  if (same) return std::optional<Band>(band);
  return InvalidField("kind", fmt::format("the {} chart", chart::Name(shown)),
                      fmt::format("the {} chart that was given, or one size: repeated rows of one "
                                  "kind of chart are not rows of the other",
                                  chart::Name(design.convention)));
}

Design WrittenOut(const Design& design, int size, const Stop& stop) {
  const chart::ExpandedSize expanded = chart::Expand(design, size);
  Design written = design;
  written.stitch_band.reset();
  written.row_band.reset();
  written.sizes = {chart::Size{design.sizes[static_cast<size_t>(size)].name, 1, 1}};
  written.row_colours = expanded.row_colours;
  const int rows = static_cast<int>(expanded.chart_row.size());
  const int stitches = static_cast<int>(expanded.chart_stitch.size());
  written.cells = Grid(rows, stitches);
  written.picture_colours.clear();
  const auto width = static_cast<size_t>(design.cells.stitches());
  for (int row = 1; row <= rows; ++row) {
    if (stop.After(stitches)) break;
    const int chart_row = expanded.chart_row[static_cast<size_t>(row - 1)];
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      const int chart_stitch = expanded.chart_stitch[static_cast<size_t>(stitch - 1)];
      if (design.cells.at(chart_row, chart_stitch)) written.cells.set(row, stitch, true);
      if (design.picture_colours.empty()) continue;
      written.picture_colours.push_back(
          design.picture_colours[static_cast<size_t>(chart_row - 1) * width +
                                 static_cast<size_t>(chart_stitch - 1)]);
    }
  }
  return written;
}

absl::StatusOr<ChartModel> ChartModel::Make(const Design& design, std::optional<Convention> shown,
                                            chart::Hand hand, std::optional<int> size,
                                            const Stop& stop) {
  if (auto status = chart::Validate(design, stop); !status.ok()) return status;
  if (size.has_value()) {
    if (*size < 0 || static_cast<size_t>(*size) >= design.sizes.size()) {
      return InvalidField(
          "size", std::to_string(*size),
          fmt::format("one of the design's {} sizes, counted from 0", design.sizes.size()));
    }
    const Design written = WrittenOut(design, *size, stop);
    if (!stop.status().ok()) return stop.status();
    auto model = Make(written, shown, hand, std::nullopt, stop);
    if (model.ok()) model->size_shown = design.sizes[static_cast<size_t>(*size)].name;
    return model;
  }
  ChartModel model;
  model.technique = design.technique;
  model.shown = shown.value_or(design.convention);
  auto band = ShownRowBand(design, model.shown);
  if (!band.ok()) return band.status();
  model.row_band = *band;
  model.stitch_band = design.stitch_band;
  model.rows = design.cells.rows();
  model.stitches = design.cells.stitches();
  model.left_handed = hand == chart::Hand::kLeft;
  model.tube = design.form == chart::Form::kTube;
  model.row_colours = RowColourIndices(design);
  // Two rows of inset share a chart row, whose lines then count chart rows.
  const chart::TechniqueFacts& facts = chart::FactsOf(design.technique);
  model.worked_rows = facts.worked_rows;
  model.before_first_ = facts.worked_rows > 1 ? 0 : design.first_row_number - 1;
  if (model.shown == Convention::kPicture) {
    model.cell_colours = PictureColours(design, stop);
    model.marks = OffColourCells(design, stop);
  } else {
    model.marks = DropCells(design, stop);
    if (facts.skips) model.chains = OffColourCells(design, stop);
  }
  if (!stop.status().ok()) return stop.status();
  if (design.foundation_colour.has_value()) {
    model.foundation = static_cast<size_t>(*design.foundation_colour);
  }
  model.foundation_number = design.first_row_number - 1;
  AddColours(model);
  AddLabels(design, hand, model);
  DescribeRepeats(design, model);
  return model;
}

}  // namespace rowproof::drawing
