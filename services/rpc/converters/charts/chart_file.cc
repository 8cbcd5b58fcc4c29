#include "services/rpc/converters/charts/chart_file.h"

#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<std::optional<images::Rgb>> ReadRgb(const std::string& field,
                                                   const std::string& text) {
  if (text.empty()) return std::optional<images::Rgb>();
  const auto rgb = images::ParseRgb(text);
  if (!rgb.has_value()) return InvalidField(field, text, "a colour such as #1e3a5f, or empty");
  return rgb;
}

absl::Status ReadMeanings(const v1::ChartFile& file, images::ImportSettings* settings) {
  ASSIGN_OR_RETURN(auto colour_a, ReadRgb("file.colour_a", file.colour_a()));
  ASSIGN_OR_RETURN(auto colour_b, ReadRgb("file.colour_b", file.colour_b()));
  settings->colour_a = colour_a;
  settings->colour_b = colour_b;
  if (file.colours_size() > static_cast<int>(images::kMostMeanings)) {
    return InvalidField("file.colours", fmt::format("{} colours", file.colours_size()),
                        fmt::format("at most {} colours", images::kMostMeanings));
  }
  for (int i = 0; i < file.colours_size(); ++i) {
    const std::string field = fmt::format("file.colours[{}]", i);
    const auto rgb = images::ParseRgb(file.colours(i).rgb());
    if (!rgb.has_value()) {
      return InvalidField(field + ".rgb", file.colours(i).rgb(), "a colour such as #1e3a5f");
    }
    ASSIGN_OR_RETURN(auto taken_for,
                     ColourFromProto(field + ".chart_colour", file.colours(i).chart_colour()));
    settings->meanings.push_back({*rgb, taken_for});
  }
  return absl::OkStatus();
}

absl::Status ReadLayout(const v1::ChartFile& file, images::ImportSettings* settings) {
  if (file.cell_scale() < 0 || file.cell_scale() > images::kLargestCellScale) {
    return InvalidField("file.cell_scale", std::to_string(file.cell_scale()),
                        fmt::format("1 to {}, or 0 to find it", images::kLargestCellScale));
  }
  if (file.cell_scale() > 0) settings->cell_scale = file.cell_scale();
  if (file.stitch_count() != 0) settings->stitches = file.stitch_count();
  if (file.row_count() != 0) settings->rows = file.row_count();
  settings->find_grid = !file.without_grid_search();
  settings->crop = {file.crop().left(), file.crop().top(), file.crop().right(),
                    file.crop().bottom()};
  if (!file.has_grid()) return absl::OkStatus();
  const auto& grid = file.grid();
  const auto pitch_is_wrong = [](double pitch) {
    return !std::isfinite(pitch) || pitch <= 0 || pitch > images::kLargestCellScale;
  };
  const std::string pitch =
      fmt::format("more than 0, at most {} pixels", images::kLargestCellScale);
  if (pitch_is_wrong(grid.pitch_x_px())) {
    return InvalidField("file.grid.pitch_x_px", fmt::format("{}", grid.pitch_x_px()), pitch);
  }
  if (pitch_is_wrong(grid.pitch_y_px())) {
    return InvalidField("file.grid.pitch_y_px", fmt::format("{}", grid.pitch_y_px()), pitch);
  }
  settings->grid = images::DeclaredGrid{grid.pitch_x_px(), grid.pitch_y_px(),
                                        grid.line_width_x_px(), grid.line_width_y_px()};
  return absl::OkStatus();
}

void AddMarkedSides(const images::MarkedSides& marked, v1::ImportReport* to) {
  if (marked.left) to->add_marked_sides(v1::PICTURE_SIDE_LEFT);
  if (marked.top) to->add_marked_sides(v1::PICTURE_SIDE_TOP);
  if (marked.right) to->add_marked_sides(v1::PICTURE_SIDE_RIGHT);
  if (marked.bottom) to->add_marked_sides(v1::PICTURE_SIDE_BOTTOM);
}

v1::RemovedGrid GridToProto(const images::GridLines& grid) {
  v1::RemovedGrid to;
  to.set_pitch_x_px(grid.pitch_x);
  to.set_pitch_y_px(grid.pitch_y);
  to.set_line_width_x_px(grid.line_width_x);
  to.set_line_width_y_px(grid.line_width_y);
  to.set_widest_line_px(grid.widest_line);
  to.set_vertical_line_count(grid.lines_across);
  to.set_horizontal_line_count(grid.lines_up);
  to.set_soft_edge_px(grid.soft_edge);
  for (const images::Rgb& colour : grid.line_colours) to.add_line_colours(images::Text(colour));
  to.set_declared(grid.declared);
  return to;
}

