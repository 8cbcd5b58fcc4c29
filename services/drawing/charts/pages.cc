#include "services/drawing/charts/pages.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/key.h"
#include "services/drawing/charts/labels.h"

namespace rowproof::drawing {
namespace {

// Points. Cells of less than 2.7 mm are hard to follow with a ruler or a
// finger.
constexpr double kLargestCell = 17;
constexpr double kSmallestCell = 7.5;
constexpr double kLargestSplitCell = 11.5;
constexpr double kSmallestSplitCell = 8.5;
constexpr double kStep = 0.25;
constexpr double kHeading = 34;  // section heading with its space
constexpr double kKeyGap = 12;
constexpr double kKeyFont = 8;

// Rows of cells, if they are not worked rows.
const char* OfCells(const ChartModel& model) { return model.worked_rows > 1 ? "of cells " : ""; }

}  // namespace

ChartPages::ChartPages(const Typesetter& typesetter, ChartModel model,
                       const DrawingRequest& request)
    : typesetter_(typesetter), model_(std::move(model)), request_(request) {}

bool ChartPages::FitsOnePage(const PageShape& shape, double cell, double taken) const {
  const ChartRoom room = RoomAround(model_, PaperLook(cell, model_, request_));
  const double others = taken + kHeading + kKeyGap + key_->height();
  return room.left + model_.stitches * cell + room.right <= shape.content_width() &&
         room.above + model_.rows * cell + room.below + others <= shape.content_height();
}

PagePlan ChartPages::PlanFor(const PageShape& shape) const {
  PagePlan best;
  const double largest = ChosenCell().value_or(kLargestSplitCell);
  const double smallest = ChosenCell().value_or(kSmallestSplitCell);
  for (double cell = largest; cell >= smallest; cell -= kStep) {
    const ChartRoom room = RoomAround(model_, PaperLook(cell, model_, request_));
    const int across = static_cast<int>((shape.content_width() - room.left - room.right) / cell);
    const int down =
        static_cast<int>((shape.content_height() - kPartHeading - room.above - room.below) / cell);
    const PagePlan plan = EvenPlan(model_.rows, model_.stitches, cell, down, across);
    if (best.cell == 0 || plan.pages() < best.pages()) best = plan;
  }
  return best;
}

std::optional<double> ChartPages::ChosenCell() const {
  if (!request_.cell_mm.has_value()) return std::nullopt;
  return *request_.cell_mm * kPointsPerMm;
}

absl::Status ChartPages::AddTo(Flow& flow, const std::string& heading, double taken) {
  const ChartLook look = PaperLook(kLargestCell, model_, request_);
  key_ = std::make_unique<Legend>(
      ChartKey(typesetter_, model_, look, request_, kKeyFont, flow.width()));
  const double largest = ChosenCell().value_or(kLargestCell);
  const double smallest = ChosenCell().value_or(kSmallestCell);
  for (double cell = largest; cell >= smallest; cell -= kStep) {
    if (!FitsOnePage(flow.shape(), cell, taken)) continue;
    AddWhole(flow, heading, cell);
    return absl::OkStatus();
  }
  const PagePlan plan = PlanFor(flow.shape());
  if (plan.pages() + 1 > kMostPages) {
    return OverLimit(fmt::format("a chart that takes {} pages", plan.pages() + 1),
                     fmt::format("{} pages", kMostPages));
  }
  AddMap(flow, heading, plan);
  for (int index = 0; index < plan.pages(); ++index) AddPart(flow, plan, index);
  return absl::OkStatus();
}

void ChartPages::AddWhole(Flow& flow, const std::string& heading, double cell) {
  const ChartLook look = PaperLook(cell, model_, request_);
  const ChartRoom room = RoomAround(model_, look);
  const double height = room.above + model_.rows * cell + room.below;
  flow.Section(heading, height + kKeyGap + key_->height());
  const double width = room.left + model_.stitches * cell + room.right;
  const double indent = (flow.width() - width) / 2 + room.left;
  flow.Block(height, [this, look, room, indent](cairo_t* cr, double x, double y) {
    PaintChart(cr, typesetter_, model_, look, WholeChart(model_), x + indent, y + room.above);
  });
  flow.Gap(kKeyGap);
  flow.Block(key_->height(), [this](cairo_t* cr, double x, double y) { key_->Paint(cr, x, y); });
}

void ChartPages::AddMap(Flow& flow, const std::string& heading, const PagePlan& plan) {
  flow.Need(0.8 * flow.shape().content_height());
  flow.Section(heading);
  flow.Paragraph(
      fmt::format(
          "The chart has {} rows {}of {} stitches and takes {} pages, numbered on the map in "
          "working order: page 1 has row 1 and stitch 1. Neighbouring pages overlap by one "
          "row {}or stitch.",
          model_.rows, OfCells(model_), model_.stitches, plan.pages(), OfCells(model_)),
      TextStyle{});
  flow.Gap(8);
  const double high = flow.room() - kKeyGap - key_->height();
  const double scale = std::min({flow.width() / model_.stitches, high / model_.rows, 6.0});
  const double indent = (flow.width() - model_.stitches * scale) / 2;
  flow.Block(model_.rows * scale, [this, plan, scale, indent](cairo_t* cr, double x, double y) {
    PaintMap(cr, plan, x + indent, y, scale);
  });
  flow.Gap(kKeyGap);
  flow.Block(key_->height(), [this](cairo_t* cr, double x, double y) { key_->Paint(cr, x, y); });
}

namespace {

uint32_t Pixel(const Rgb& colour) {
  const auto part = [](double value) { return static_cast<uint32_t>(std::lround(value * 255)); };
  return part(colour.red) << 16 | part(colour.green) << 8 | part(colour.blue);
}

// One pixel per cell, so that a map of a million cells stays small.
void FillMap(cairo_surface_t* image, const ChartModel& model, const ChartLook& look) {
  std::array<uint32_t, chart::kMostColours> pixels{};
  for (size_t i = 0; i < pixels.size(); ++i) pixels[i] = Pixel(look.grounds[i]);
  const bool working = model.shown == chart::Convention::kWorking;
  cairo_surface_flush(image);
  unsigned char* data = cairo_image_surface_get_data(image);
  if (data == nullptr) return;  // the surface is in error, which the page's context reports
  const auto stride = static_cast<size_t>(cairo_image_surface_get_stride(image));
  for (int row = 1; row <= model.rows; ++row) {
    auto* line = reinterpret_cast<uint32_t*>(data + static_cast<size_t>(model.rows - row) * stride);
    for (int stitch = 1; stitch <= model.stitches; ++stitch) {
      const bool drop = working && model.marks.at(row, stitch);
      line[model.stitches - stitch] = drop ? Pixel(kInk) : pixels[model.ColourAt(row, stitch)];
    }
  }
  cairo_surface_mark_dirty(image);
}

}  // namespace

void ChartPages::PaintMap(cairo_t* cr, const PagePlan& plan, double x, double y,
                          double scale) const {
  const ChartLook look = PaperLook(plan.cell, model_, request_);
  cairo_surface_t* image =
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, model_.stitches, model_.rows);
  FillMap(image, model_, look);
  cairo_save(cr);
  cairo_translate(cr, x, y);
  cairo_scale(cr, scale, scale);
  cairo_set_source_surface(cr, image, 0, 0);
  cairo_pattern_set_filter(cairo_get_source(cr), CAIRO_FILTER_NEAREST);
  cairo_paint(cr);
  cairo_restore(cr);
  cairo_surface_destroy(image);
  PaintPageNumbers(cr, typesetter_, plan, x, y, scale, [scale](int rows) { return rows * scale; });
}

