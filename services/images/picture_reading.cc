#include "services/images/picture_reading.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/images/axis_fit.h"
#include "services/images/cell_colours.h"
#include "services/images/cell_size.h"
#include "services/images/import_settings.h"
#include "services/images/imported_chart.h"
#include "services/images/layout.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

// The first change that is inside a cell, or 0.
int ChangeInsideACell(const std::vector<int>& changes, int scale) {
  const auto found = std::find_if(changes.begin(), changes.end(),
                                  [scale](int place) { return place % scale != 0; });
  return found == changes.end() ? 0 : *found;
}

absl::Status CheckGivenScale(const Region& region, const Changes& changes, int scale) {
  if (region.x.length() % scale != 0 || region.y.length() % scale != 0) {
    return Refusal(
        "cell_scale",
        fmt::format("{} pixels per cell do not divide a picture of {} x {} pixels; give a "
                    "scale that divides both sides.",
                    scale, region.x.length(), region.y.length()));
  }
  const int column = ChangeInsideACell(changes.columns, scale);
  const int line = ChangeInsideACell(changes.lines, scale);
  if (column == 0 && line == 0) return absl::OkStatus();
  const std::string place = column != 0 ? fmt::format("columns {} and {}", column, column + 1)
                                        : fmt::format("lines {} and {}", line, line + 1);
  return Refusal("cell_scale",
                 fmt::format("At {} pixels per cell the colour changes inside a cell, between {} "
                             "from the top left; give a scale at which every cell has one colour.",
                             scale, place));
}

// Cells are alike in long runs upwards, as a mean: hardly a chart drawn cell by cell, in which, as
// in noise, every other cell changes. Cells of a few pixels, read pixel by pixel, are.
bool IsCoarse(const Picture& picture, const CellClasses& cells) {
  constexpr double kLeastMeanRun = 2.5;
  int64_t runs = cells.stitches;
  for (int line = 1; line < cells.rows; ++line) {
    if (picture.StopAfter(cells.stitches / 4)) break;
    for (int column = 0; column < cells.stitches; ++column) {
      if (cells.at(line, column) != cells.at(line - 1, column)) ++runs;
    }
  }
  return static_cast<double>(cells.classes.size()) >= kLeastMeanRun * static_cast<double>(runs);
}

// A chart with a margin of the colour of its cells, or cells between lines of that colour: nothing
// is as small as a cell of the scale found. Not for a chart that can be worked as it is.
absl::Status CheckForBlocks(const Changes& changes, int scale) {
  const int least = std::min(LeastDistance(changes.columns), LeastDistance(changes.lines));
  if (least < kNarrowestFoundCell || least <= scale) return absl::OkStatus();
  return Refusal(
      "content",
      fmt::format(
          "Cells are at least {} pixels wide, but not from the picture's sides on (the first "
          "change of colour is at column {}, line {}), as in a chart with a margin or a "
          "scaled picture; crop the margin, or give the cell size or the numbers of "
          "stitches and rows.",
          least, changes.columns.front(), changes.lines.front()));
}

bool IsWorkableWith(const Picture& drawn, const CellClasses& cells,
                    const std::vector<chart::Colour>& row_colours, bool picture) {
  const auto row_class = [&](int row) {
    return row_colours.empty() ? static_cast<CellClass>((row + 1) % 2)
                               : static_cast<CellClass>(row_colours[static_cast<size_t>(row - 1)]);
  };
  for (int column = 0; column < cells.stitches; ++column) {
    if (drawn.StopAfter(cells.rows)) return false;
    bool below = false;
    for (int row = 1; row <= cells.rows; ++row) {
      const CellClass cell = cells.at(cells.rows - row, column);
      const bool mark = picture ? cell != row_class(row) : cell == 1;
      const bool may_be = picture ? row > 1 && row < cells.rows : row > 2;
      if (mark && (below || !may_be)) return false;
      below = mark;
    }
  }
  return true;
}

