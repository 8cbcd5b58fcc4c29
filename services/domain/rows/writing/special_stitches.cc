#include <optional>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/rows/stitch_words.h"
#include "services/domain/rows/writing/pattern_words.h"

namespace rowproof::rows {
namespace {

using chart::Design;
using chart::Ends;
using chart::Facing;
using chart::Form;

// Into what a drop is worked, and where it lies.
std::string DropWords(const Design& design, const StitchWords& w) {
  const std::string head = fmt::format("{} ({}): ", Capital(w.drop_name), w.drop);
  switch (chart::FactsOf(design.technique).drop) {
    case chart::StitchKind::kDoubleTwoRowsDown:
      return head +
             fmt::format(
                 "work a {0} in FLO of the stitch straight below, two {1}s down, whose front loop "
                 "the {1} between has left free. It lies in front of the work and takes the place "
                 "of one stitch in the count: nothing is worked into the stitch behind it.",
                 w.tall_name, w.row);
    case chart::StitchKind::kDoubleThreeRowsDown:
      return head +
             fmt::format(
                 "work a {0} into the {1} stitch straight below, three rows down, of the colour in "
                 "hand: under both its loops and in front of the chains of both rows between. It "
                 "fills the gap over that stitch and counts as one stitch.",
                 w.tall_name, w.skipped);
    default:
      return head +
             fmt::format(
                 "insert the hook under both loops of the stitch straight below, two {0}s down; "
                 "draw up a loop to the height of the {0} being worked; finish as a {1}. It covers "
                 "the stitch of the {0} between on both faces and takes that stitch's place in the "
                 "count: nothing is worked into the covered stitch.",
                 w.row, w.plain_name);
  }
}

std::string PlainWords(const Design& design, const StitchWords& w) {
  const bool tube = design.form == Form::kTube;
  std::string text = fmt::format("Plain {}: ", w.plain);
  if (design.technique == chart::Technique::kInset) {
    text += "under both loops.";
  } else {
    text += "in BLO, the loop away from you as you work.";
  }
  if (design.technique == chart::Technique::kOverlay && !tube) {
    text += fmt::format(" The first and the last {} of every row go under both loops.", w.plain);
  }
  if (design.foundation_colour.has_value()) return text;
  return text + fmt::format(" The {} of the first {} go into the chains.", w.plain, w.row);
}

std::string SpaceWords(const StitchWords& w) {
  return fmt::format(
      "Chain space: ch 3, {0} 2 (and the like) is to work 3 chains and leave the next 2 stitches "
      "unworked behind them; the next stitch goes into the one after. ch 3, {0} ch-sp is to chain "
      "again over the chain space of the row before. Chains are no stitches and are not counted.",
      w.skip);
}

std::string CutWords(const Design& design, const StitchWords& w, bool with_drops) {
  const bool may_drop = with_drops && design.technique == chart::Technique::kSpike;
  return fmt::format(
      "Start and end of a row (ends cut): each row has a new yarn. With a slip knot on the hook "
      "work a standing {0}{1}; it is the row's first stitch. Fasten off after the last stitch. "
      "Leave both tails long for a fringe, or enclose them in a double border. The first row {2}.",
      w.plain,
      may_drop ? fmt::format(", or a standing {0} where the row begins with {0}", w.drop) : "",
      design.foundation_colour.has_value() ? "starts so too" : "goes on from the chain");
}

std::string StartWords(const Design& design, const StitchWords& w, bool with_drops) {
  if (design.form == Form::kTube) {
    return fmt::format(
        "Start and end of a round: ch 1 (not a stitch), work the round, and join it with a {} to "
        "its first stitch. The {} is not counted.",
        w.slip, w.slip);
  }
  if (design.technique == chart::Technique::kInset && design.ends == Ends::kWaiting) {
    return "Start and end of a row (ends waiting): each row begins with ch 1, turn, which is not "
           "a stitch. The colour changes after a WS row: draw the next colour through the last two "
           "loops of the row's last stitch; the colour left off waits at this edge, neither cut "
           "nor carried, until its next RS row starts here.";
  }
  switch (design.ends) {
    case Ends::kCut:
      return CutWords(design, w, with_drops);
    case Ends::kCarried:
      return "Start and end of a row (ends carried): draw up a loop of the row's colour at the "
             "edge and ch 1, which is not a stitch. Lay the resting colour along the row and work "
             "over it in every stitch. After the last stitch enlarge the loop, pass the ball "
             "through it and draw it tight, which locks it; then even out the carried strand.";
    case Ends::kWaiting:
      return "Start and end of a row (ends waiting): take up the loop of the row's colour that "
             "waits at this edge and ch 1, which is not a stitch. After the last stitch draw the "
             "loop long and let the yarn wait there, neither cut nor carried.";
  }
  return {};
}

std::string TubeEnds(Ends ends) {
  return ends == Ends::kCut
             ? "Change of colour: cut the yarn after each round and begin the next with a new one."
             : "Change of colour: the resting yarn waits at the join, its loop drawn long.";
}

// The colour of all rows worked with one side towards the maker, where every other row has it and
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
    return "RS: the outside of the tube. It is towards you in every round; the work is not turned.";
  }
  const std::string turned =
      " in a row marked RS this face is towards you, in a row marked WS the other.";
  switch (chart::FacingOf(design)) {
    case Facing::kOneFace:
      return "RS: the face of the chart. It is towards you in every row; the work is not turned, "
             "and every row starts at the same edge.";
    case Facing::kTwoFace:
      if (const auto colour = LeadingColour(design);
          colour.has_value() && design.technique == chart::Technique::kSpike) {
        return fmt::format(
            "RS: the side on which colour {} leads. Turn after every row; in a row marked RS this "
            "side is towards you, in a row marked WS the other.",
            NameOfColour(settings, *colour));
      }
      return "RS: the face of the chart. Turn after every row;" + turned;
    case Facing::kPaired:
      return "RS: the face of the chart. Turn after every second row;" + turned;
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
