#include "services/rpc/converters/charts/drawing.h"

#include <string>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

absl::Status ReadColours(const v1::DrawChartRequest& request, usecases::DrawingRequest* read) {
  const int most = static_cast<int>(chart::kMostColours);
  if (request.colours_size() > most || request.colour_names_size() > most) {
    const bool names = request.colours_size() <= most;
    return InvalidField(
        names ? "colour_names" : "colours",
        fmt::format("{} entries", names ? request.colour_names_size() : request.colours_size()),
        fmt::format("at most {}, A first", most));
  }
  for (int i = 0; i < request.colours_size(); ++i) {
    const auto rgb = images::ParseRgb(request.colours(i));
    if (!rgb.has_value()) {
      return InvalidField(fmt::format("colours[{}]", i), request.colours(i),
                          "a colour such as #1e3a5f");
    }
    read->colours.push_back({rgb->red / 255.0, rgb->green / 255.0, rgb->blue / 255.0});
  }
  read->names.assign(request.colour_names().begin(), request.colour_names().end());
  return absl::OkStatus();
}

void ReadMeasures(const v1::DrawChartRequest& request, usecases::DrawingRequest* read) {
  if (request.has_cell_size_px()) read->cell_pixels = request.cell_size_px();
  if (request.has_cell_size_mm()) read->cell_mm = request.cell_size_mm();
  if (request.has_wrong_side_share()) read->wrong_side_share = request.wrong_side_share();
  if (request.has_gauge()) {
    read->gauge = {request.gauge().stitches_per_decimetre(), request.gauge().rows_per_decimetre()};
  }
}

}  // namespace

absl::StatusOr<usecases::DrawingFormat> FormatFrom(v1::DrawingFormat format) {
  return EnumFrom("format", format, usecases::DrawingFormat::kPng, 3, "PNG, SVG or PDF");
}

absl::StatusOr<usecases::DrawingRequest> FromProto(const v1::DrawChartRequest& request,
                                                   const chart::Design& design) {
  usecases::DrawingRequest read;
  if (request.kind() != v1::DRAWING_KIND_UNSPECIFIED) {
    ASSIGN_OR_RETURN(auto kind, SpecifiedEnumFrom<usecases::DrawingKind>(
                                    "kind", request.kind(), 4,
                                    "a picture chart, a working chart, face 1 "
                                    "or face 2"));
    read.kind = kind;
  }
  ASSIGN_OR_RETURN(auto hand,
                   EnumFrom("hand", request.hand(), chart::Hand::kRight, 2, "right or left"));
  read.hand = hand;
  ASSIGN_OR_RETURN(auto paper,
                   EnumFrom("paper", request.paper(), usecases::Paper::kA4, 2, "A4 or Letter"));
  read.paper = paper;
  read.title = request.title();
  if (!request.size().empty()) {
    ASSIGN_OR_RETURN(auto size, SizeIndex(design, request.size()));
    read.size = size;
  }
  ReadMeasures(request, &read);
  RETURN_IF_ERROR(ReadColours(request, &read));
  return read;
}

}  // namespace rowproof::rpc
