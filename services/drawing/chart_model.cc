#include "services/drawing/chart_model.h"

#include <algorithm>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"

namespace rowproof::drawing {
namespace {

using chart::Band;
using chart::Convention;
using chart::Design;
using chart::Grid;

std::vector<chart::Colour> RowColours(const Design& design) {
  std::vector<chart::Colour> colours;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    colours.push_back(chart::RowColour(design, row));
  }
  return colours;
}

// "12 (16, 20) times", or "12 times" where all sizes agree.
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

Grid OffColour(const Grid& picture, const std::vector<chart::Colour>& colours) {
  Grid marks(picture.rows(), picture.stitches());
  for (int row = 1; row <= picture.rows(); ++row) {
    const auto source = picture.row(row);
    const auto target = marks.mutable_row(row);
    const bool b = colours[static_cast<size_t>(row - 1)] == chart::Colour::kB;
    for (size_t i = 0; i < source.size(); ++i) target[i] = b ? ~source[i] : source[i];
    target.back() &= marks.last_word_mask();
  }
  return marks;
}

void AddLabels(const Design& design, chart::Hand hand, ChartModel& model) {
  const bool inset = design.technique == chart::Technique::kInset;
  const int worked = inset ? 2 * model.rows : model.rows;
  for (int row = 1; row <= worked; ++row) {
    RowLabel label;
    label.chart_row = inset ? (row + 1) / 2 : row;
    label.number = design.first_row_number + row - 1;
    label.side = chart::SideOfRow(design, row);
    label.at_right = chart::StartsAtStitchOne(design, row, hand);
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
    model.stitch_repeat =
        fmt::format("stitches {} to {}: {}", model.stitch_band->first, model.stitch_band->last,
                    BySize(design, &chart::Size::stitch_repeats));
  }
  if (model.row_band.has_value()) {
    model.row_repeat = fmt::format("rows {} to {}: {}", PrintedFirst(model, model.row_band->first),
                                   PrintedLast(model, model.row_band->last),
                                   BySize(design, &chart::Size::row_repeats));
  }
  if ((model.stitch_repeat + model.row_repeat).find('(') != std::string::npos) {
    model.sizes = SizeNames(design);
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
  const std::vector<chart::Colour> colours = RowColours(design);
  bool same;
  if (shown == Convention::kWorking) {
    // The band ends in the picture's last row. Repeated or not, its first row is then worked over
    // the same stitches if neither the row before the band nor that last row is off-colour.
    const Grid marks = OffColour(design.cells, colours);
    same = RowIsEmpty(marks, band.last) && (band.first == 1 || RowIsEmpty(marks, band.first - 1));
  } else {
    // The band starts in row 1. What its last row shows depends on the row worked next.
    same = RowIsEmpty(design.cells, 1) &&
           (band.last == rows || RowIsEmpty(design.cells, band.last + 1));
  }
  if (same) return std::optional<Band>(band);
  return InvalidField("shown", chart::Name(shown),
                      fmt::format("\"{}\", the chart as it was given: its repeated rows are not "
                                  "rows of the other chart",
                                  chart::Name(design.convention)));
}

absl::StatusOr<ChartModel> ChartModel::Make(const Design& design, std::optional<Convention> shown,
                                            chart::Hand hand) {
  if (auto status = chart::Validate(design); !status.ok()) return status;
  ChartModel model;
  model.shown = shown.value_or(design.convention);
  auto band = ShownRowBand(design, model.shown);
  if (!band.ok()) return band.status();
  model.row_band = *band;
  model.stitch_band = design.stitch_band;
  model.rows = design.cells.rows();
  model.stitches = design.cells.stitches();
  model.left_handed = hand == chart::Hand::kLeft;
  model.row_colours = RowColours(design);
  // Two rows of inset share a chart row, whose lines then count chart rows.
  const bool inset = design.technique == chart::Technique::kInset;
  model.before_first_ = inset ? 0 : design.first_row_number - 1;
  const bool given_as_picture = design.convention == Convention::kPicture;
  if (model.shown == Convention::kPicture) {
    model.picture =
        given_as_picture ? design.cells : chart::PictureFromDrops(design.cells, model.row_colours);
    model.marks = OffColour(model.picture, model.row_colours);
  } else {
    model.marks =
        given_as_picture ? chart::DropsFromPicture(design.cells, model.row_colours) : design.cells;
  }
  AddLabels(design, hand, model);
  DescribeRepeats(design, model);
  return model;
}

}  // namespace rowproof::drawing
