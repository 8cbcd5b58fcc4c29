#include "services/domain/rows/pattern_words.h"

#include <algorithm>
#include <cctype>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/rows/row_text.h"

namespace rowproof::rows {
namespace {

using chart::Design;
using chart::Ends;
using chart::Facing;
using chart::Form;
using chart::Hand;

// Abbreviations as in the Craft Yarn Council's master list; ssc is our own, as the list has none.
constexpr std::pair<const char*, const char*> kAbbreviations[] = {
    {"BLO", "back loop only"}, {"ch", "chain"},          {"rep", "repeat"},
    {"Rnd", "round"},          {"Rnds", "rounds"},       {"RS", "right side"},
    {"sc", "single crochet"},  {"sl st", "slip stitch"}, {"ssc", "spike single crochet"},
    {"st", "stitch"},          {"sts", "stitches"},      {"WS", "wrong side"},
};

bool IsWordPart(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; }

bool HasWord(const std::string& text, const std::string& word) {
  for (size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const size_t end = at + word.size();
    const bool starts = at == 0 || !IsWordPart(text[at - 1]);
    if (starts && (end == text.size() || !IsWordPart(text[end]))) return true;
  }
  return false;
}

std::string RowStart(const Design& design, bool with_drops) {
  if (design.form == Form::kTube) {
    return "Start and end of a round: ch 1 (not a stitch), work the round, and join it with a sl "
           "st "
           "to its first stitch. The sl st is not counted.";
  }
  switch (design.ends) {
    case Ends::kCut:
      return fmt::format(
          "Start and end of a row (ends cut): each row has a new yarn. With a slip knot on the "
          "hook "
          "work a standing sc{}; it is the row's first stitch. Fasten off after the last stitch. "
          "Leave both tails long for a fringe, or enclose them in a double border. The first row "
          "goes on from the chain.",
          with_drops ? ", or a standing ssc where the row begins with ssc" : "");
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

std::string MeaningOfSides(const Design& design) {
  if (design.form == Form::kTube) {
    return "RS: the outside of the tube. It is towards you in every round; the work is not turned.";
  }
  switch (design.facing) {
    case Facing::kOneFace:
      return "RS: the face of the chart. It is towards you in every row; the work is not turned, "
             "and every row starts at the same edge.";
    case Facing::kTwoFace:
      return "RS: the side on which colour A leads. Turn after every row; in a row marked RS this "
             "side is towards you, in a row marked WS the other.";
    case Facing::kPaired:
      return "RS: the face of the chart. Turn after every second row; in a row marked RS this face "
             "is towards you, in a row marked WS the other.";
  }
  return {};
}

std::vector<int> Stitches(const Design& design) {
  std::vector<int> stitches;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    stitches.push_back(chart::ExpandedStitches(design, static_cast<int>(i)));
  }
  return stitches;
}

std::string Foundation(const Design& design) {
  std::vector<int> chain = Stitches(design);
  const char* colour = chart::Name(chart::RowColour(design, 1));
  if (design.form == Form::kTube) {
    return fmt::format("Foundation: with colour {} ch {} and join into a ring with a sl st.",
                       colour, List(chain));
  }
  for (int& count : chain) ++count;
  return fmt::format("Foundation: with colour {} ch {}, one more than the first row has stitches.",
                     colour, List(chain));
}

std::string Multiple(const Design& design) {
  const int per_repeat = design.stitch_band->length();
  const int rest = design.cells.stitches() - per_repeat;
  if (rest == 0) return fmt::format("Stitches: a multiple of {}.", per_repeat);
  return fmt::format("Stitches: a multiple of {} plus {}.", per_repeat, rest);
}

std::string SizesNote(const Design& design) {
  std::string names = design.sizes[0].name;
  for (size_t i = 1; i < design.sizes.size(); ++i) {
    names += (i == 1 ? " (" : ", ") + design.sizes[i].name;
  }
  return fmt::format(
      "Sizes: {}). Where the sizes differ, numbers stand in this order; one number holds for all. "
      "A "
      "size that shows - for a row number, or 0 times, leaves that line out.",
      names);
}

std::string ReadingDirection(const Design& design, Hand hand) {
  const bool right = hand == Hand::kRight;
  const std::string from = right ? "right to left" : "left to right";
  const std::string back = right ? "left to right" : "right to left";
  const std::string numbers = "Chart: rows are numbered from the bottom, stitches from the right.";
  if (design.form == Form::kTube) {
    return fmt::format("{} Every round is read from {}.", numbers, from);
  }
  if (design.facing == Facing::kOneFace) {
    return fmt::format("{} Every row is read from {}.", numbers, from);
  }
  return fmt::format("{} RS rows are read from {}, WS rows from {}.", numbers, from, back);
}

std::string HandNote(Hand hand) {
  const bool right = hand == Hand::kRight;
  return fmt::format(
      "Hand: these rows are for {0}-handed makers. A {1}-handed maker who follows them gets the "
      "picture mirrored, which harms letters and anything that points one way; rows written for "
      "{1}-"
      "handed makers give it as drawn.",
      right ? "right" : "left", right ? "left" : "right");
}

}  // namespace

std::vector<std::string> SpecialStitches(const Design& design, bool with_drops) {
  const bool tube = design.form == Form::kTube;
  std::vector<std::string> texts;
  if (with_drops) {
    texts.push_back(fmt::format(
        "Spike single crochet (ssc): insert the hook under both loops of the stitch straight "
        "below, "
        "two {0} down; draw up a loop to the height of the {1} being worked; finish as a single "
        "crochet. It covers the stitch of the {1} between on both faces and takes that stitch's "
        "place in the count: nothing is worked into the covered stitch.",
        tube ? "rounds" : "rows", tube ? "round" : "row"));
  }
  texts.push_back(fmt::format(
      "Plain sc: in BLO, the loop away from you as you work. The sc of the first {} go into the "
      "chains.",
      tube ? "round" : "row"));
  texts.push_back(RowStart(design, with_drops));
  if (tube) texts.push_back(TubeEnds(design.ends));
  texts.push_back(MeaningOfSides(design));
  return texts;
}

std::vector<std::string> Notes(const Design& design, Hand hand,
                               const std::vector<WrittenRow>& rows) {
  std::vector<std::string> notes = {
      "Terms: US. The same words name other stitches in UK terms: US single crochet (sc) is UK "
      "double crochet (dc), and US double crochet (dc) is UK treble (tr)."};
  if (design.sizes.size() > 1) notes.push_back(SizesNote(design));
  if (design.stitch_band.has_value()) notes.push_back(Multiple(design));
  notes.push_back(Foundation(design));
  notes.push_back(ReadingDirection(design, hand));
  const auto any = [&rows](const auto& holds) {
    return std::any_of(rows.begin(), rows.end(), holds);
  };
  if (any([](const WrittenRow& row) { return row.text.find('[') != std::string::npos; })) {
    notes.push_back("[ ]: work what stands within the brackets as many times in all as is said.");
  }
  if (any([](const WrittenRow& row) { return row.kind == WrittenRow::Kind::kRepeat; })) {
    notes.push_back(
        "rep: work the named rows again, stitch for stitch, each in its own colour and on its own "
        "side.");
  }
  notes.push_back(HandNote(hand));
  return notes;
}

std::vector<std::string> AbbreviationsIn(const std::vector<std::string>& texts) {
  std::vector<std::string> lines;
  for (const auto& [word, meaning] : kAbbreviations) {
    const bool used = std::any_of(texts.begin(), texts.end(),
                                  [w = word](const std::string& text) { return HasWord(text, w); });
    if (used) lines.push_back(fmt::format("{} - {}", word, meaning));
  }
  return lines;
}

}  // namespace rowproof::rows