std::string ChartPages::PartHeading(const PagePlan& plan, const ChartPart& part, int index) const {
  // Printed numbers, as the labels have them.
  int first = 0;
  int last = 0;
  for (const RowLabel& label : model_.labels) {
    if (label.chart_row == part.first_row && first == 0) first = label.number;
    if (label.chart_row == part.last_row) last = label.number;
  }
  return fmt::format("Chart page {} of {}: rows {} to {}, stitches {} to {}", index + 1,
                     plan.pages(), first, last, part.first_stitch, part.last_stitch);
}

void ChartPages::AddPart(Flow& flow, const PagePlan& plan, int index) {
  flow.NewPage();
  const ChartPart part = PartOf(plan, index);
  const ChartLook look = PaperLook(plan.cell, model_, request_);
  const ChartRoom room = RoomAround(model_, look);
  AddPartHeading(flow, plan, index, PartHeading(plan, part, index));
  const double height = room.above + part.rows() * plan.cell + room.below;
  const double width = room.left + part.stitches() * plan.cell + room.right;
  const double indent = (flow.width() - width) / 2 + room.left;
  flow.Block(height, [this, look, room, part, indent](cairo_t* cr, double x, double y) {
    PaintChart(cr, typesetter_, model_, look, part, x + indent, y + room.above);
  });
}

}  // namespace rowproof::drawing
