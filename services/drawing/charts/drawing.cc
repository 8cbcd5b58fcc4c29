#include "services/drawing/charts/drawing.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/key.h"
#include "services/drawing/charts/labels.h"
#include "services/drawing/charts/model.h"
#include "services/drawing/charts/pages.h"
#include "services/drawing/charts/painter.h"
#include "services/drawing/charts/request_limits.h"
#include "services/drawing/document.h"
#include "services/drawing/extent.h"
#include "services/drawing/faces/drawing.h"
#include "services/drawing/flow.h"
#include "services/drawing/picture.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {
namespace {

constexpr double kUsualCellMm = 4.2;

const char* HeadingOf(const ChartModel& model) {
  return model.shown == chart::Convention::kPicture ? "Picture chart" : "Working chart";
}

Picture PictureOf(const Typesetter& typesetter, const ChartModel& model, const ChartLook& look,
                  const DrawingRequest& request) {
  const ChartRoom room = RoomAround(model, look);
  PictureBody body;
  body.left = room.left;
  body.above = room.above;
  body.width = room.left + model.stitches * look.cell + room.right;
  body.height = room.above + model.rows * look.cell + room.below;
  body.paint = [&typesetter, &model, look](cairo_t* cr, double x, double y) {
    PaintChart(cr, typesetter, model, look, WholeChart(model), x, y);
  };
  return Picture(
      typesetter, request.title, HeadingOf(model), std::move(body), look.font,
      [&](double width) { return ChartKey(typesetter, model, look, request, look.font, width); });
}

absl::StatusOr<std::string> ChartPdf(const Typesetter& typesetter, ChartModel model,
                                     const DrawingRequest& request) {
  Flow flow(typesetter, ShapeOf(request.paper));
  const std::string heading = HeadingOf(model);
  ChartPages pages(typesetter, std::move(model), request);
  flow.Title(request.title);
  const double taken = flow.y() - flow.shape().top_margin;
  if (auto status = pages.AddTo(flow, heading, taken); !status.ok()) return status;
  DocumentFacts facts;
  facts.title = request.title.empty() ? heading : request.title;
  facts.header_right = heading;
  facts.date = request.date;
  return WritePdf(flow, facts);
}

absl::StatusOr<std::string> ChartPng(const Typesetter& typesetter, const ChartModel& model,
                                     const DrawingRequest& request) {
  const int cell = CellPixels({model.stitches, model.rows}, request);
  const Picture picture = PictureOf(typesetter, model, PixelLook(cell, model, request), request);
  return WritePng(typesetter, picture.width(), picture.height(),
                  [&](cairo_t* cr) { picture.Paint(cr); });
}

absl::StatusOr<std::string> ChartSvg(const Typesetter& typesetter, const ChartModel& model,
                                     const DrawingRequest& request) {
  const double cell = request.cell_mm.value_or(kUsualCellMm) * kPointsPerMm;
  const Picture picture = PictureOf(typesetter, model, PaperLook(cell, model, request), request);
  return WriteSvg(typesetter, picture.width(), picture.height(),
                  [&](cairo_t* cr) { picture.Paint(cr); });
}

std::optional<chart::Convention> ConventionOf(const DrawingRequest& request) {
  if (!request.kind.has_value()) return std::nullopt;
  return *request.kind == DrawingKind::kPictureChart ? chart::Convention::kPicture
                                                     : chart::Convention::kWorking;
}

}  // namespace

absl::StatusOr<std::string> DrawChart(const chart::Design& design, const DrawingRequest& request,
                                      DrawingFormat format, const Stop& stop) {
  if (auto status = Validate(request); !status.ok()) return status;
  if (auto status = chart::Validate(design, stop); !status.ok()) return status;
  const auto extent = ExtentOf(design, request, format);
  if (!extent.ok()) return extent.status();
  auto typesetter = Typesetter::Open(&stop);
  if (!typesetter.ok()) return typesetter.status();
  if (IsFace(request)) return DrawFace(*typesetter, design, request, *extent, format, stop);
  auto model = ChartModel::Make(design, ConventionOf(request), request.hand, request.size, stop);
  if (!model.ok()) return model.status();
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
