// The words of findings: stable codes, severities and the sentences that people read.
#include <array>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/findings.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

constexpr std::array<std::pair<FindingCode, const char*>, 17> kCodeNames = {{
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
}};

std::string BandRows(const Design& design) {
  if (!design.row_band.has_value()) return "";
  return fmt::format("chart rows {} to {}", design.row_band->first, design.row_band->last);
}

std::string Place(const Finding& finding) {
  if (finding.row == 0) return "";
  if (finding.stitch == 0) return fmt::format("Chart row {}: ", finding.row);
  if (finding.stitch == finding.last_stitch) {
    return fmt::format("Chart row {}, stitch {}: ", finding.row, finding.stitch);
  }
  return fmt::format("Chart row {}, stitches {} to {}: ", finding.row, finding.stitch,
                     finding.last_stitch);
}

std::string WordsOfRepeat(const Finding& finding, const Design& design) {
  const int rows = design.row_band.has_value() ? design.row_band->length() : 0;
  if (finding.code == FindingCode::kOddRowRepeat) {
    return fmt::format(
        "the repeated band ({}) has {} {}, and two colours that alternate need an even number",
        BandRows(design), rows, rows == 1 ? "row" : "rows");
  }
  return fmt::format(
      "the repeated band ({}) has {} {}, not a multiple of {}, so that RS and WS change places "
      "from "
      "one repetition to the next and it cannot be written as a repeat",
      BandRows(design), rows, rows == 1 ? "row" : "rows", FacingPeriod(design));
}

// Clauses about a cell: in a picture the off-colour cell is meant, in a working chart the drop.
std::string WordsOfCell(const Finding& finding, bool picture) {
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
    case FindingCode::kEdgeDrop:
      return "an edge column is even only with no drop at all, or with a drop in every row of one "
             "colour from its second row on, and this cell differs";
    case FindingCode::kLooseStrand:
      return "so long a run of drops holds the carried strand loosely";
    default:
      return "";
  }
}

std::string Words(const Finding& finding, const Design& design) {
  switch (finding.code) {
    case FindingCode::kEndsDoNotFit: {
      const char* why = WhyEndsDoNotFit(design);
      return fmt::format("Ends {} do not fit {} {} work: {}", Name(design.ends), Name(design.form),
                         design.form == Form::kTube ? Name(design.technique) : Name(design.facing),
                         why == nullptr ? "the next row starts elsewhere" : why);
    }
    case FindingCode::kOddRowRepeat:
    case FindingCode::kFacingRepeat:
      return WordsOfRepeat(finding, design);
    case FindingCode::kColourOrder:
      return NeedsAlternation(design)
                 ? fmt::format(
                       "this row has the same colour as the row it stands on, and with {} "
                       "ends the two colours must alternate row by row",
                       Name(design.ends))
                 : "this row has the same colour as the row it stands on";
    default:
      return WordsOfCell(finding, design.convention == Convention::kPicture);
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
  return Place(finding) + Words(finding, design) + SeamWords(finding, design) +
         SizeWords(finding, design) + ".";
}

}  // namespace rowproof::chart
