#include "services/client/parsing/chart_options.h"

#include <string_view>
#include <utility>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/choices.h"

namespace rowproof::client {
namespace {

// How a picture file becomes cells.
void AddReadingOptions(CLI::App& command, ChartOptions& o) {
  command.add_flag("--swap-colours", o.swap_colours, "Exchange colours A and B after reading");
  command.add_option("--cell-scale", o.cell_scale, "Pixels along a cell's side; 0: found");
  command.add_option("--tolerance", o.tolerance,
                     "Greatest distance of a pixel from the nearest of the colours, 0 to 255");
  command.add_option("--colour-a", o.colour_a, "Colour A as #rrggbb; else the lightest");
  command.add_option("--colour-b", o.colour_b, "Colour B as #rrggbb; else, of two, the darker");
  command
      .add_option("--colour", o.colours,
                  "What a colour of the picture is taken for, such as C=#2f6f4f; may be repeated")
      ->expected(1)
      ->take_all();
  command.add_option("--grid", o.grid,
                     "Grid lines: pixels from line to line and the line's width, such as 12/1 or "
                     "12x10/1; else found");
  command.add_flag("--no-grid", o.without_grid, "There are no grid lines to look for");
  command.add_option("--crop", o.crop,
                     "Pixels to cut away at the left, top, right and bottom, such as 40,0,40,25");
}

}  // namespace

void AddChartOptions(CLI::App& command, ChartOptions& o) {
  AddWord(command, "--technique", o.technique, Techniques(), "How the drops are worked");
  AddWord(command, "--facing", o.facing, Facings(),
          "Which face is towards the maker, in flat spike; else two-face");
  AddWord(command, "--ends", o.ends, EndsWords(),
          "What becomes of the yarn at a row's end; else cut, or waiting where that is usual");
  AddWord(command, "--form", o.form, Forms(), "Flat rows, or a tube worked in joined rounds");
  AddWord(command, "--chart", o.chart, Charts(), "What the chart's cells show");
  command.add_option("--row-colours", o.row_colours,
                     "Colours of the rows from the bottom, such as ABAC or \"AB*20 C\"; else A and "
                     "B in turn");
  AddWord(command, "--hand", o.hand, Hands(), "The maker's hand, for written rows");
  AddWord(command, "--terms", o.terms, TermsWords(),
          "Stitch names; else US in rows that are written, and what a text of yours says or shows");
  AddWord(command, "--repeats", o.repeats, RepeatStyles(),
          "Mark of repeats within a written row: [ ] or *");
  command.add_option("--nesting", o.nesting,
                     "Brackets within brackets in a written row, 0 to 6; else 2");
  command.add_flag("--every-row", o.every_row,
                   "Write every row out instead of repeating earlier rows by number");
  command
      .add_option("--colour-name", o.colour_names,
                  "What written rows call colour A; again for B, and so on; else the letters")
      ->expected(1)
      ->take_all();
  AddReadingOptions(command, o);
  command.add_option("--stitch-band", o.stitch_band, "Repeated stitches, such as 3-10");
  command.add_option("--row-band", o.row_band, "Repeated rows, such as 5-12");
  command
      .add_option("--size", o.sizes,
                  "NAME:STITCHREPEATSxROWREPEATS, such as wide:4x2; may be repeated")
      ->expected(1)
      ->take_all();
}

v1::Band BandOf(const std::string& option, const std::string& text) {
  const size_t dash = text.find('-');
  int first = 0;
  int last = 0;
  if (dash == std::string::npos || !ReadCount(std::string_view(text).substr(0, dash), &first) ||
      !ReadCount(std::string_view(text).substr(dash + 1), &last)) {
    throw WrongForm(option, text, "first and last, such as 3-10");
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
    throw WrongForm("--size", text, "NAME:STITCHREPEATSxROWREPEATS, such as wide:4x2");
  }
  size.set_stitch_repeats(stitch_repeats);
  size.set_row_repeats(row_repeats);
  return size;
}

v1::ChartFile FileOf(const ChartOptions& options, std::string file_content) {
  v1::ChartFile file;
  file.set_content(std::move(file_content));
  file.set_convention(EnumOf<v1::Convention>(Charts(), options.chart));
  file.set_cell_scale(options.cell_scale);
  file.set_tolerance(options.tolerance);
  file.set_colour_a(options.colour_a);
  file.set_colour_b(options.colour_b);
  for (const auto& text : options.colours) *file.add_colours() = MeaningOf("--colour", text);
  file.set_swap_colours(options.swap_colours);
  for (const v1::Colour colour : RowColoursOf("--row-colours", options.row_colours)) {
    file.add_row_colours(colour);
  }
  if (!options.grid.empty()) *file.mutable_grid() = GridOf("--grid", options.grid);
  file.set_without_grid_search(options.without_grid);
  if (!options.crop.empty()) *file.mutable_crop() = CropOf("--crop", options.crop);
  return file;
}

v1::Design DesignOf(const ChartOptions& options, std::string file_content) {
  v1::Design design;
  design.set_technique(EnumOf<v1::Technique>(Techniques(), options.technique));
  design.set_facing(EnumOf<v1::Facing>(Facings(), options.facing));
  design.set_ends(EnumOf<v1::Ends>(EndsWords(), options.ends));
  design.set_form(EnumOf<v1::Form>(Forms(), options.form));
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
  settings.set_every_row(options.every_row);
  if (options.nesting.has_value()) settings.set_nesting_depth(*options.nesting);
  for (const std::string& name : options.colour_names) settings.add_colour_names(name);
  return settings;
}

}  // namespace rowproof::client
