#include "services/drawing/faces/pages.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/faces/caption.h"
#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

constexpr double kLargestCell = 20;  // points, if nothing is asked for
constexpr double kCaptionFont = 8;
constexpr double kHeading = 34;  // section heading with its space
constexpr double kGap = 12;

// The height of the highest `count` strips side by side.
double Highest(const std::vector<double>& heights, int count) {
  double highest = 0;
  for (size_t last = static_cast<size_t>(count); last < heights.size(); ++last) {
    highest = std::max(highest, heights[last] - heights[last - static_cast<size_t>(count)]);
  }
  return highest;
}

// As many strips as fit into `height` row pitches, whichever they are.
int StripsWithin(const std::vector<double>& heights, double height) {
  int fitting = 0;
  int too_many = static_cast<int>(heights.size());
  while (fitting + 1 < too_many) {
    const int middle = (fitting + too_many) / 2;
    (Highest(heights, middle) <= height ? fitting : too_many) = middle;
  }
  return fitting;
}

}  // namespace

FacePages::FacePages(const Typesetter& typesetter, FaceModel model, const DrawingRequest& request,
                     const Extent& extent)
    : typesetter_(typesetter),
      model_(std::move(model)),
      request_(request),
      extent_(extent),
      heights_(model_.Heights()) {}

FaceLook FacePages::LookAt(double cell) const {
  FaceLook look;
  look.cell = cell;
  look.row = cell * extent_.row_height;
  look.font = kPaperFont;
  look.colours = PaletteOf(request_);
  return look;
}

double FacePages::HeightOf(const ChartPart& part, const FaceLook& look) const {
  return look.row * (heights_[static_cast<size_t>(part.last_row)] -
                     heights_[static_cast<size_t>(part.first_row - 1)]);
}

double FacePages::LargestWhole(double width, double height) const {
  const FaceLook look = LookAt(kLargestCell);
  const double wide = width - FaceRoomLeft(model_, look) - look.font;
  const double high = height - FaceRoomBelow(look);
  return std::min(wide / model_.stitches, high / (model_.rows() * extent_.row_height));
}

absl::StatusOr<PagePlan> FacePages::PlanFor(const Flow& flow, double cell) const {
  const FaceLook look = LookAt(cell);
  const double wide = flow.shape().content_width() - FaceRoomLeft(model_, look) - look.font;
  const double high = flow.shape().content_height() - kPartHeading - FaceRoomBelow(look);
  const int across = static_cast<int>(wide / cell);
  const int down = StripsWithin(heights_, high / look.row);
  const int fewest_down = std::min(2, model_.rows());
  if (across < 2 || down < fewest_down) {
    const double most =
        std::min(wide / 2, high / (Highest(heights_, fewest_down) * extent_.row_height));
    return InvalidField(
        "cell_size_mm", fmt::format("{}", *request_.cell_mm),
        fmt::format("at most {:.2f} mm at this gauge, so that two rows fit on a page",
                    std::floor(100 * most / kPointsPerMm) / 100));
  }
  PagePlan plan = EvenPlan(model_.rows(), model_.stitches, cell, std::max(down, 2), across);
  plan.stitch_one_left = model_.face == 2;
  if (plan.pages() + 1 > kMostPages) {
    return OverLimit(fmt::format("a face that takes {} pages", plan.pages() + 1),
                     fmt::format("{} pages", kMostPages));
  }
  return plan;
}

absl::Status FacePages::AddTo(Flow& flow) {
  const double chosen = request_.cell_mm.value_or(0) * kPointsPerMm;
  const auto caption_at = [&](double cell) {
    caption_.emplace(
        FaceCaption(typesetter_, model_, LookAt(cell), request_, kCaptionFont, flow.width()));
  };
  // The caption of a fabric with stitches is the longer one.
  caption_at(chosen > 0 ? chosen : kLargestCell);
  const double others = kHeading + kGap + caption_->height();
  const double most = LargestWhole(flow.width(), flow.room() - others);
  if (chosen <= most) {
    const double cell = chosen > 0 ? chosen : std::min(most, kLargestCell);
    caption_at(cell);
    AddWhole(flow, cell, std::nullopt);
    return absl::OkStatus();
  }
  const auto plan = PlanFor(flow, chosen);
  if (!plan.ok()) return plan.status();
  AddWhole(flow, 0, *plan);
  for (int index = 0; index < plan->pages(); ++index) AddPart(flow, *plan, index);
  return absl::OkStatus();
}

void FacePages::AddWhole(Flow& flow, double cell, const std::optional<PagePlan>& plan) {
  flow.Section(FaceHeading(model_));
  if (plan.has_value()) {
    flow.Paragraph(
        fmt::format("The face takes {} pages, numbered below in working order: page 1 has stitch 1 "
                    "and the lowest row. Neighbouring pages overlap by one row or stitch.",
                    plan->pages()),
        TextStyle{});
    flow.Gap(8);
    cell =
        std::min(LargestWhole(flow.width(), flow.room() - kGap - caption_->height()), plan->cell);
  }
  const FaceLook look = LookAt(cell);
  const double fabric = model_.rows() * look.row + FaceRoomBelow(look);
  const double width = FaceRoomLeft(model_, look) + model_.stitches * cell + look.font;
  const double indent = (flow.width() - width) / 2 + FaceRoomLeft(model_, look);
  flow.Block(fabric, [this, look, indent, plan](cairo_t* cr, double x, double y) {
    PaintFace(cr, typesetter_, model_, look, WholeFace(model_), x + indent, y);
    if (!plan.has_value()) return;
    PaintPageNumbers(cr, typesetter_, *plan, x + indent, y, look.cell,
                     [&](int rows) { return look.row * heights_[static_cast<size_t>(rows)]; });
  });
  flow.Gap(kGap);
  flow.Block(caption_->height(),
             [this](cairo_t* cr, double x, double y) { caption_->Paint(cr, x, y); });
}

void FacePages::AddPart(Flow& flow, const PagePlan& plan, int index) {
  flow.NewPage();
  const ChartPart part = PartOf(plan, index);
  const FaceLook look = LookAt(plan.cell);
  const auto number = [&](int strip) {
    return model_.strips[static_cast<size_t>(strip - 1)].number;
  };
  AddPartHeading(flow, plan, index,
                 fmt::format("Face {}, page {} of {}: rows {} to {}, stitches {} to {}",
                             model_.face, index + 1, plan.pages(), number(part.first_row),
                             number(part.last_row), part.first_stitch, part.last_stitch));
  const double width = FaceRoomLeft(model_, look) + part.stitches() * look.cell + look.font;
  const double indent = (flow.width() - width) / 2 + FaceRoomLeft(model_, look);
  flow.Block(HeightOf(part, look) + FaceRoomBelow(look),
             [this, look, part, indent](cairo_t* cr, double x, double y) {
               PaintFace(cr, typesetter_, model_, look, part, x + indent, y);
             });
}

}  // namespace rowproof::drawing