// Rows of twice the height that a square cell would have: no chart that can be worked has all its
// rows alike in pairs, so that the cells are as high as that where they then can be worked.
bool AreTall(const CellSize& found, const Changes& changes, const Region& region) {
  if (!found.square()) return false;
  int height = region.y.length();
  for (const int line : changes.lines) height = std::gcd(height, line);
  return found.width >= kNarrowestFoundCell && height == 2 * found.height;
}

absl::StatusOr<FoundCells> ReadCellsOf(const Picture& picture, const Region& region,
                                       const CellColours& colours, const CellSize& size,
                                       const std::string& field) {
  FoundCells found;
  found.used = region;
  found.colours = colours;
  found.cell_width = size.width;
  found.cell_height = size.height;
  found.certain = size.certain;
  found.layout = TouchingCells(region, size.width, size.height);
  if (auto s = CheckCellCount(found.layout, field); !s.ok()) return s;
  if (ReadCells(picture, found.layout, colours, &found.cells).has_value()) {
    return Internal("a cell of two colours between changes of colour");
  }
  if (auto s = picture.stop_status(); !s.ok()) return s;
  return found;
}

absl::StatusOr<FoundCells> ReadPlain(const Picture& picture, const Region& region,
                                     const ImportSettings& settings) {
  PixelCounts counts(picture.palette().size(), 0);
  picture.Count(region, &counts);
  auto colours = FindCellColours(picture, counts, settings);
  if (!colours.ok()) return colours.status();
  auto found = ReadTouching(picture, region, *colours, settings.cell_scale, "content");
  if (!found.ok() || settings.cell_scale.has_value()) return found;
  // That a coarse chart can be worked says little: blocks of an uneven height always can.
  const bool coarse = IsCoarse(picture, found->cells);
  const int shorter = std::min(found->cell_width, found->cell_height);
  if (coarse && shorter < kNarrowestFoundCell) found->certain = false;
  if (CountOfLetters(settings) > 2 || IsWorkable(picture, found->cells, settings)) return found;
  const Changes changes = FindChanges(picture, region, *colours);
  if (const CellSize size{found->cell_width, found->cell_height}; AreTall(size, changes, region)) {
    auto tall =
        ReadCellsOf(picture, region, *colours, {size.width, 2 * size.height, false}, "content");
    if (tall.ok() && IsWorkable(picture, tall->cells, settings)) return tall;
  }
  // Cells that are higher than wide, say, have the greatest common scale only.
  const int across = std::gcd(CommonDistance(changes.columns), region.x.length());
  const int up = std::gcd(CommonDistance(changes.lines), region.y.length());
  if (std::min(across, up) > shorter || coarse) found->certain = false;
  if (auto s = CheckForBlocks(changes, shorter); !s.ok()) return s;
  return found;
}

absl::StatusOr<FoundCells> ReadDeclared(const Picture& picture, const Region& region,
                                        const ImportSettings& settings) {
  FoundCells found;
  auto layout = DeclaredCells(region, *settings.grid);
  if (!layout.ok()) return layout.status();
  if (auto s = CheckCellCount(*layout, "grid"); !s.ok()) return s;
  found.layout = *std::move(layout);
  auto colours = FindCellColours(picture, CountInside(picture, found.layout), settings);
  if (!colours.ok()) return colours.status();
  found.colours = *std::move(colours);
  if (const auto mixed = ReadCells(picture, found.layout, found.colours, &found.cells)) {
    return Refusal(
        "grid", fmt::format("The cell in row {}, stitch {} has two colours, {} and {}; change the "
                            "pitch, line width (with soft edges) or crop, or raise the "
                            "tolerance.",
                            mixed->row, mixed->stitch, Text(mixed->one), Text(mixed->other)));
  }
  if (auto s = picture.stop_status(); !s.ok()) return s;
  found.used = region;
  const DeclaredGrid& grid = *settings.grid;
  const int columns = static_cast<int>(found.layout.columns.size());
  const int lines = static_cast<int>(found.layout.lines.size());
  const auto lines_of = [](const std::vector<Span>& cells, Span side, int width) {
    if (width == 0) return 0;
    return static_cast<int>(cells.size()) - 1 + (cells.front().begin > side.begin ? 1 : 0) +
           (cells.back().end < side.end ? 1 : 0);
  };
  if (grid.line_width_x == 0 && grid.line_width_y == 0 && region.x.length() % columns == 0 &&
      region.y.length() % lines == 0) {
    found.cell_width = region.x.length() / columns;
    found.cell_height = region.y.length() / lines;
    return found;
  }
  found.grid = GridLines{grid.pitch_x,
                         grid.pitch_y,
                         grid.line_width_x,
                         grid.line_width_y,
                         std::max(grid.line_width_x, grid.line_width_y),
                         lines_of(found.layout.columns, region.x, grid.line_width_x),
                         lines_of(found.layout.lines, region.y, grid.line_width_y),
                         0,
                         {},
                         true};
  return found;
}

