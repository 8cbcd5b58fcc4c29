// The words of findings: stable codes, severities and the sentences that people read.
#include <array>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

constexpr std::array<std::pair<FindingCode, const char*>, kFindingCodes> kCodeNames = {{
    {FindingCode::kNoAnchor, "no-anchor"},
    {FindingCode::kDropOverDrop, "drop-over-drop"},
    {FindingCode::kUncoveredTopRow, "uncovered-top-row"},
    {FindingCode::kForeignAnchor, "foreign-anchor"},
    {FindingCode::kPointlessDrop, "pointless-drop"},
    {FindingCode::kEdgeDrop, "edge-drop"},
    {FindingCode::kLooseStrand, "loose-strand"},
    {FindingCode::kColourOrder, "colour-order"},
    {FindingCode::kOddRowRepeat, "odd-row-repeat"},
    {FindingCode::kFacingRepeat, "facing-repeat"},
    {FindingCode::kEndsDoNotFit, "ends-do-not-fit"},
    {FindingCode::kForeignColour, "foreign-colour"},
    {FindingCode::kEdgeSkip, "edge-skip"},
    {FindingCode::kLongSkip, "long-skip"},
    {FindingCode::kLooseFlap, "loose-flap"},
    {FindingCode::kTooManyColours, "too-many-colours"},
    {FindingCode::kEndsCouldWait, "ends-could-wait"},
    {FindingCode::kOtherConvention, "other-convention"},
    {FindingCode::kMarksOfOtherConvention, "marks-of-other-convention"},
    {FindingCode::kColoursSwapped, "colours-swapped"},
}};

std::string BandRows(const Design& design) {
  if (!design.row_band.has_value()) return "";
  return fmt::format("chart rows {} to {}", design.row_band->first, design.row_band->last);
}

// In inset a chart row is two worked rows; they are named by the numbers of the written rows (of
// the drawn chart, its bands worked once).
std::string ChartRow(int row, const Design& design) {
  const int worked = WorkedRows(design);
  if (worked == 1) return fmt::format("Chart row {}", row);
  const int last = row * worked + design.first_row_number - 1;
  return fmt::format("Chart row {} (worked rows {} and {})", row, last - 1, last);
}

std::string Place(const Finding& finding, const Design& design) {
  if (finding.row == 0) return "";
  const std::string row = ChartRow(finding.row, design);
  if (finding.stitch == 0) return row + ": ";
  if (finding.stitch == finding.last_stitch) {
    return fmt::format("{}, stitch {}: ", row, finding.stitch);
  }
  return fmt::format("{}, stitches {} to {}: ", row, finding.stitch, finding.last_stitch);
}

std::string WordsOfRepeat(const Finding& finding, const Design& design) {
  const int rows = design.row_band.has_value() ? design.row_band->length() : 0;
  const char* unit = WorkedRows(design) > 1 ? (rows == 1 ? "chart row" : "chart rows")
                                            : (rows == 1 ? "row" : "rows");
  if (finding.code == FindingCode::kOddRowRepeat) {
    return fmt::format(
        "the repeated band ({}) has {} {}, and two colours that alternate need an even number",
        BandRows(design), rows, unit);
  }
  return fmt::format(
      "the repeated band ({}) has {} {}, not a multiple of {}, so that RS and WS change places "
      "from one repetition to the next and it cannot be written as a repeat",
      BandRows(design), rows, unit, FacingPeriod(design));
}

std::string WordsOfEdge(const Design& design) {
  const TechniqueFacts& facts = FactsOf(design.technique);
  if (facts.edges == EdgeRule::kPlainOrColumn) {
    return "an edge column is even only with no drop at all, or with a drop in every row of one "
           "colour from its second row on, and this cell differs";
  }
  if (facts.skips) {
    return fmt::format(
        "the first and last stitch of {} work are worked in every row, and here one is skipped for "
        "a drop",
        facts.name);
  }
  return fmt::format("the first and last stitch of {} work are plain, and here is a drop",
                     facts.name);
}

// Clauses about a cell: in a picture the off-colour cell is meant, in a working chart the drop.
std::string WordsOfCell(const Finding& finding, const Design& design) {
  const bool picture = design.convention == Convention::kPicture;
  switch (finding.code) {
    case FindingCode::kNoAnchor:
      return picture ? "this cell is not in its row's colour, but the drop that would cover it has "
                       "no worked stitch two rows below to go into"
                     : "this drop has no worked stitch two rows below to go into";
    case FindingCode::kDropOverDrop:
      return picture ? "this cell and the one below are both not in their row's colour, and a drop "
                       "cannot be worked directly above a drop"
                     : "a drop cannot be worked directly above a drop";
    case FindingCode::kUncoveredTopRow:
      return "this cell of the last row is not in its row's colour, and no row is left to cover it";
    case FindingCode::kForeignAnchor:
      return picture ? "the drop that covers this cell goes into a row of another colour"
                     : "this drop goes into a row of another colour";
    case FindingCode::kPointlessDrop:
      return picture ? "this cell cannot show another colour, because the row above has the same "
                       "colour as its own"
                     : "this drop covers a row of its own colour and shows nothing";
    case FindingCode::kForeignColour:
      return "this cell names a colour that is neither its row's own nor that of the row above, "
             "which would have to cover it";
    case FindingCode::kEdgeDrop:
    case FindingCode::kEdgeSkip:
      return WordsOfEdge(design);
    case FindingCode::kLooseStrand:
      return "so long a run of drops holds the carried strand loosely";
    case FindingCode::kLongSkip:
      return "so long a run of skipped stitches gapes behind its drops";
    case FindingCode::kLooseFlap:
      return "so long a run of drops leaves a loose flap behind it";
    default:
      return "";
  }
}

