#include "services/domain/rows/comparing/sentences.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <tuple>

#include "fmt/format.h"
#include "services/domain/rows/comparing/comparison.h"

namespace rowproof::rows {
namespace {

// In the order of ComparisonCode.
constexpr std::array<const char*, kComparisonCodes> kCodeNames = {
    "wrong-stitch",      "wrong-chains",       "wrong-count",        "leaves-stitches-over",
    "runs-short",        "dropped-group",      "doubled-group",      "wrong-edge",
    "mixed-terms",       "reads-as-other-row", "rows-shifted",       "wrong-colour",
    "colours-exchanged", "wrong-side",         "wrong-stated-count", "no-stated-count",
    "missing-row",       "doubled-row",        "misplaced-row",      "wrong-number",
    "row-too-many",      "wrong-foundation",   "into-chain",         "turn-does-not-fit",
    "other-chains",      "side-left-out",      "colour-left-out"};

constexpr size_t kMostRowsNamed = 8;

// "7", "7 and 9", "3 to 10", "7, 9, 11, 13 and 12 more".
std::string RowList(const std::vector<int>& rows) {
  if (rows.size() > 2 && rows.back() - rows.front() == static_cast<int>(rows.size()) - 1) {
    return fmt::format("{} to {}", rows.front(), rows.back());
  }
  const bool cut = rows.size() > kMostRowsNamed;
  const size_t named = cut ? kMostRowsNamed - 1 : rows.size();
  std::string list;
  for (size_t i = 0; i < named; ++i) {
    if (i > 0) list += i + 1 == named && !cut ? " and " : ", ";
    list += std::to_string(rows[i]);
  }
  return cut ? fmt::format("{} and {} more", list, rows.size() - named) : list;
}

std::string Place(const ComparisonFinding& finding, const Comparison& comparison) {
  if (finding.code == ComparisonCode::kWrongFoundation) return "Foundation";
  const bool tube = !comparison.rows.empty() && comparison.rows.front().chart.rfind("Rnd", 0) == 0;
  const bool several = finding.rows.size() > 1;
  std::string place = fmt::format("{}{} {}", tube ? "Round" : "Row", several ? "s" : "",
                                  several ? RowList(finding.rows) : std::to_string(finding.row));
  if (finding.stitch == 0) return place;
  if (finding.stitch == finding.last_stitch) {
    return fmt::format("{}, stitch {}", place, finding.stitch);
  }
  return fmt::format("{}, stitches {} to {}", place, finding.stitch, finding.last_stitch);
}

std::string SizesOf(const ComparisonFinding& finding, const Comparison& comparison) {
  if (finding.sizes.size() == comparison.sizes.size()) return "";
  std::string list;
  for (size_t i = 0; i < finding.sizes.size(); ++i) {
    if (i > 0) list += i + 1 == finding.sizes.size() ? " and " : ", ";
    list += comparison.sizes[static_cast<size_t>(finding.sizes[i])];
  }
  return fmt::format(" ({} {})", finding.sizes.size() == 1 ? "size" : "sizes", list);
}

// "4 (4, 8)": by size if they differ.
std::string Amounts(const ComparisonFinding& finding) {
  const auto same = std::all_of(finding.off_by.begin(), finding.off_by.end(),
                                [&](int n) { return n == finding.off_by.front(); });
  std::string list = std::to_string(std::abs(finding.off_by.front()));
  if (same) return list;
  list += " (";
  for (size_t i = 1; i < finding.off_by.size(); ++i) {
    list += fmt::format("{}{}", i > 1 ? ", " : "", std::abs(finding.off_by[i]));
  }
  return list + ")";
}

std::string AmountOfStitches(const ComparisonFinding& finding) {
  const std::string amounts = Amounts(finding);
  return fmt::format("{} {}", amounts, amounts == "1" ? "stitch" : "stitches");
}

bool TooLong(const ComparisonFinding& finding) { return finding.off_by.front() > 0; }

std::string WordsOfStitches(const ComparisonFinding& finding) {
  const auto& [text, chart] = std::tie(finding.text_says, finding.chart_says);
  switch (finding.code) {
    case ComparisonCode::kWrongChains:
      return fmt::format("the text has {}, but {} is usual over so many stitches", text, chart);
    case ComparisonCode::kWrongCount:
      return fmt::format("the text comes to {}, but the chart has {}: {} too {}", text, chart,
                         Amounts(finding), TooLong(finding) ? "many" : "few");
    case ComparisonCode::kLeavesOver:
      return fmt::format("the repeat leaves {} of the row below unworked",
                         AmountOfStitches(finding));
    case ComparisonCode::kRunsShort:
      return fmt::format("the repeat needs {} more than the row below has",
                         AmountOfStitches(finding));
    case ComparisonCode::kDroppedGroup:
      return fmt::format("a group is missing ({}), which leaves {} of the row below unworked",
                         chart, AmountOfStitches(finding));
    case ComparisonCode::kDoubledGroup:
      return fmt::format("there is a group too many ({}), which needs {} more in the row below",
                         text, AmountOfStitches(finding));
    case ComparisonCode::kWrongEdge:
      return fmt::format("the text has {}, but the chart has {}; they agree from the other edge",
                         text, chart);
    case ComparisonCode::kMixedTerms:
      return fmt::format(
          "the text has {}, but the chart has {}; they agree if dc and tr are read in the other "
          "terms, so US and UK seem to be mixed",
          text, chart);
    case ComparisonCode::kReadsAsOtherRow:
      return fmt::format("the text has {} instead of its own", text);
    case ComparisonCode::kRowsShifted:
      return fmt::format("each has {}; {} seems to be {} before them", text,
                         std::abs(finding.other_row) == 1 ? "a row" : "a pair of rows",
                         finding.other_row > 0 ? "missing" : "too many");
    default:
      break;
  }
  if (finding.off_by.front() <= 1) {
    return fmt::format("the text has {}, but the chart has {}", text, chart);
  }
  return fmt::format("the text has {}, but the chart has {} (the first of {} that differ)", text,
                     chart, AmountOfStitches(finding));
}

std::string WordsOf(const ComparisonFinding& finding) {
  const std::string& text = finding.text_says;
  const std::string& chart = finding.chart_says;
  switch (finding.code) {
    case ComparisonCode::kWrongColour:
    case ComparisonCode::kWrongSide:
    case ComparisonCode::kWrongFoundation:
      return fmt::format("the text says {}, but the chart has {}", text, chart);
    case ComparisonCode::kColoursExchanged:
      return fmt::format(
          "the colours are swapped: the text says {}, but the chart has {}, in every row of "
          "that colour",
          text, chart);
    case ComparisonCode::kWrongStatedCount:
      return fmt::format("the count at the end is {}, but the chart has {}", text, chart);
    case ComparisonCode::kNoStatedCount:
      return "the stitch count is missing at the end";
    case ComparisonCode::kMissingRow:
      return "missing in the text";
    case ComparisonCode::kDoubledRow:
      return "the number appears again in the text";
    case ComparisonCode::kMisplacedRow:
      return "out of order in the text";
    case ComparisonCode::kWrongNumber:
      return fmt::format("the text calls it row {}", finding.other_row);
    case ComparisonCode::kRowTooMany:
      return fmt::format("the chart has no such row, only {}", chart);
    case ComparisonCode::kIntoChain:
      return fmt::format("the text works {} instead of {}", text, chart);
    case ComparisonCode::kTurnDoesNotFit:
      return fmt::format("the text says \"{}\", but the chart has {}", text, chart);
    case ComparisonCode::kOtherChains:
      return fmt::format("the text has {} throughout, but {} is usual over so many stitches", text,
                         chart);
    case ComparisonCode::kSideLeftOut:
      return "name the side, RS or WS; the other rows leave it open";
    case ComparisonCode::kColourLeftOut:
      return "name the colour; the other rows leave it open";
    default:
      return WordsOfStitches(finding);
  }
}

}  // namespace

const char* CodeName(ComparisonCode code) { return kCodeNames[static_cast<size_t>(code)]; }

const char* Name(Agreement agreement) {
  switch (agreement) {
    case Agreement::kAgrees:
      return "agrees";
    case Agreement::kDiffers:
      return "differs";
    case Agreement::kMissing:
      return "missing";
    case Agreement::kNotRead:
      return "not-read";
    case Agreement::kTooMany:
      return "too-many";
  }
  return "";
}

std::string Sentence(const ComparisonFinding& finding, const Comparison& comparison) {
  return fmt::format("{}{}: {}.", Place(finding, comparison), SizesOf(finding, comparison),
                     WordsOf(finding));
}

}  // namespace rowproof::rows