bool HasOneClass(const CellClasses& cells) {
  return std::all_of(cells.classes.begin(), cells.classes.end(),
                     [&](CellClass cell) { return cell == cells.classes.front(); });
}

// A drawn line is thin compared with its cells; blocks of cells and single cells between are not.
bool LooksDrawn(const GridLines& grid) {
  constexpr int kLeastCell = 6;
  constexpr int kCellsToLine = 4;
  const double inside_x = grid.pitch_x - grid.line_width_x;
  const double inside_y = grid.pitch_y - grid.line_width_y;
  return inside_x >= kLeastCell && inside_y >= kLeastCell &&
         inside_x >= kCellsToLine * grid.line_width_x &&
         inside_y >= kCellsToLine * grid.line_width_y;
}

// Both readings explain the whole picture.
absl::StatusOr<FoundCells> Decide(const Picture& picture, FoundCells plain, FoundCells lined,
                                  const ImportSettings& settings) {
  const auto rows = static_cast<int>(settings.row_colours.size());
  if (rows > 0 && (plain.cells.rows == rows) != (lined.cells.rows == rows)) {
    return plain.cells.rows == rows ? std::move(plain) : std::move(lined);
  }
  const bool two = CountOfLetters(settings) == 2;
  const bool drawn = LooksDrawn(*lined.grid) && !HasOneClass(lined.cells);
  const bool workable = two && IsWorkable(picture, plain.cells, settings);
  const bool pixels = plain.cell_width == 1 && plain.cell_height == 1;
  if (workable && (!pixels || !drawn)) return plain;
  if (two && !workable && pixels && drawn) return lined;
  return Refusal(
      "content",
      fmt::format(
          "The picture may show {} rows and {} stitches without grid lines, or {} rows and "
          "{} stitches with lines every {:.4g} x {:.4g} pixels; say which by the cell scale "
          "or the grid.",
          plain.cells.rows, plain.cells.stitches, lined.cells.rows, lined.cells.stitches,
          lined.grid->pitch_x, lined.grid->pitch_y));
}

// Lines were seen, and but for its outer cells all was read between them: then a reading of one
// pixel a cell is accepted only if it can be worked.
bool MayStand(const Picture& picture, const FoundCells& plain, const GridSearch& lined,
              const ImportSettings& settings) {
  return !lined.uncertain || plain.cell_width > 1 || CountOfLetters(settings) > 2 ||
         IsWorkable(picture, plain.cells, settings);
}

absl::Status WithGridAdvice(const absl::Status& status, const std::string& nearly) {
  const ErrorDetail detail = DetailOf(status);
  if (detail.fields.empty() || detail.fields.front().field != "content") return status;
  return Refusal(
      "content",
      fmt::format(
          "{} {}; declare their pitch, line width and crop if there are any.",
          detail.fields.front().description,
          nearly.empty() ? "No grid lines were found that leave cells of one colour" : nearly));
}

