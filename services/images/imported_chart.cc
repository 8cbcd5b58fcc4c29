#include <algorithm>
#include <array>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/images/cell_colours.h"
#include "services/images/picture_reading.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

// More than one colour, up to the tolerance.
bool HasMarks(const Picture& picture, const Region& region, int tolerance) {
  if (region.x.length() <= 0 || region.y.length() <= 0) return false;
  PixelCounts counts(picture.palette().size(), 0);
  picture.Count(region, &counts);
  const std::vector<size_t> sorted = ByFrequency(picture.palette(), counts);
  const Rgb ground = picture.palette()[sorted.front()];
  return std::any_of(sorted.begin(), sorted.end(), [&](size_t number) {
    return Distance(picture.palette()[number], ground) > tolerance;
  });
}

MarkedSides FindMarks(const Picture& picture, const Region& used, int tolerance) {
  const Span across{0, picture.width()};
  const Span up{0, picture.height()};
  return {HasMarks(picture, {{0, used.x.begin}, up}, tolerance),
          HasMarks(picture, {across, {0, used.y.begin}}, tolerance),
          HasMarks(picture, {{used.x.end, picture.width()}, up}, tolerance),
          HasMarks(picture, {across, {used.y.end, picture.height()}}, tolerance)};
}

ImportReport ReportOf(const Picture& picture, const FoundCells& found,
                      const ImportSettings& settings) {
  ImportReport report;
  report.convention = settings.convention;
  report.width = picture.width();
  report.height = picture.height();
  report.cell_scale = found.HasSquares() ? found.cell_width : 0;
  report.cell_width = found.cell_width;
  report.cell_height = found.cell_height;
  report.cell_size_certain = found.certain;
  report.grid = found.grid;
  report.cut = MarginsOf(picture, found.used);
  report.marked = FindMarks(picture, found.used, settings.tolerance);
  report.colour_count = found.colours.taken.size();
  report.colours = found.colours.taken;
  if (report.colours.size() > kMostColoursReported) report.colours.resize(kMostColoursReported);
  return report;
}

const char* Meaning(chart::Colour colour, chart::Convention convention) {
  if (convention == chart::Convention::kPicture) return chart::Name(colour);
  return colour == chart::Colour::kA ? "plain" : "drop";
}

CellClass Exchanged(CellClass cell) { return cell <= 1 ? static_cast<CellClass>(1 - cell) : cell; }

bool AllSet(const chart::Grid& cells, int row) {
  const auto words = cells.row(row);
  return std::all_of(words.begin(), words.end() - 1, [](uint64_t word) { return ~word == 0; }) &&
         words.back() == cells.last_word_mask();
}

}  // namespace

absl::StatusOr<ImportedChart> ChartOf(const Picture& picture, const FoundCells& found,
                                      const ImportSettings& settings) {
  const CellClasses& classes = found.cells;
  const bool names_colours = CountOfLetters(settings) > 2;
  if (names_colours && settings.row_colours.size() != static_cast<size_t>(classes.rows)) {
    return Refusal("row_colours",
                   fmt::format("There are {} row colours for a chart of {} rows and {} stitches; "
                               "give one colour per row.",
                               settings.row_colours.size(), classes.rows, classes.stitches));
  }
  ImportedChart chart;
  chart.cells = chart::Grid(classes.rows, classes.stitches);
  for (int row = 1; row <= classes.rows; ++row) {
    for (int stitch = 1; stitch <= classes.stitches; ++stitch) {
      CellClass cell = classes.at(classes.rows - row, classes.stitches - stitch);
      if (settings.swap_colours) cell = Exchanged(cell);
      const auto colour = static_cast<chart::Colour>(cell);
      if (names_colours) {
        chart.picture_colours.push_back(colour);
        if (colour != settings.row_colours[static_cast<size_t>(row - 1)]) {
          chart.cells.set(row, stitch, true);
        }
      } else if (colour == chart::Colour::kB) {
        chart.cells.set(row, stitch, true);
      }
    }
  }
  chart.colour_a = found.colours.colour_a;
  chart.colour_b = found.colours.colour_b;
  chart.swap_colours_offered = settings.convention == chart::Convention::kPicture &&
                               !names_colours && AllSet(chart.cells, 1);
  chart.report = ReportOf(picture, found, settings);
  return chart;
}

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