v1::ImportReport ReportToProto(const images::ImportReport& report) {
  v1::ImportReport to;
  to.set_format(EnumTo<v1::ChartFileFormat>(report.format));
  to.set_width_px(report.width);
  to.set_height_px(report.height);
  to.set_cell_scale(report.cell_scale);
  to.set_cell_size_certain(report.cell_size_certain);
  to.set_cell_width_px(report.cell_width);
  to.set_cell_height_px(report.cell_height);
  if (report.grid.has_value()) *to.mutable_grid() = GridToProto(*report.grid);
  to.mutable_cut()->set_left(report.cut.left);
  to.mutable_cut()->set_top(report.cut.top);
  to.mutable_cut()->set_right(report.cut.right);
  to.mutable_cut()->set_bottom(report.cut.bottom);
  AddMarkedSides(report.marked, &to);
  for (const auto& colour : report.colours) {
    auto* added = to.add_colours();
    added->set_rgb(images::Text(colour.colour));
    added->set_pixel_count(colour.pixels);
    added->set_chart_colour(ToProto(colour.taken_for));
  }
  to.set_colour_count(static_cast<int64_t>(report.colour_count));
  if (report.exported_as.has_value()) {
    to.set_exported_as(EnumTo<v1::Convention>(*report.exported_as));
  }
  std::string line;
  for (const char c : images::Describe(report) + "\n") {
    if (c != '\n') {
      line += c;
    } else if (!line.empty()) {
      to.add_sentences(std::exchange(line, {}));
    }
  }
  return to;
}

}  // namespace

absl::StatusOr<usecases::DesignFile> FromProto(const v1::ChartFile& file) {
  usecases::DesignFile read;
  read.content = file.content();
  ASSIGN_OR_RETURN(auto convention, EnumFrom("file.convention", file.convention(),
                                             chart::Convention::kPicture, 2, "picture or working"));
  read.settings.convention = convention;
  if (file.tolerance() < 0 || file.tolerance() > 255) {
    return InvalidField("file.tolerance", std::to_string(file.tolerance()), "0 to 255");
  }
  read.settings.tolerance = file.tolerance();
  read.settings.swap_colours = file.swap_colours();
  ASSIGN_OR_RETURN(auto row_colours, RowColoursFromProto("file.row_colours", file.row_colours()));
  read.settings.row_colours = std::move(row_colours);
  RETURN_IF_ERROR(ReadLayout(file, &read.settings));
  RETURN_IF_ERROR(ReadMeanings(file, &read.settings));
  return read;
}

v1::ImportedChart ToProto(const usecases::DesignFile& file, images::ImportedChart imported) {
  v1::ImportedChart to;
  chart::Design design;
  design.convention = file.settings.convention;
  design.row_colours = file.settings.row_colours;
  design.cells = std::move(imported.cells);
  design.picture_colours = std::move(imported.picture_colours);
  *to.mutable_chart() = ChartToProto(design);
  *to.mutable_report() = ReportToProto(imported.report);
  to.set_swap_colours_offered(imported.swap_colours_offered);
  return to;
}

absl::StatusOr<usecases::ExportSettings> FromProto(const v1::ExportChartRequest& request) {
  usecases::ExportSettings settings;
  ASSIGN_OR_RETURN(auto format, EnumFrom("format", request.format(), images::FileFormat::kPng, 9,
                                         "PNG, plain or raw PBM, PGM or PPM, CSV or TSV"));
  settings.format = format;
  if (request.cell_scale() < 0 || request.cell_scale() > images::kLargestCellScale) {
    return InvalidField("cell_scale", std::to_string(request.cell_scale()),
                        fmt::format("1 to {}, or 0 for 1", images::kLargestCellScale));
  }
  if (request.cell_scale() > 0) settings.cell_scale = request.cell_scale();
  if (request.colours_size() > static_cast<int>(chart::kMostColours)) {
    return InvalidField("colours", fmt::format("{} colours", request.colours_size()),
                        fmt::format("at most {} colours", chart::kMostColours));
  }
  for (int i = 0; i < request.colours_size(); ++i) {
    const auto rgb = images::ParseRgb(request.colours(i));
    if (!rgb.has_value()) {
      return InvalidField(fmt::format("colours[{}]", i), request.colours(i),
                          "a colour such as #1e3a5f");
    }
    settings.colours.push_back(*rgb);
  }
  return settings;
}

}  // namespace rowproof::rpc