std::string WordsOfReading(const Finding& finding, const Design& design) {
  const bool picture = design.convention == Convention::kPicture;
  switch (finding.code) {
    case FindingCode::kOtherConvention:
      return picture ? "At least half of the stitches (or of those with a set cell) cannot be "
                       "worked, and all "
                       "can if the set cells are the drops of a working chart: the chart was given "
                       "as a picture, and a working chart seems to be meant"
                     : "At least half of the stitches cannot be worked, and all can if the set "
                       "cells show colour B: the chart was given as a working chart, and a picture "
                       "seems to be meant";
    case FindingCode::kMarksOfOtherConvention:
      return picture ? "At least half of the stitches cannot be worked, and all can if the cells "
                       "that are not in their row's colour are the drops of a working chart: the "
                       "marks seem to stand one row too high for a picture"
                     : "At least half of the stitches cannot be worked, and all can if the marks "
                       "are the cells of a picture that are not in their row's colour: they seem "
                       "to stand one row too low for a working chart";
    default:
      return picture ? "At least half of the stitches cannot be worked, and all can if colours A "
                       "and B are exchanged in the picture"
                     : "At least half of the stitches cannot be worked, and all can if set cells "
                       "are plain stitches and all others drops";
  }
}

std::string WordsOfEnds(const Finding& finding, const Design& design) {
  const char* work = design.form == Form::kTube || FactsOf(design.technique).only_facing.has_value()
                         ? Name(design.technique)
                         : Name(design.facing);
  const EndsFit fit = FitOfEnds(design);
  const char* why = fit.why == nullptr ? "the next row starts elsewhere" : fit.why;
  if (finding.code == FindingCode::kEndsCouldWait) {
    return fmt::format("Ends {} go with {} {} work, but they leave two tails a row, and {}",
                       Name(design.ends), Name(design.form), work, why);
  }
  return fmt::format("Ends {} do not fit {} {} work: {}", Name(design.ends), Name(design.form),
                     work, why);
}

std::string Words(const Finding& finding, const Design& design) {
  switch (finding.code) {
    case FindingCode::kEndsDoNotFit:
    case FindingCode::kEndsCouldWait:
      return WordsOfEnds(finding, design);
    case FindingCode::kOddRowRepeat:
    case FindingCode::kFacingRepeat:
      return WordsOfRepeat(finding, design);
    case FindingCode::kTooManyColours:
      return fmt::format(
          "this row brings a third colour, and with {} ends exactly two colours "
          "alternate row by row",
          Name(design.ends));
    case FindingCode::kColourOrder:
      return NeedsAlternation(design)
                 ? fmt::format(
                       "this row has the same colour as the row it stands on, and with {} "
                       "ends the two colours must alternate row by row",
                       Name(design.ends))
                 : "this row has the same colour as the row it stands on";
    case FindingCode::kOtherConvention:
    case FindingCode::kMarksOfOtherConvention:
    case FindingCode::kColoursSwapped:
      return WordsOfReading(finding, design);
    default:
      return WordsOfCell(finding, design);
  }
}

std::string SeamWords(const Finding& finding, const Design& design) {
  if (finding.seam == Seam::kRowRepeat && design.row_band.has_value()) {
    return fmt::format(" (where the repeat of {} meets itself: row {} stands on row {})",
                       BandRows(design), design.row_band->first, design.row_band->last);
  }
  if (finding.seam == Seam::kStitchRepeat && design.stitch_band.has_value()) {
    return fmt::format(" (where the repeat of stitches {} to {} meets itself)",
                       design.stitch_band->first, design.stitch_band->last);
  }
  if (finding.seam == Seam::kJoin) return " (across the join of the round)";
  return "";
}

std::string SizeWords(const Finding& finding, const Design& design) {
  if (static_cast<size_t>(finding.size_count) >= design.sizes.size()) return "";
  const std::string& name = design.sizes[static_cast<size_t>(finding.size)].name;
  if (finding.size_count == 1) return fmt::format(" (only in size {})", name);
  return fmt::format(" (in {} of {} sizes, first in size {})", finding.size_count,
                     design.sizes.size(), name);
}

}  // namespace

const char* CodeName(FindingCode code) {
  for (const auto& [known, name] : kCodeNames) {
    if (known == code) return name;
  }
  return nullptr;
}

bool ParseCode(const std::string& name, FindingCode* code) {
  for (const auto& [known, known_name] : kCodeNames) {
    if (name != known_name) continue;
    *code = known;
    return true;
  }
  return false;
}

const char* SeverityName(Severity severity) {
  switch (severity) {
    case Severity::kNote:
      return "note";
    case Severity::kWarning:
      return "warning";
    case Severity::kError:
      return "error";
  }
  return "";
}

std::string Sentence(const Finding& finding, const Design& design) {
  return Place(finding, design) + Words(finding, design) + SeamWords(finding, design) +
         SizeWords(finding, design) + ".";
}

}  // namespace rowproof::chart
