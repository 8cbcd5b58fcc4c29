#include "services/client/chart_options.h"

#include <charconv>
#include <string_view>

#include "fmt/format.h"
#include "services/client/failure.h"

namespace rowproof::client {
namespace {

using Words = std::vector<std::string>;

const Words& Techniques() {
  static const auto& words = *new Words{"spike", "overlay", "inset"};
  return words;
}
const Words& Facings() {
  static const auto& words = *new Words{"one-face", "two-face", "paired"};
  return words;
}
const Words& EndsWords() {
  static const auto& words = *new Words{"cut", "carried", "waiting"};
  return words;
}
const Words& Charts() {
  static const auto& words = *new Words{"picture", "working"};
  return words;
}
const Words& Hands() {
  static const auto& words = *new Words{"right", "left"};
  return words;
}
const Words& TermsWords() {
  static const auto& words = *new Words{"us", "uk"};
  return words;
}
const Words& RepeatStyles() {
  static const auto& words = *new Words{"brackets", "asterisk"};
  return words;
}

// The API's enums number these words from 1 in the same order.
template <typename Enum>
Enum EnumOf(const Words& words, const std::string& word) {
  for (size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) return static_cast<Enum>(i + 1);
  }
  return static_cast<Enum>(0);
}

bool ReadCount(std::string_view text, int* value) {
  if (text.empty() || text.front() < '0' || text.front() > '9') return false;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), *value);
  return error == std::errc() && end == text.data() + text.size();
}

void AddWord(CLI::App& command, const char* option, std::string& value, const Words& words,
             const char* help) {
  command.add_option(option, value, help)->check(CLI::IsMember(words))->capture_default_str();
}

Failure WrongForm(const std::string& option, const std::string& met, const std::string& accepted) {
  return {ExitCode::kUsage,
          fmt::format("{}: \"{}\" was met; accepted is {}", option, met, accepted)};
}

}  // namespace

void AddChartOptions(CLI::App& command, ChartOptions& o) {
  AddWord(command, "--technique", o.technique, Techniques(), "How the drops are worked");
  AddWord(command, "--facing", o.facing, Facings(), "Which face is towards the maker");
  AddWord(command, "--ends", o.ends, EndsWords(), "What becomes of the yarn at a row's end");
  AddWord(command, "--chart", o.chart, Charts(), "What the chart's cells show");
  AddWord(command, "--hand", o.hand, Hands(), "The maker's hand, for written rows");
  AddWord(command, "--terms", o.terms, TermsWords(), "Stitch names, for written rows");
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
  command.add_flag("--swap-colours", o.swap_colours, "Exchange colours A and B after reading");
  command.add_option("--cell-scale", o.cell_scale, "Pixels along a cell's side; 0: found");
  command.add_option("--tolerance", o.tolerance,
                     "Greatest distance of a pixel from the nearer of the two colours, 0 to 255");
  command.add_option("--colour-a", o.colour_a, "Colour A as #rrggbb; else the lighter");
  command.add_option("--colour-b", o.colour_b, "Colour B as #rrggbb; else the darker");
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

v1::Design DesignOf(const ChartOptions& options, std::string file_content) {
  v1::Design design;
  design.set_technique(EnumOf<v1::Technique>(Techniques(), options.technique));
  design.set_facing(EnumOf<v1::Facing>(Facings(), options.facing));
  design.set_ends(EnumOf<v1::Ends>(EndsWords(), options.ends));
  v1::ChartFile& file = *design.mutable_file();
  file.set_content(std::move(file_content));
  file.set_convention(EnumOf<v1::Convention>(Charts(), options.chart));
  file.set_cell_scale(options.cell_scale);
  file.set_tolerance(options.tolerance);
  file.set_colour_a(options.colour_a);
  file.set_colour_b(options.colour_b);
  file.set_swap_colours(options.swap_colours);
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