absl::StatusOr<FoundCells> FindCells(const Picture& picture, const Region& region,
                                     const ImportSettings& settings) {
  auto plain = ReadPlain(picture, region, settings);
  GridSearch lined = FindGridLines(picture, region, settings);
  if (auto s = picture.stop_status(); !s.ok()) return s;
  if (plain.ok() && lined.found.has_value()) {
    return Decide(picture, *std::move(plain), *std::move(lined.found), settings);
  }
  if (lined.found.has_value()) return *std::move(lined.found);
  if (plain.ok() && MayStand(picture, *plain, lined, settings)) return plain;
  if (plain.ok()) {
    return WithGridAdvice(
        Refusal("content", fmt::format("Without grid lines the picture shows {} rows and {} "
                                       "stitches that cannot be worked; if that is right, "
                                       "give the cell scale.",
                                       plain->cells.rows, plain->cells.stitches)),
        lined.nearly);
  }
  GridSearch within = FindMargins(picture, region, settings);
  if (within.found.has_value()) return *std::move(within.found);
  return WithGridAdvice(plain.status(), lined.nearly);
}

// Cells that touch and fill the region, as many as the settings say; if only the stitches or only
// the rows are given, the cells are squares. If their sides are not whole numbers of pixels, as in
// a picture that was scaled, the pixels at a cell's sides are left out.
absl::StatusOr<FoundCells> ReadCounted(const Picture& picture, const Region& region,
                                       const ImportSettings& settings) {
  const double width = region.x.length();
  const double height = region.y.length();
  const double square = settings.stitches.has_value() ? width / *settings.stitches
                                                      : height / settings.rows.value_or(1);
  const int stitches = settings.stitches.value_or(static_cast<int>(std::lround(width / square)));
  const int rows = settings.rows.value_or(static_cast<int>(std::lround(height / square)));
  const char* const field = settings.stitches.has_value() ? "stitch_count" : "row_count";
  const auto refused = [&](const std::string& why) {
    return Refusal(field,
                   fmt::format("{} x {} pixels cannot show {} stitches and {} rows: {}; give "
                               "the numbers of the chart, and crop it to its own sides.",
                               width, height, stitches, rows, why));
  };
  if (stitches < 1 || rows < 1 || stitches > width || rows > height) {
    return refused("there are fewer pixels than cells");
  }
  const DeclaredGrid grid{width / stitches, height / rows, 0, 0};
  FoundCells found;
  auto layout = DeclaredCells(region, grid);
  if (!layout.ok()) return refused("the cells would have different sizes");
  if (auto s = CheckCellCount(*layout, field); !s.ok()) return s;
  const bool whole = region.x.length() % stitches == 0 && region.y.length() % rows == 0;
  const bool soft = !whole && std::min(grid.pitch_x, grid.pitch_y) >= kNarrowestFoundCell + 1;
  found.layout = soft ? WithoutEdges(*layout, 1).value_or(*layout) : *std::move(layout);
  auto colours = FindCellColours(picture, CountInside(picture, found.layout), settings);
  if (!colours.ok()) return colours.status();
  found.colours = *std::move(colours);
  if (const auto mixed = ReadCells(picture, found.layout, found.colours, &found.cells)) {
    return refused(fmt::format("row {}, stitch {} would have two colours, {} and {}", mixed->row,
                               mixed->stitch, Text(mixed->one), Text(mixed->other)));
  }
  if (auto s = picture.stop_status(); !s.ok()) return s;
  found.used = region;
  found.cell_width = static_cast<int>(std::lround(grid.pitch_x));
  found.cell_height = static_cast<int>(std::lround(grid.pitch_y));
  return found;
}

// What was read, if it has as many stitches and rows as the settings say; else the picture
// divided by these numbers.
absl::StatusOr<FoundCells> WithCounts(const Picture& picture, const Region& region,
                                      const ImportSettings& settings,
                                      absl::StatusOr<FoundCells> read) {
  if (read.ok()) {
    const absl::Status as_given = CheckCounts(*read, settings);
    const bool both = settings.stitches.has_value() && settings.rows.has_value();
    if (as_given.ok()) {
      read->certain = read->certain || both;
      return read;
    }
    if (settings.grid.has_value() || settings.cell_scale.has_value()) return as_given;
  }
  return ReadCounted(picture, region, settings);
}

