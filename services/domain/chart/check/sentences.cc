#include "services/domain/chart/check/sentences.h"

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
  return fmt::format("{} {} to {}", WorkedRows(design) > 1 ? "chart rows" : "rows",
                     design.row_band->first, design.row_band->last);
}

// In inset a chart row is two rows of the pattern; they are named by their written numbers (with
// every band worked once).
std::string ChartRow(int row, const Design& design) {
  const int worked = WorkedRows(design);
  if (worked == 1) return fmt::format("Row {}", row);
  const int last = row * worked + design.first_row_number - 1;
  return fmt::format("Chart row {} (rows {} and {})", row, last - 1, last);
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
        "the repeat ({}) has {} {}; make the number even, because the two colours alternate",
        BandRows(design), rows, unit);
  }
  return fmt::format(
      "the repeat ({}) has {} {}; make it a multiple of {}, so that RS and WS rows are the same in "
      "every repeat",
      BandRows(design), rows, unit, FacingPeriod(design));
}

std::string WordsOfEdge(const Design& design) {
  const TechniqueFacts& facts = FactsOf(design.technique);
  if (facts.edges == EdgeRule::kPlainOrColumn) {
    return "this cell makes the edge uneven; work no drops in the edge column, or one in every row "
           "of one colour from its second row on";
  }
  if (facts.skips) {
    return fmt::format("an edge stitch of {} work is never skipped; remove the drop", facts.name);
  }
  return fmt::format("an edge stitch of {} work is always plain; remove the drop", facts.name);
}

// Clauses about a cell: in a picture the off-colour cell is meant, in a working chart the drop.
std::string WordsOfCell(const Finding& finding, const Design& design) {
  const bool picture = design.convention == Convention::kPicture;
  switch (finding.code) {
    case FindingCode::kNoAnchor:
      return picture ? "the drop that would cover this cell has no stitch two rows below to go "
                       "into; give the cell its row's colour"
                     : "this drop has no stitch two rows below to go into; make it plain";
    case FindingCode::kDropOverDrop:
      return picture ? "this cell and the one below both need a drop, but a drop cannot be worked "
                       "above a drop; give one of them its row's colour"
                     : "a drop cannot be worked above a drop; make one of them plain";
    case FindingCode::kUncoveredTopRow:
      return "no row is left to cover this cell; give it its row's colour, or add a row";
    case FindingCode::kForeignAnchor:
      return picture ? "the drop that covers this cell goes into a row of another colour"
                     : "this drop goes into a row of another colour";
    case FindingCode::kPointlessDrop:
      return picture ? "the row above has the same colour, so this cell cannot show another; give "
                       "it its row's colour"
                     : "this drop covers a row of its own colour and does not show; make it plain";
    case FindingCode::kForeignColour:
      return "only the colour of this row or of the row above can show here; change the cell's "
             "colour";
    case FindingCode::kEdgeDrop:
    case FindingCode::kEdgeSkip:
      return WordsOfEdge(design);
    case FindingCode::kLooseStrand:
      return "the carried strand lies loose behind these drops; break them up with a plain stitch";
    case FindingCode::kLongSkip:
      return "the skipped stitches gape behind these drops; break them up with a plain stitch";
    case FindingCode::kLooseFlap:
      return "these drops leave a loose flap behind them; break them up with a plain stitch";
    default:
      return "";
  }
}

std::string WordsOfReading(const Finding& finding, const Design& design) {
  const bool picture = design.convention == Convention::kPicture;
  switch (finding.code) {
    case FindingCode::kOtherConvention:
      return picture ? "This seems to be a working chart: read as a picture, at least half of its "
                       "stitches or marks cannot be worked; read as a working chart, all can"
                     : "This seems to be a picture: read as a working chart, at least half of its "
                       "stitches cannot be worked; read as a picture, all can";
    case FindingCode::kMarksOfOtherConvention:
      return picture ? "The marks seem to be one row too high for a picture: at least half of the "
                       "stitches cannot be worked, but all can if the marks are the drops of a "
                       "working chart"
                     : "The marks seem to be one row too low for a working chart: at least half of "
                       "the stitches cannot be worked, but all can if the marks are the off-colour "
                       "cells of a picture";
    default:
      return picture ? "The colours seem to be swapped: at least half of the stitches cannot be "
                       "worked, but all can with A and B exchanged"
                     : "The marks seem to be inverted: at least half of the stitches cannot be "
                       "worked, but all can if set cells are plain stitches and all others drops";
  }
}

std::string Capitalised(std::string word) {
  if (!word.empty()) word[0] = static_cast<char>(word[0] - 'a' + 'A');
  return word;
}

std::string WordsOfEnds(const Finding& finding, const Design& design) {
  const char* work = design.form == Form::kTube || FactsOf(design.technique).only_facing.has_value()
                         ? Name(design.technique)
                         : Name(design.facing);
  const EndsFit fit = FitOfEnds(design);
  const char* why = fit.why == nullptr ? "the next row starts elsewhere" : fit.why;
  if (finding.code == FindingCode::kEndsCouldWait) {
    return fmt::format("Cut ends leave two tails in every row, but {}", why);
  }
  return fmt::format("{} ends do not suit {} {} work: {}", Capitalised(Name(design.ends)),
                     Name(design.form), work, why);
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
          "this row brings in a third colour; with {} ends, two colours must alternate row by row",
          Name(design.ends));
    case FindingCode::kColourOrder:
      return NeedsAlternation(design)
                 ? fmt::format(
                       "this row has the same colour as the row below; with {} ends, the two "
                       "colours must alternate row by row",
                       Name(design.ends))
                 : "this row has the same colour as the row below";
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
    return fmt::format(" (where the repeat of {} meets itself: row {} follows row {})",
                       BandRows(design), design.row_band->first, design.row_band->last);
  }
  if (finding.seam == Seam::kStitchRepeat && design.stitch_band.has_value()) {
    return fmt::format(" (where the repeat of stitches {} to {} meets itself)",
                       design.stitch_band->first, design.stitch_band->last);
  }
  if (finding.seam == Seam::kJoin) return " (across the join)";
  return "";
}

std::string SizeWords(const Finding& finding, const Design& design) {
  if (static_cast<size_t>(finding.size_count) >= design.sizes.size()) return "";
  const std::string& name = design.sizes[static_cast<size_t>(finding.size)].name;
  if (finding.size_count == 1) return fmt::format(" (size {} only)", name);
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
