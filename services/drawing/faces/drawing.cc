#include "services/drawing/faces/drawing.h"

#include <utility>

#include "services/drawing/charts/painter.h"
#include "services/drawing/document.h"
#include "services/drawing/faces/caption.h"
#include "services/drawing/faces/model.h"
#include "services/drawing/faces/pages.h"
#include "services/drawing/faces/painter.h"
#include "services/drawing/flow.h"
#include "services/drawing/palette.h"
#include "services/drawing/picture.h"

namespace rowproof::drawing {
namespace {

constexpr double kUsualCellMm = 4.2;

FaceLook LookOf(double cell, double font, const Extent& extent, const DrawingRequest& request) {
  FaceLook look;
  look.cell = cell;
  look.row = cell * extent.row_height;
  look.font = font;
  look.colours = PaletteOf(request);
  return look;
}

Picture PictureOf(const Typesetter& typesetter, const FaceModel& model, const FaceLook& look,
                  const DrawingRequest& request) {
  PictureBody body;
  body.left = FaceRoomLeft(model, look);
  body.width = body.left + model.stitches * look.cell + look.font;
  body.height = model.rows() * look.row + FaceRoomBelow(look);
  body.paint = [&typesetter, &model, look](cairo_t* cr, double x, double y) {
    PaintFace(cr, typesetter, model, look, WholeFace(model), x, y);
  };
  return Picture(typesetter, request.title, FaceHeading(model), std::move(body), look.font,
                 [&](double width) {
                   return FaceCaption(typesetter, model, look, request, look.font, width);
                 });
}

absl::StatusOr<std::string> FacePdf(const Typesetter& typesetter, FaceModel model,
                                    const DrawingRequest& request, const Extent& extent) {
  const std::string heading = FaceHeading(model);
  // Short, next to the title.
  const char* const header = model.face == 1 ? "Face 1" : "Face 2, seen from behind";
  Flow flow(typesetter, ShapeOf(request.paper));
  FacePages pages(typesetter, std::move(model), request, extent);
  flow.Title(request.title);
  if (auto status = pages.AddTo(flow); !status.ok()) return status;
  DocumentFacts facts;
  facts.title = request.title.empty() ? heading : request.title;
  facts.header_right = header;
  facts.date = request.date;
  return WritePdf(flow, facts);
}

}  // namespace

absl::StatusOr<std::string> DrawFace(const Typesetter& typesetter, const chart::Design& design,
                                     const DrawingRequest& request, const Extent& extent,
                                     DrawingFormat format, const Stop& stop) {
  FaceModel model = FaceModel::Make(design, request, stop);
  if (!stop.status().ok()) return stop.status();
  if (format == DrawingFormat::kPdf) {
    return FacePdf(typesetter, std::move(model), request, extent);
  }
  if (format == DrawingFormat::kSvg) {
    const double cell = request.cell_mm.value_or(kUsualCellMm) * kPointsPerMm;
    const Picture picture =
        PictureOf(typesetter, model, LookOf(cell, kPaperFont, extent, request), request);
    return WriteSvg(typesetter, picture.width(), picture.height(),
                    [&](cairo_t* cr) { picture.Paint(cr); });
  }
  const int cell = CellPixels(extent, request);
  FaceLook look = LookOf(cell, PixelFont(cell), extent, request);
  look.whole_pixels = true;
  const Picture picture = PictureOf(typesetter, model, look, request);
  return WritePng(typesetter, picture.width(), picture.height(),
                  [&](cairo_t* cr) { picture.Paint(cr); });
}

}  // namespace rowproof::drawing
