#include "services/domain/rows/writing/special_stitches.h"

#include <optional>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/rows/stitch_words.h"

namespace rowproof::rows {
namespace {

using chart::Design;
using chart::Ends;
using chart::Facing;
using chart::Form;

// What a drop is worked into, and where it is.
std::string DropWords(const Design& design, const StitchWords& w) {
  const std::string head = fmt::format("{} ({}): ", Capital(w.drop_name), w.drop);
  switch (chart::FactsOf(design.technique).drop) {
    case chart::StitchKind::kDoubleTwoRowsDown:
      return head +
             fmt::format(
                 "work a {0} in FLO of the stitch two {1}s below, in front of the work. Skip the "
                 "stitch behind it; the {0} counts as that stitch.",
                 w.tall_name, w.row);
    case chart::StitchKind::kDoubleThreeRowsDown:
      return head +
             fmt::format(
                 "work a {0} under both loops of the {1} stitch three rows below, in front of the "
                 "chains. It counts as one stitch.",
                 w.tall_name, w.skipped);
    default:
      return head +
             fmt::format(
                 "insert the hook under both loops of the stitch two {0}s below, draw up a loop to "
                 "the height of this {0} and finish as a {1}. Skip the stitch it covers; the {2} "
                 "counts as that stitch.",
                 w.row, w.plain_name, w.drop);
  }
}

std::string PlainWords(const Design& design, const StitchWords& w) {
  const bool tube = design.form == Form::kTube;
  std::string text = fmt::format("Plain {}: ", w.plain);
  if (design.technique == chart::Technique::kInset) {
    text += "work under both loops.";
  } else {
    text += "work in BLO (the loop farther from you).";
  }
  if (design.technique == chart::Technique::kOverlay && !tube) {
    text += fmt::format(" Work the first and last {} of every row under both loops.", w.plain);
  }
  if (design.foundation_colour.has_value() || (design.ends == Ends::kCut && !tube)) return text;
  return text + fmt::format(" Work the first {} into the chain.", w.row);
}

std::string SpaceWords(const StitchWords& w) {
  return fmt::format(
      "Chain space: for ch 3, {0} 2, chain 3 and work into the stitch after the 2 {1} ones. For ch "
      "3, "
      "{0} ch-sp, chain 3 again over the chain space below. Chains do not count as stitches.",
      w.skip, w.skipped);
}

std::string CutWords(const Design& design, const StitchWords& w, bool with_drops) {
  const bool may_drop = with_drops && design.technique == chart::Technique::kSpike;
  return fmt::format(
      "Ends: join a new strand for every row and fasten off at its end. Begin with a standing "
      "{0}{1} as the first stitch. Hide the tails in a double border, or leave them long enough "
      "for a fringe.{2}",
      w.plain,
      may_drop ? fmt::format(" (or a standing {0} if the row begins with {0})", w.drop) : "",
      design.foundation_colour.has_value()
          ? ""
          : fmt::format(" Do not cut the yarn after the foundation chain; work Row {} into the "
                        "chain.",
                        design.first_row_number));
}

std::string StartWords(const Design& design, const StitchWords& w, bool with_drops) {
  if (design.form == Form::kTube) {
    return fmt::format(
        "Rounds: begin each with ch 1 (does not count as a st) and join with a {} to the first "
        "stitch. The {} is not counted.",
        w.slip, w.slip);
  }
  if (design.technique == chart::Technique::kInset && design.ends == Ends::kWaiting) {
    return "Ends: begin each row with ch 1, turn (does not count as a st). Change colour at the "
           "end of a WS row: draw the next colour through the last two loops of the last stitch. "
           "Leave the other colour at this edge for its next RS row; do not cut or carry it.";
  }
  switch (design.ends) {
    case Ends::kCut:
      return CutWords(design, w, with_drops);
    case Ends::kCarried:
      return "Ends: begin each row by drawing up a loop of its colour at the edge, ch 1 (does not "
             "count as a st). Work over the resting colour in every stitch. After the last stitch "
             "enlarge the loop, pass the ball through it and pull tight; then even out the carried "
             "strand.";
    case Ends::kWaiting:
      return "Ends: begin each row by picking up the loop of its colour at the edge, ch 1 (does "
             "not count as a st). After the last stitch draw the loop long and leave the yarn "
             "there for "
             "its next row; do not cut or carry it.";
  }
  return {};
}

std::string TubeEnds(Ends ends) {
  return ends == Ends::kCut
             ? "Colour changes: fasten off after each round and join a new strand for the next."
             : "Colour changes: draw the loop long and leave the yarn at the join for its next "
               "round.";
}

// The colour of all rows worked with one side towards the maker, if every other row has it and
// no row between has.
std::optional<chart::Colour> LeadingColour(const Design& design) {
  for (int row = 1; row <= design.cells.rows(); ++row) {
    if (chart::RowColour(design, row) == chart::RowColour(design, 1) ? row % 2 == 0
                                                                     : row % 2 == 1) {
      return std::nullopt;
    }
  }
  return chart::RowColour(design, 1);
}

std::string MeaningOfSides(const Design& design, const WriterSettings& settings) {
  if (design.form == Form::kTube) {
    return "RS: the outside of the tube. It faces you in every round; do not turn.";
  }
  const std::string turned = " it faces you in RS rows.";
  switch (chart::FacingOf(design)) {
    case Facing::kOneFace:
      return "RS: the side the chart shows. It faces you in every row; do not turn, and start "
             "every row at the same edge.";
    case Facing::kTwoFace:
      if (const auto colour = LeadingColour(design);
          colour.has_value() && design.technique == chart::Technique::kSpike) {
        return fmt::format(
            "RS: the side on which colour {} leads. Turn after every row; it faces you in RS rows.",
            NameOfColour(settings, *colour));
      }
      return "RS: the side the chart shows. Turn after every row;" + turned;
    case Facing::kPaired:
      return "RS: the side the chart shows. Turn after every second row;" + turned;
  }
  return {};
}

}  // namespace

std::vector<std::string> SpecialStitches(const Design& design, const WriterSettings& settings,
                                         const RowUses& uses) {
  const StitchWords words = StitchWordsOf(design, settings.terms);
  std::vector<std::string> texts;
  if (uses.drops) texts.push_back(DropWords(design, words));
  texts.push_back(PlainWords(design, words));
  if (uses.chain_spaces) texts.push_back(SpaceWords(words));
  texts.push_back(StartWords(design, words, uses.drops));
  if (design.form == Form::kTube) texts.push_back(TubeEnds(design.ends));
  texts.push_back(MeaningOfSides(design, settings));
  return texts;
}

}  // namespace rowproof::rows
