#include "services/images/import_report.h"

#include <algorithm>

#include "fmt/format.h"

namespace rowproof::images {
namespace {

const char* Meaning(chart::Colour colour, chart::Convention convention) {
  if (convention == chart::Convention::kPicture) return chart::Name(colour);
  return colour == chart::Colour::kA ? "plain" : "drop";
}

}  // namespace

const char* Name(FileFormat format) {
  switch (format) {
    case FileFormat::kPng:
      return "PNG";
    case FileFormat::kPlainPbm:
      return "plain PBM";
    case FileFormat::kRawPbm:
      return "raw PBM";
    case FileFormat::kPlainPgm:
      return "plain PGM";
    case FileFormat::kRawPgm:
      return "raw PGM";
    case FileFormat::kPlainPpm:
      return "plain PPM";
    case FileFormat::kRawPpm:
      return "raw PPM";
    case FileFormat::kCsv:
      return "CSV";
    case FileFormat::kTsv:
      return "TSV";
  }
  return "";
}

std::string Describe(const ImportReport& report) {
  const bool table = report.format == FileFormat::kCsv || report.format == FileFormat::kTsv;
  const char* const unit = table ? "entries" : "pixels";
  std::string text = fmt::format("Read a {} of {} x {} {}.\n", Name(report.format), report.width,
                                 report.height, unit);
  if (report.exported_as.has_value()) {
    text +=
        fmt::format("Exported as a {} chart, says the file.\n", chart::Name(*report.exported_as));
  }
  if (!report.cut.empty()) {
    const Margins& cut = report.cut;
    text += fmt::format("Margins cut off: {} {} left, {} right, {} at the top, {} at the bottom",
                        cut.left, unit, cut.right, cut.top, cut.bottom);
    text += report.marked.any() ? ", with numbers or other marks in them.\n" : ".\n";
  }
  if (report.grid.has_value()) {
    const GridLines& grid = *report.grid;
    text +=
        fmt::format("Grid lines removed: {} vertical and {} horizontal{}, {} and {} pixels wide",
                    grid.lines_across, grid.lines_up, grid.declared ? " (as declared)" : "",
                    grid.line_width_x, grid.line_width_y);
    if (grid.widest_line > std::max(grid.line_width_x, grid.line_width_y)) {
      text += fmt::format(" (widest {})", grid.widest_line);
    }
    text += fmt::format(", every {:.4g} x {:.4g} pixels.\n", grid.pitch_x, grid.pitch_y);
    if (!grid.line_colours.empty()) {
      text += "Colour of the lines:";
      for (const Rgb colour : grid.line_colours) text += " " + Text(colour);
      text += ".\n";
    }
    if (grid.soft_edge > 0) {
      text +=
          fmt::format("Ignored: {} pixels along each side of a cell (soft edges of the lines).\n",
                      grid.soft_edge);
    }
  } else if (report.cell_width > 0) {
    text +=
        fmt::format("One cell is {} x {} {}{}.\n", report.cell_width, report.cell_height, unit,
                    report.cell_size_certain ? "" : " (not certain: check the size, or give it)");
  }
  for (const TakenColour& colour : report.colours) {
    text += fmt::format("{}: {} pixels, read as {}.\n", Text(colour.colour), colour.pixels,
                        Meaning(colour.taken_for, report.convention));
  }
  if (report.colour_count > report.colours.size()) {
    const size_t more = report.colour_count - report.colours.size();
    text += fmt::format("And {} more {}.\n", more, more == 1 ? "colour" : "colours");
  }
  return text;
}

}  // namespace rowproof::images