// As the note says; no value if the picture is another.
std::optional<FoundCells> ReadNoted(const Picture& picture, const ImportSettings& settings,
                                    const FileNote& note) {
  if (!settings.crop.empty() || settings.grid.has_value() || settings.cell_scale.has_value() ||
      settings.stitches.has_value() || settings.rows.has_value() ||
      !GivenMeanings(settings).empty() || note.colours.size() > CountOfLetters(settings) ||
      picture.width() != note.stitches * note.cell_scale ||
      picture.height() != note.rows * note.cell_scale) {
    return std::nullopt;
  }
  ImportSettings noted = settings;
  noted.cell_scale = note.cell_scale;
  noted.tolerance = 0;
  for (size_t i = 0; i < note.colours.size(); ++i) {
    noted.meanings.push_back({note.colours[i], static_cast<chart::Colour>(i)});
  }
  if (!CheckSettings(noted).ok()) return std::nullopt;
  auto found = ReadPlain(picture, picture.whole(), noted);
  return found.ok() ? std::optional<FoundCells>(*std::move(found)) : std::nullopt;
}

}  // namespace

bool IsWorkable(const Picture& drawn, const CellClasses& cells, const ImportSettings& settings) {
  const bool picture = settings.convention == chart::Convention::kPicture;
  if (settings.row_colours.size() == static_cast<size_t>(cells.rows)) {
    return IsWorkableWith(drawn, cells, settings.row_colours, picture);
  }
  return IsWorkableWith(drawn, cells, {}, picture);
}

absl::StatusOr<FoundCells> ReadTouching(const Picture& picture, const Region& region,
                                        const CellColours& colours, std::optional<int> scale,
                                        const std::string& field) {
  const Changes changes = FindChanges(picture, region, colours);
  if (auto s = picture.stop_status(); !s.ok()) return s;
  CellSize size;
  if (scale.has_value()) {
    if (auto s = CheckGivenScale(region, changes, *scale); !s.ok()) return s;
    size = {*scale, *scale, true};
  } else {
    size = FindCellSize(changes, region);
  }
  return ReadCellsOf(picture, region, colours, size, field);
}

absl::Status CheckCounts(const FoundCells& found, const ImportSettings& settings) {
  const auto check = [](const char* field, std::optional<int> given, int read) {
    if (!given.has_value() || *given == read) return absl::OkStatus();
    return Refusal(field,
                   fmt::format("The chart has {}, not {}; give its own number, or leave this "
                               "unset.",
                               read, *given));
  };
  if (auto s = check("stitch_count", settings.stitches, found.cells.stitches); !s.ok()) return s;
  return check("row_count", settings.rows, found.cells.rows);
}

absl::StatusOr<ImportedChart> ReadPicture(const Picture& picture, const ImportSettings& settings,
                                          FileFormat format, const std::optional<FileNote>& note) {
  if (auto s = CheckCrop(picture, settings.crop); !s.ok()) return s;
  const Region region = Within(picture, settings.crop);
  std::optional<FoundCells> found;
  if (note.has_value()) found = ReadNoted(picture, settings, *note);
  const bool noted = found.has_value();
  if (!noted) {
    auto read = settings.grid.has_value() ? ReadDeclared(picture, region, settings)
                : settings.cell_scale.has_value() || !settings.find_grid
                    ? ReadPlain(picture, region, settings)
                    : FindCells(picture, region, settings);
    if (settings.stitches.has_value() || settings.rows.has_value()) {
      read = WithCounts(picture, region, settings, std::move(read));
    }
    if (auto s = picture.stop_status(); !s.ok()) return s;
    if (!read.ok()) return read.status();
    found = *std::move(read);
  }
  auto chart = ChartOf(picture, *found, settings);
  if (!chart.ok()) return chart;
  chart->report.format = format;
  if (noted) chart->report.exported_as = note->convention;
  return chart;
}

}  // namespace rowproof::images
