#include "services/drawing/chart_drawing.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/chart_key.h"
#include "services/drawing/chart_model.h"
#include "services/drawing/chart_pages.h"
#include "services/drawing/chart_painter.h"
#include "services/drawing/document.h"
#include "services/drawing/flow.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {
namespace {

constexpr int kLeastCellPixels = 4;
constexpr int kMostCellPixels = 64;
constexpr int kMostPictureSide = 30000;
constexpr int64_t kMostSvgCells = 1'000'000;

// A chart in one picture: title above, key below, a margin around.
class Picture {
 public:
  Picture(const Typesetter& typesetter, const ChartModel& model, const ChartLook& look,
          const ChartOptions& options)
      : typesetter_(typesetter), model_(model), look_(look), room_(RoomAround(model, look)) {
    const double chart = room_.left + model.stitches * look.cell + room_.right;
    const double body = std::max(chart, 40 * look.font);
    margin_ = 1.5 * look.font;
    indent_ = (body - chart) / 2;
    width_ = body + 2 * margin_;
    key_ = std::make_unique<ChartKey>(typesetter, model, look, options, look.font, body);
    TextStyle style;
    style.size = 1.6 * look.font;
    style.bold = true;
    style.width = body;
    style.most_lines = 2;
    title_ = typesetter.Set(options.title, style);
    title_height_ = options.title.empty() ? 0 : title_.height() + look.font;
    chart_height_ = room_.above + model.rows * look.cell + room_.below;
    height_ = margin_ + title_height_ + chart_height_ + look.font + key_->height() + margin_;
  }

  double width() const { return width_; }
  double height() const { return height_; }

  void Paint(cairo_t* cr) const {
    SetColour(cr, {0.08, 0.09, 0.12});
    if (title_height_ > 0) title_.Draw(cr, margin_, margin_);
    // Whole units, so that cells are sharp in a picture of pixels.
    const double x = std::round(margin_ + indent_ + room_.left);
    const double y = std::round(margin_ + title_height_ + room_.above);
    PaintChart(cr, typesetter_, model_, look_, WholeChart(model_), x, y);
    key_->Paint(cr, margin_, margin_ + title_height_ + chart_height_ + look_.font);
  }

 private:
  const Typesetter& typesetter_;
  const ChartModel& model_;
  const ChartLook look_;
  const ChartRoom room_;
  std::unique_ptr<ChartKey> key_;
  Text title_;
  double margin_ = 0;
  double indent_ = 0;
  double width_ = 0;
  double height_ = 0;
  double title_height_ = 0;
  double chart_height_ = 0;
};

}  // namespace

absl::StatusOr<std::string> ChartPdf(const chart::Design& design, const ChartOptions& options) {
  if (auto status = Validate(options); !status.ok()) return status;
  auto model = ChartModel::Make(design, options.shown, options.hand);
  if (!model.ok()) return model.status();
  auto typesetter = Typesetter::Open();
  if (!typesetter.ok()) return typesetter.status();
  Flow flow(*typesetter, ShapeOf(options.paper));
  const std::string heading =
      model->shown == chart::Convention::kPicture ? "Picture chart" : "Working chart";
  ChartPages pages(*typesetter, *std::move(model), options);
  if (!options.title.empty()) {
    TextStyle style;
    style.size = 16;
    style.bold = true;
    style.most_lines = 2;
    flow.Paragraph(options.title, style);
  }
  if (auto status = pages.AddTo(flow, heading); !status.ok()) return status;
  DocumentFacts facts;
  facts.title = options.title.empty() ? heading : options.title;
  facts.header_right = heading;
  facts.date = options.date;
  return WritePdf(flow, facts);
}

absl::StatusOr<std::string> ChartPng(const chart::Design& design, const ChartOptions& options,
                                     int cell_pixels) {
  if (auto status = Validate(options); !status.ok()) return status;
  if (cell_pixels < kLeastCellPixels || cell_pixels > kMostCellPixels) {
    return InvalidField(
        "cell_pixels", std::to_string(cell_pixels),
        fmt::format("a whole number from {} to {}", kLeastCellPixels, kMostCellPixels));
  }
  auto model = ChartModel::Make(design, options.shown, options.hand);
  if (!model.ok()) return model.status();
  auto typesetter = Typesetter::Open();
  if (!typesetter.ok()) return typesetter.status();
  ChartLook look = PaperLook(cell_pixels, options);
  look.font = std::clamp(cell_pixels * 0.55, 9.0, 22.0);
  look.thin = 1;
  look.heavy = cell_pixels >= 24 ? 3 : 2;
  look.whole_pixels = true;
  const Picture picture(*typesetter, *model, look, options);
  const double width = std::ceil(picture.width());
  const double height = std::ceil(picture.height());
  if (width > kMostPictureSide || height > kMostPictureSide ||
      width * height > static_cast<double>(kMostPixels)) {
    return OverLimit(fmt::format("a picture of {:.0f} x {:.0f} pixels", width, height),
                     fmt::format("{} pixels, {} a side", kMostPixels, kMostPictureSide));
  }
  return WritePng(static_cast<int>(width), static_cast<int>(height),
                  [&](cairo_t* cr) { picture.Paint(cr); });
}

absl::StatusOr<std::string> ChartSvg(const chart::Design& design, const ChartOptions& options) {
  if (auto status = Validate(options); !status.ok()) return status;
  auto model = ChartModel::Make(design, options.shown, options.hand);
  if (!model.ok()) return model.status();
  const int64_t cells = static_cast<int64_t>(model->rows) * model->stitches;
  if (cells > kMostSvgCells) {
    return OverLimit(fmt::format("an SVG of {} cells", cells),
                     fmt::format("{} cells", kMostSvgCells));
  }
  auto typesetter = Typesetter::Open();
  if (!typesetter.ok()) return typesetter.status();
  const Picture picture(*typesetter, *model, PaperLook(12, options), options);
  return WriteSvg(picture.width(), picture.height(), [&](cairo_t* cr) { picture.Paint(cr); });
}

absl::Status Validate(const ChartOptions& options) {
  for (const auto& [field, colour] :
       {std::pair{"colour_a", options.colour_a}, std::pair{"colour_b", options.colour_b}}) {
    for (const double part : {colour.red, colour.green, colour.blue}) {
      if (!(part >= 0 && part <= 1)) {
        return InvalidField(field, fmt::format("{}", part), "parts from 0 to 1");
      }
    }
  }
  for (const auto& [field, text] : {std::pair{"title", &options.title},
                                    {"name_a", &options.name_a},
                                    {"name_b", &options.name_b}}) {
    if (text->size() > kLongestTitle) {
      return InvalidField(field, fmt::format("{} bytes", text->size()),
                          fmt::format("at most {} bytes", kLongestTitle));
    }
  }
  return ValidateDate("date", options.date);
}

}  // namespace rowproof::drawing
