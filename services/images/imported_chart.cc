#include "services/images/imported_chart.h"

#include <algorithm>
#include <array>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/images/cell_colours.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

// More than one colour, up to the tolerance.
bool HasMarks(const Picture& picture, const Region& region, int tolerance) {
  if (region.x.length() <= 0 || region.y.length() <= 0) return false;
  PixelCounts counts(picture.palette().size(), 0);
  picture.Count(region, &counts);
  const std::vector<size_t> sorted = ByFrequency(picture.palette(), counts);
  if (sorted.empty()) return false;  // the work has to stop
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
    if (picture.StopAfter(classes.stitches)) break;
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
  if (auto status = picture.stop_status(); !status.ok()) return status;
  return chart;
}

}  // namespace rowproof::images
