#include "services/drawing/face_drawing.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/chart_painter.h"
#include "services/drawing/document.h"
#include "services/drawing/face_caption.h"
#include "services/drawing/face_model.h"
#include "services/drawing/face_painter.h"
#include "services/drawing/flow.h"
#include "services/drawing/palette.h"
#include "services/drawing/picture.h"

namespace rowproof::drawing {
namespace {

constexpr double kUsualCellMm = 4.2;
constexpr double kLargestCell = 20;  // points, where nothing is asked for
constexpr double kPaperFont = 7.5;
constexpr double kCaptionFont = 8;
constexpr double kHeading = 34;  // section heading with its space
constexpr double kGap = 12;

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
    PaintFace(cr, typesetter, model, look, x, y);
  };
  return Picture(typesetter, request.title, FaceHeading(model), std::move(body), look.font,
                 [&](double width) {
                   return FaceCaption(typesetter, model, look, request, look.font, width);
                 });
}

absl::Status TooLarge(double asked_mm, double most_mm) {
  const double most = std::floor(100 * most_mm) / 100;
  return InvalidField(
      "cell_mm", fmt::format("{}", asked_mm),
      most < kLeastCellMm
          ? fmt::format("none: a face stands on one page, which this fabric fills at {:.2f} mm",
                        most)
          : fmt::format("at most {:.2f} mm for this fabric, since a face stands on one page; or "
                        "none, to fill the page",
                        most));
}

absl::StatusOr<std::string> FacePdf(const Typesetter& typesetter, const FaceModel& model,
                                    const DrawingRequest& request, const Extent& extent) {
  Flow flow(typesetter, ShapeOf(request.paper));
  flow.Title(request.title);
  FaceLook look = LookOf(kLargestCell, kPaperFont, extent, request);
  const auto caption_for = [&] {
    return FaceCaption(typesetter, model, look, request, kCaptionFont, flow.width());
  };
  // The caption of a fabric with stitches is the longer one.
  const double high = flow.room() - kHeading - kGap - caption_for().height() - FaceRoomBelow(look);
  const double wide = flow.width() - FaceRoomLeft(model, look) - look.font;
  const double most = std::min(wide / model.stitches, high / (model.rows() * extent.row_height));
  const double cell =
      request.cell_mm.has_value() ? *request.cell_mm * kPointsPerMm : std::min(most, kLargestCell);
  if (cell > most) return TooLarge(*request.cell_mm, most / kPointsPerMm);
  look = LookOf(cell, kPaperFont, extent, request);
  const Legend caption = caption_for();
  const double fabric = model.rows() * look.row + FaceRoomBelow(look);
  flow.Section(FaceHeading(model), fabric + kGap + caption.height());
  const double width = FaceRoomLeft(model, look) + model.stitches * cell + look.font;
  const double indent = (flow.width() - width) / 2 + FaceRoomLeft(model, look);
  flow.Block(fabric, [&](cairo_t* cr, double x, double y) {
    PaintFace(cr, typesetter, model, look, x + indent, y);
  });
  flow.Gap(kGap);
  flow.Block(caption.height(), [&](cairo_t* cr, double x, double y) { caption.Paint(cr, x, y); });
  DocumentFacts facts;
  facts.title = request.title.empty() ? FaceHeading(model) : request.title;
  facts.header_right = FaceHeading(model);
  facts.date = request.date;
  return WritePdf(flow, facts);
}

}  // namespace

absl::StatusOr<std::string> DrawFace(const Typesetter& typesetter, const chart::Design& design,
                                     const DrawingRequest& request, const Extent& extent,
                                     DrawingFormat format) {
  const FaceModel model = FaceModel::Make(design, request);
  if (format == DrawingFormat::kPdf) return FacePdf(typesetter, model, request, extent);
  if (format == DrawingFormat::kSvg) {
    const double cell = request.cell_mm.value_or(kUsualCellMm) * kPointsPerMm;
    const Picture picture =
        PictureOf(typesetter, model, LookOf(cell, kPaperFont, extent, request), request);
    return WriteSvg(picture.width(), picture.height(), [&](cairo_t* cr) { picture.Paint(cr); });
  }
  const int cell = CellPixels(extent, request);
  FaceLook look = LookOf(cell, PixelFont(cell), extent, request);
  look.whole_pixels = true;
  const Picture picture = PictureOf(typesetter, model, look, request);
  return WritePng(picture.width(), picture.height(), [&](cairo_t* cr) { picture.Paint(cr); });
}

}  // namespace rowproof::drawing
