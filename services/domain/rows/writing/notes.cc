#include "services/domain/rows/writing/notes.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/rows/number_list.h"
#include "services/domain/rows/stitch_words.h"

namespace rowproof::rows {
namespace {

using chart::Design;
using chart::Form;
using chart::Hand;

// Craft Yarn Council: the same words name other stitches in the other system.
std::string TermsNote(chart::Terms terms) {
  return terms == chart::Terms::kUs
             ? "Terms: US. US single crochet (sc) is UK double crochet (dc), and US double crochet "
               "(dc) is UK treble (tr)."
             : "Terms: UK. UK double crochet (dc) is US single crochet (sc), and UK treble (tr) is "
               "US double crochet (dc).";
}

std::string SizesNote(const Design& design) {
  std::string names = design.sizes[0].name;
  for (size_t i = 1; i < design.sizes.size(); ++i) {
    names += (i == 1 ? " (" : ", ") + design.sizes[i].name;
  }
  return fmt::format(
      "Sizes: {}). Numbers are given in this order; one number is for all sizes. If your size "
      "shows - or 0 times, skip that line or group.",
      names);
}

std::string GaugeNote(const StitchWords& w) {
  return fmt::format(
      "{}: count stitches and {}s in this fabric, worked like the piece; count {}s in a column of "
      "plain stitches, because drops hide them.",
      w.gauge, w.row, w.row);
}

std::string Multiple(const Design& design) {
  const int per_repeat = design.stitch_band->length();
  const int rest = design.cells.stitches() - per_repeat;
  if (rest == 0) return fmt::format("Stitches: a multiple of {}.", per_repeat);
  return fmt::format("Stitches: a multiple of {} plus {}.", per_repeat, rest);
}

std::vector<int> Stitches(const Design& design) {
  std::vector<int> stitches;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    stitches.push_back(chart::ExpandedStitches(design, static_cast<int>(i)));
  }
  return stitches;
}

std::string Foundation(const Design& design, const WriterSettings& settings, const StitchWords& w) {
  const std::vector<int> stitches = Stitches(design);
  std::vector<int> chain = stitches;
  const chart::Colour colour = design.foundation_colour.value_or(chart::RowColour(design, 1));
  const std::string with = "Foundation: with colour " + NameOfColour(settings, colour);
  const bool worked = design.foundation_colour.has_value();
  const std::string row_number = std::to_string(design.first_row_number - 1);
  if (design.form == Form::kTube) {
    const std::string ring =
        fmt::format("{} ch {} and join into a ring with a {}", with, List(chain), w.slip);
    if (!worked) return ring + '.';
    return fmt::format("{}; then {} in each ch around ({}). This is round {}.", ring, w.plain,
                       Counted(stitches, "st", "sts"), row_number);
  }
  for (int& count : chain) ++count;
  if (!worked) {
    return fmt::format("{} ch {} (1 more than the first row has stitches).", with, List(chain));
  }
  return fmt::format(
      "{} ch {}; then {} in 2nd ch from hook and in each ch across ({}). This is row {}.", with,
      List(chain), w.plain, Counted(stitches, "st", "sts"), row_number);
}

std::string ColourKey(const Design& design, const WriterSettings& settings) {
  std::vector<bool> used(chart::kMostColours, false);
  if (design.row_colours.empty()) {
    used[0] = true;
    used[1] = design.cells.rows() > 1 || design.sizes[0].row_repeats > 1;
  }
  for (const chart::Colour colour : design.row_colours) used[static_cast<size_t>(colour)] = true;
  if (design.foundation_colour.has_value()) {
    used[static_cast<size_t>(*design.foundation_colour)] = true;
  }
  std::string list;
  for (size_t i = 0; i < used.size(); ++i) {
    if (!used[i]) continue;
    if (!list.empty()) list += ", ";
    const auto colour = static_cast<chart::Colour>(i);
    list += chart::Name(colour);
    if (!settings.colour_names.empty()) list += fmt::format(" {}", NameOfColour(settings, colour));
  }
  const bool two_rows = chart::FactsOf(design.technique).worked_rows == 2;
  return fmt::format("Colours: {}. Work each {} in the colour given after its number{}.", list,
                     design.form == Form::kTube ? "round" : "row",
                     two_rows ? "; a RS row and the WS row after it share one" : "");
}

std::string ReadingDirection(const Design& design, Hand hand) {
  const bool right = hand == Hand::kRight;
  const std::string from = right ? "right to left" : "left to right";
  const std::string back = right ? "left to right" : "right to left";
  const std::string numbers = "Chart: rows are numbered from the bottom, stitches from the right.";
  if (chart::FactsOf(design.technique).worked_rows == 2) {
    return fmt::format(
        "{} Work each row of the chart twice: read RS rows from {} and WS rows back from {}. Chart "
        "row 1 is rows {} and {}.",
        numbers, from, back, design.first_row_number, design.first_row_number + 1);
  }
  if (design.form == Form::kTube) {
    return fmt::format("{} Read every round from {}.", numbers, from);
  }
  if (chart::FacingOf(design) == chart::Facing::kOneFace) {
    return fmt::format("{} Read every row from {}.", numbers, from);
  }
  return fmt::format("{} Read RS rows from {} and WS rows from {}.", numbers, from, back);
}

// How to read the marks that the rows use.
void AddMarks(const std::vector<WrittenRow>& rows, std::vector<std::string>& notes) {
  const auto any = [&rows](const auto& holds) {
    return std::any_of(rows.begin(), rows.end(), holds);
  };
  if (any([](const WrittenRow& row) { return row.text.find('[') != std::string::npos; })) {
    notes.push_back("[ ]: work the instructions in brackets the number of times given.");
  }
  if (any([](const WrittenRow& row) { return row.text.find('*') != std::string::npos; })) {
    notes.push_back(
        "*: work the instructions between * and the semicolon once, then repeat them as often as "
        "given, across, or to the last stitches named.");
  }
  if (any([](const WrittenRow& row) { return row.kind == WrittenRow::Kind::kRepeat; })) {
    notes.push_back("rep: repeat rows exactly as written, including colour and side.");
  }
}

std::string HandNote(Hand hand) {
  const bool right = hand == Hand::kRight;
  return fmt::format(
      "Hand: these rows are for {0}-handed makers. If you are {1}-handed, the picture comes out "
      "mirrored; ask for the {1}-handed rows to get it as drawn.",
      right ? "right" : "left", right ? "left" : "right");
}

}  // namespace

std::vector<std::string> Notes(const Design& design, const WriterSettings& settings,
                               const std::vector<WrittenRow>& rows) {
  const StitchWords words = StitchWordsOf(design, settings.terms);
  std::vector<std::string> notes = {TermsNote(settings.terms)};
  if (design.sizes.size() > 1) notes.push_back(SizesNote(design));
  notes.push_back(GaugeNote(words));
  if (design.stitch_band.has_value()) notes.push_back(Multiple(design));
  notes.push_back(Foundation(design, settings, words));
  notes.push_back(ColourKey(design, settings));
  notes.push_back(ReadingDirection(design, settings.hand));
  AddMarks(rows, notes);
  notes.push_back(HandNote(settings.hand));
  return notes;
}

}  // namespace rowproof::rows
