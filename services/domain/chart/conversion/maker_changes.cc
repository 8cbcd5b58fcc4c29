#include "services/domain/chart/conversion/maker_changes.h"

#include <cstdint>

#include "fmt/format.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

enum class Loops : uint8_t { kBack, kFront, kBoth };

// Which loops a technique's stitches are worked into: what a maker has to know besides the
// stitches' names.
struct Handwork {
  Loops plain = Loops::kBack;
  Loops drop = Loops::kBoth;
  // How many worked rows below the drop its anchor was worked: two, or three.
  int drop_rows_down = 2;
  // What a drop does with the row between, one clause.
  const char* drop_covers = "";
  // The first and last stitch of a flat row, one clause.
  const char* edges = "";
  // What face 2 shows if the picture is on face 1 only; empty if it is on both.
  const char* face_two = "";
};

constexpr Handwork kSpike = {
    .plain = Loops::kBack,
    .drop = Loops::kBoth,
    .drop_rows_down = 2,
    .drop_covers = "covering the row between on both faces",
    .edges = "the first and last stitch are worked as charted",
    .face_two = "",
};
constexpr Handwork kOverlay = {
    .plain = Loops::kBack,
    .drop = Loops::kFront,
    .drop_rows_down = 2,
    .drop_covers = "in front of the work",
    .edges = "the first and last stitch are always plain, through both loops",
    .face_two = "plain stripes of one row",
};
constexpr Handwork kInset = {
    .plain = Loops::kBoth,
    .drop = Loops::kBoth,
    .drop_rows_down = 3,
    .drop_covers = "in front of the chains",
    .edges = "the first and last stitch are worked in every row",
    .face_two = "stripes of two rows",
};

const Handwork& HandworkOf(Technique technique) {
  switch (technique) {
    case Technique::kSpike:
      return kSpike;
    case Technique::kOverlay:
      return kOverlay;
    case Technique::kInset:
      return kInset;
  }
  return kSpike;
}

std::string ChartWords(const Design& design) {
  return design.convention == Convention::kPicture
             ? "each cell shows the colour on face 1 of the finished fabric"
             : "each cell shows the stitch to work, and a drop is marked one row above what it "
               "covers";
}

const char* PlainLoops(Loops loops) {
  switch (loops) {
    case Loops::kBack:
      return "in the back loop only";
    case Loops::kFront:
      return "in the front loop only";
    case Loops::kBoth:
      return "under both loops";
  }
  return "";
}

const char* DropLoops(Loops loops) {
  switch (loops) {
    case Loops::kBack:
      return "into the back loop of";
    case Loops::kFront:
      return "into the front loop of";
    case Loops::kBoth:
      return "under both loops of";
  }
  return "";
}

std::string DropWords(const Design& design, Terms terms) {
  const Handwork& hand = HandworkOf(design.technique);
  return fmt::format("{} ({}) {} the stitch {} rows down, {}",
                     Abbreviation(FactsOf(design.technique).drop, terms),
                     StitchName(FactsOf(design.technique).drop, terms), DropLoops(hand.drop),
                     hand.drop_rows_down == 2 ? "two" : "three", hand.drop_covers);
}

std::string WorkedRowsWords(const Design& design) {
  if (!FactsOf(design.technique).skips)
    return "each chart row is one row, with every stitch worked";
  return "each chart row is two rows of one colour, RS then WS; chain over the stitches that the "
         "next colour fills";
}

std::string FacingWords(const Design& design) {
  if (design.form == Form::kTube) return "every round is worked on the right side";
  switch (FacingOf(design)) {
    case Facing::kOneFace:
      return "every row is worked on the right side, without turning";
    case Facing::kTwoFace:
      return "turn after every row";
    case Facing::kPaired:
      return "turn after every second row";
  }
  return "";
}

std::string EndsWords(const Design& design) {
  const bool tube = design.form == Form::kTube;
  switch (design.ends) {
    case Ends::kCut:
      return fmt::format("join a new strand for every {} and fasten off at its end",
                         tube ? "round" : "row");
    case Ends::kCarried:
      return "work over the resting yarn in every row; cut nothing until the end";
    case Ends::kWaiting:
      return fmt::format("leave each yarn waiting at the {}, neither cut nor carried",
                         tube ? "join" : "edge for its next row");
  }
  return "";
}

std::string FaceTwoWords(const Design& design) {
  if (!FactsOf(design.technique).picture_on_both_faces) {
    return HandworkOf(design.technique).face_two;
  }
  return FacingOf(design) == Facing::kTwoFace
             ? "the same picture, mirrored, with the other colour leading"
             : "the same picture, mirrored";
}

const char* Subject(MakerAspect aspect) {
  switch (aspect) {
    case MakerAspect::kChart:
      return "Chart";
    case MakerAspect::kPlainStitch:
      return "Plain stitches";
    case MakerAspect::kDropStitch:
      return "Drops";
    case MakerAspect::kWorkedRows:
      return "Rows";
    case MakerAspect::kEdges:
      return "Edges";
    case MakerAspect::kFacing:
      return "Turning";
    case MakerAspect::kEnds:
      return "Ends";
    case MakerAspect::kFaceTwo:
      return "Face 2";
  }
  return "";
}

}  // namespace

const char* Name(MakerAspect aspect) {
  switch (aspect) {
    case MakerAspect::kChart:
      return "chart";
    case MakerAspect::kPlainStitch:
      return "plain-stitch";
    case MakerAspect::kDropStitch:
      return "drop-stitch";
    case MakerAspect::kWorkedRows:
      return "worked-rows";
    case MakerAspect::kEdges:
      return "edges";
    case MakerAspect::kFacing:
      return "facing";
    case MakerAspect::kEnds:
      return "ends";
    case MakerAspect::kFaceTwo:
      return "face-2";
  }
  return "";
}

std::string Words(MakerAspect aspect, const Design& design, Terms terms) {
  switch (aspect) {
    case MakerAspect::kChart:
      return ChartWords(design);
    case MakerAspect::kPlainStitch:
      return fmt::format("{} {}", Abbreviation(FactsOf(design.technique).plain, terms),
                         PlainLoops(HandworkOf(design.technique).plain));
    case MakerAspect::kDropStitch:
      return DropWords(design, terms);
    case MakerAspect::kWorkedRows:
      return WorkedRowsWords(design);
    case MakerAspect::kEdges:
      return design.form == Form::kTube ? "none: the last stitch meets the first"
                                        : HandworkOf(design.technique).edges;
    case MakerAspect::kFacing:
      return FacingWords(design);
    case MakerAspect::kEnds:
      return EndsWords(design);
    case MakerAspect::kFaceTwo:
      return FaceTwoWords(design);
  }
  return "";
}

std::vector<MakerChange> ChangesForMaker(const Design& before, const Design& after, Terms terms) {
  std::vector<MakerChange> changes;
  for (const MakerAspect aspect : kMakerAspects) {
    std::string was = Words(aspect, before, terms);
    std::string now = Words(aspect, after, terms);
    if (was != now) changes.push_back({aspect, std::move(was), std::move(now)});
  }
  return changes;
}

std::string Sentence(const MakerChange& change) {
  return fmt::format("{}: {} (before: {}).", Subject(change.aspect), change.now, change.was);
}

}  // namespace rowproof::chart
