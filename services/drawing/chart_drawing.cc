#include "services/drawing/chart_drawing.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/chart_key.h"
#include "services/drawing/chart_labels.h"
#include "services/drawing/chart_model.h"
#include "services/drawing/chart_pages.h"
#include "services/drawing/chart_painter.h"
#include "services/drawing/document.h"
#include "services/drawing/extent.h"
#include "services/drawing/flow.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {
namespace {

constexpr double kUsualCellMm = 4.2;

const char* HeadingOf(const ChartModel& model) {
  return model.shown == chart::Convention::kPicture ? "Picture chart" : "Working chart";
}

// A chart in one picture: title above, key below, a margin around.
class Picture {
 public:
  Picture(const Typesetter& typesetter, const ChartModel& model, const ChartLook& look,
          const DrawingRequest& request)
      : typesetter_(typesetter), model_(model), look_(look), room_(RoomAround(model, look)) {
    const double chart = room_.left + model.stitches * look.cell + room_.right;
    const double body = std::max(chart, 40 * look.font);
    margin_ = 1.5 * look.font;
    indent_ = (body - chart) / 2;
    width_ = body + 2 * margin_;
    key_ = std::make_unique<ChartKey>(typesetter, model, look, request, look.font, body);
    TextStyle style;
    style.size = 1.6 * look.font;
    style.bold = true;
    style.width = body;
    style.most_lines = 2;
    title_ = typesetter.Set(request.title, style);
    title_height_ = request.title.empty() ? 0 : title_.height() + look.font;
    chart_height_ = room_.above + model.rows * look.cell + room_.below;
    height_ = margin_ + title_height_ + chart_height_ + look.font + key_->height() + margin_;
  }

  double width() const { return width_; }
  double height() const { return height_; }

  void Paint(cairo_t* cr) const {
    SetColour(cr, kInk);
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

absl::StatusOr<std::string> ChartPdf(const Typesetter& typesetter, ChartModel model,
                                     const DrawingRequest& request) {
  Flow flow(typesetter, ShapeOf(request.paper));
  const std::string heading = HeadingOf(model);
  ChartPages pages(typesetter, std::move(model), request);
  if (!request.title.empty()) {
    TextStyle style;
    style.size = 16;
    style.bold = true;
    style.most_lines = 2;
    flow.Paragraph(request.title, style);
  }
  if (auto status = pages.AddTo(flow, heading); !status.ok()) return status;
  DocumentFacts facts;
  facts.title = request.title.empty() ? heading : request.title;
  facts.header_right = heading;
  facts.date = request.date;
  return WritePdf(flow, facts);
}

absl::StatusOr<std::string> ChartPng(const Typesetter& typesetter, const ChartModel& model,
                                     const DrawingRequest& request) {
  const int cell = CellPixels({model.stitches, model.rows}, request);
  const Picture picture(typesetter, model, PixelLook(cell, model, request), request);
  return WritePng(picture.width(), picture.height(), [&](cairo_t* cr) { picture.Paint(cr); });
}

absl::StatusOr<std::string> ChartSvg(const Typesetter& typesetter, const ChartModel& model,
                                     const DrawingRequest& request) {
  const double cell = request.cell_mm.value_or(kUsualCellMm) * kPointsPerMm;
  const Picture picture(typesetter, model, PaperLook(cell, model, request), request);
  return WriteSvg(picture.width(), picture.height(), [&](cairo_t* cr) { picture.Paint(cr); });
}

std::optional<chart::Convention> ConventionOf(const DrawingRequest& request) {
  if (!request.kind.has_value()) return std::nullopt;
  return *request.kind == DrawingKind::kPictureChart ? chart::Convention::kPicture
                                                     : chart::Convention::kWorking;
}

}  // namespace

absl::StatusOr<std::string> DrawChart(const chart::Design& design, const DrawingRequest& request,
                                      DrawingFormat format) {
  if (auto status = Validate(request); !status.ok()) return status;
  if (auto status = chart::Validate(design); !status.ok()) return status;
  if (request.kind == DrawingKind::kFaceOne || request.kind == DrawingKind::kFaceTwo) {
    return NotSupported("kind", "faces are not drawn yet");
  }
  if (auto extent = ExtentOf(design, request, format); !extent.ok()) return extent.status();
  auto model = ChartModel::Make(design, ConventionOf(request), request.hand, request.size);
  if (!model.ok()) return model.status();
  auto typesetter = Typesetter::Open();
  if (!typesetter.ok()) return typesetter.status();
  switch (format) {
    case DrawingFormat::kPng:
      return ChartPng(*typesetter, *model, request);
    case DrawingFormat::kSvg:
      return ChartSvg(*typesetter, *model, request);
    case DrawingFormat::kPdf:
      break;
  }
  return ChartPdf(*typesetter, *std::move(model), request);
}

}  // namespace rowproof::drawing
