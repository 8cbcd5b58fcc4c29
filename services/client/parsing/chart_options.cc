#include "services/client/parsing/chart_options.h"

#include <string_view>
#include <utility>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/choices.h"

namespace rowproof::client {
namespace {

// What was given, otherwise the usual.
const std::string& Or(const std::string& said, const std::string& usual) {
  return said.empty() ? usual : said;
}

// How a picture file becomes cells.
void AddReadingOptions(CLI::App& command, ChartOptions& o) {
  const auto shown = [](CLI::Option* option) { option->group(kChartGroup); };
  shown(AddWord(command, "--chart", o.chart, Charts(),
                "What the chart's cells show (default: picture)"));
  shown(command.add_option(
      "--row-colours", o.row_colours,
      "Colours of the rows from the bottom, such as ABAC or \"AB*20 C\" (default: "
      "A and B in turn)"));
  shown(command.add_option("--stitches", o.stitch_count,
                           "Stitches of the chart (default: found in the picture)"));
  shown(command.add_option("--rows", o.row_count,
                           "Rows of the chart (default: found in the picture)"));
  shown(command.add_option("--cell", o.cell,
                           "Width and height of a cell in pixels, such as 12x15 (default: found)"));
  shown(command.add_option("--cell-scale", o.cell_scale,
                           "Pixels along a cell's side (default: found in the picture)"));
  shown(
      command.add_option("--grid", o.grid,
                         "Grid lines: pixels from line to line and the line's width, such as 12/1 "
                         "or 12x10/1 (default: found in the picture)"));
  shown(AddSwitch(command, "--no-grid", o.without_grid, "There are no grid lines"));
  shown(command.add_option("--crop", o.crop,
                           "Pixels to cut off at the left, top, right and bottom, such as "
                           "40,0,40,25"));
  shown(
      command.add_option("--colour-a", o.colour_a, "Colour A as #rrggbb (default: the lightest)"));
  shown(command.add_option("--colour-b", o.colour_b,
                           "Colour B as #rrggbb (default: of two, the darker)"));
  shown(AddTexts(
      command, "--colour", o.colours,
      "Which yarn a colour of the picture stands for, such as C=#2f6f4f; may be repeated"));
  shown(command.add_option("--tolerance", o.tolerance,
                           "How far a pixel may be from the nearest of the colours, 0 to 255"));
  shown(AddSwitch(command, "--swap-colours", o.swap_colours,
                  "Exchange colours A and B after reading"));
}

void AddRowOptions(CLI::App& command, ChartOptions& o, const ChartUse& use) {
  const auto grouped = [](CLI::Option* option, bool shown) {
    option->group(shown ? kRowsGroup : kHiddenGroup);
  };
  grouped(AddWord(command, "--hand", o.hand, Hands(), "The maker's hand (default: right)"),
          use.hand);
  grouped(AddWord(command, "--terms", o.terms, TermsWords(),
                  "Stitch names (default: US, or what your own text says)"),
          use.terms);
  grouped(AddTexts(command, "--colour-name", o.colour_names,
                   "What the rows call colour A; again for B, and so on (default: the letters)"),
          use.colour_names);
  grouped(AddWord(command, "--repeats", o.repeats, RepeatStyles(),
                  "How repeats within a row are marked (default: brackets)"),
          use.rows);
  grouped(command.add_option("--nesting", o.nesting,
                             "Brackets within brackets in a row, 0 to 6 (default: 2)"),
          use.rows);
  grouped(AddSwitch(command, "--every-row", o.every_row,
                    "Write out every row instead of referring to earlier ones"),
          use.rows);
}

}  // namespace

CLI::Option* AddSwitch(CLI::App& command, const char* option, std::optional<bool>& value,
                       const char* help) {
  return command.add_flag_function(
      option, [&value](std::int64_t count) { value = count > 0; }, help);
}

CLI::Option* AddTexts(CLI::App& command, const char* option, std::vector<std::string>& values,
                      const char* help) {
  return command.add_option(option, values, help)->expected(1)->take_all();
}

void AddChartOptions(CLI::App& command, ChartOptions& o, const ChartUse& use) {
  const auto grouped = [](CLI::Option* option, bool shown) {
    option->group(shown ? kChartGroup : kHiddenGroup);
  };
  grouped(AddWord(command, "--technique", o.technique, Techniques(),
                  "How the drops are worked (default: spike)"),
          use.working);
  grouped(AddWord(command, "--facing", o.facing, Facings(),
                  "Which face is towards the maker, in flat spike (default: two-face)"),
          use.working);
  grouped(
      AddWord(
          command, "--ends", o.ends, EndsWords(),
          "What becomes of the yarn at a row's end (default: cut, or waiting if that is usual)"),
      use.working);
  grouped(
      AddWord(command, "--form", o.form, Forms(), "Flat rows, or joined rounds (default: flat)"),
      use.working);
  grouped(command.add_option("--stitch-band", o.stitch_band, "Repeated stitches, such as 3-10"),
          use.bands);
  grouped(command.add_option("--row-band", o.row_band, "Repeated rows, such as 5-12"), use.bands);
  grouped(AddTexts(command, "--size", o.sizes,
                   "A size: NAME:STITCHREPEATSxROWREPEATS, such as wide:4x2; may be repeated"),
          use.bands);
  AddReadingOptions(command, o);
  AddRowOptions(command, o, use);
}

v1::Band BandOf(const std::string& option, const std::string& text) {
  const size_t dash = text.find('-');
  int first = 0;
  int last = 0;
  if (dash == std::string::npos || !ReadCount(std::string_view(text).substr(0, dash), &first) ||
      !ReadCount(std::string_view(text).substr(dash + 1), &last)) {
    throw MustBe(option, "first and last, such as 3-10", text);
  }
  v1::Band band;
  band.set_first(first);
  band.set_last(last);
  return band;
}

v1::Size SizeOf(const std::string& text) {
  v1::Size size;
  const size_t colon = text.rfind(':');
  size.set_name(text.substr(0, colon));
  if (colon == std::string::npos) return size;
  const std::string_view repeats = std::string_view(text).substr(colon + 1);
  const size_t by = repeats.find('x');
  int stitch_repeats = 0;
  int row_repeats = 0;
  if (by == std::string_view::npos || !ReadCount(repeats.substr(0, by), &stitch_repeats) ||
      !ReadCount(repeats.substr(by + 1), &row_repeats) || stitch_repeats < 1 || row_repeats < 1) {
    throw MustBe("--size", "NAME:STITCHREPEATSxROWREPEATS, such as wide:4x2", text);
  }
  size.set_stitch_repeat_count(stitch_repeats);
  size.set_row_repeat_count(row_repeats);
  return size;
}

v1::ChartFile FileOf(const ChartOptions& options, std::string file_content) {
  v1::ChartFile file;
  file.set_content(std::move(file_content));
  file.set_convention(EnumOf<v1::Convention>(Charts(), Or(options.chart, "picture")));
  file.set_stitch_count(options.stitch_count.value_or(0));
  file.set_row_count(options.row_count.value_or(0));
  file.set_cell_scale(options.cell_scale.value_or(0));
  file.set_tolerance(options.tolerance.value_or(0));
  file.set_colour_a(options.colour_a);
  file.set_colour_b(options.colour_b);
  for (const auto& text : options.colours) *file.add_colours() = MeaningOf("--colour", text);
  file.set_swap_colours(options.swap_colours.value_or(false));
  for (const v1::Colour colour : RowColoursOf("--row-colours", options.row_colours)) {
    file.add_row_colours(colour);
  }
  if (!options.cell.empty()) *file.mutable_grid() = CellOf("--cell", options.cell);
  if (!options.grid.empty()) *file.mutable_grid() = GridOf("--grid", options.grid);
  file.set_without_grid_search(options.without_grid.value_or(false));
  if (!options.crop.empty()) *file.mutable_crop() = CropOf("--crop", options.crop);
  return file;
}

v1::Design DesignOf(const ChartOptions& options, std::string file_content) {
  v1::Design design;
  design.set_technique(EnumOf<v1::Technique>(Techniques(), Or(options.technique, "spike")));
  design.set_facing(EnumOf<v1::Facing>(Facings(), options.facing));
  design.set_ends(EnumOf<v1::Ends>(EndsWords(), options.ends));
  design.set_form(EnumOf<v1::Form>(Forms(), Or(options.form, "flat")));
  *design.mutable_file() = FileOf(options, std::move(file_content));
  if (!options.stitch_band.empty()) {
    *design.mutable_stitch_band() = BandOf("--stitch-band", options.stitch_band);
  }
  if (!options.row_band.empty())
    *design.mutable_row_band() = BandOf("--row-band", options.row_band);
  for (const auto& size : options.sizes) *design.add_sizes() = SizeOf(size);
  return design;
}

v1::RowSettings RowSettingsOf(const ChartOptions& options) {
  v1::RowSettings settings;
  settings.set_hand(EnumOf<v1::Hand>(Hands(), options.hand));
  settings.set_terms(EnumOf<v1::Terms>(TermsWords(), options.terms));
  settings.set_repeat_style(EnumOf<v1::RepeatStyle>(RepeatStyles(), options.repeats));
  settings.set_every_row(options.every_row.value_or(false));
  if (options.nesting.has_value()) settings.set_nesting_depth(*options.nesting);
  for (const std::string& name : options.colour_names) settings.add_colour_names(name);
  return settings;
}

}  // namespace rowproof::client
