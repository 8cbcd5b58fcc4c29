#include "services/client/tables/chart.h"

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/client/tables/chart_cells.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

// More are summed up by kind.
constexpr int kFindingsOneByOne = 40;
// Of those that are listed, what fits a screen as a rule.
constexpr int kFindingsOnAScreen = 8;
constexpr int kEditsOnAScreen = 14;

// A picture's colour by its letter, or the stitch.
std::string ValueWord(const v1::Edit& edit) {
  if (edit.colour() != v1::COLOUR_UNSPECIFIED) {
    return std::string(1, static_cast<char>('A' + static_cast<int>(edit.colour()) - 1));
  }
  return edit.value() ? "a drop" : "plain";
}

const char* SeverityWord(v1::Severity severity) {
  switch (severity) {
    case v1::SEVERITY_ERROR:
      return "error";
    case v1::SEVERITY_WARNING:
      return "warning";
    case v1::SEVERITY_NOTE:
      return "note";
    default:
      return "unknown";
  }
}

// A chart row of inset is two worked rows.
std::string RowOf(const v1::Finding& finding) {
  if (finding.last_worked_row() <= finding.first_worked_row()) {
    return fmt::format("row {}", finding.row());
  }
  return fmt::format("row {} (worked rows {}-{})", finding.row(), finding.first_worked_row(),
                     finding.last_worked_row());
}

std::string PlaceOf(const v1::Finding& finding) {
  if (finding.row() == 0) return "chart";
  if (finding.stitch() == 0) return RowOf(finding);
  if (finding.last_stitch() != finding.stitch()) {
    return fmt::format("{}, sts {}-{}", RowOf(finding), finding.stitch(), finding.last_stitch());
  }
  return fmt::format("{}, st {}", RowOf(finding), finding.stitch());
}

std::string SeamOf(const v1::Finding& finding) {
  std::string seam = finding.seam() == v1::SEAM_UNSPECIFIED ? std::string() : Word(finding.seam());
  if (!finding.size().empty()) seam += (seam.empty() ? "" : ", ") + finding.size();
  return seam.empty() ? "-" : seam;
}

std::string WaysOut(const v1::RepairResult& repair) {
  if (repair.alternatives().empty()) return {};
  Table table;
  table.Column("Another way").Column("Changes left", Table::Side::kRight);
  for (const auto& way : repair.alternatives()) {
    std::string words = Word(way.kind());
    std::replace(words.begin(), words.end(), '-', ' ');
    if (way.row_shift() != 0) {
      words += way.row_shift() > 0 ? " up by a row" : " down by a row";
    }
    table.Row(
        {words, std::to_string(way.remaining_edit_count()) + (way.optimal() ? "" : " or fewer")});
  }
  return "\n" + table.Text();
}

// "row 3", "rows 3-9".
std::string Rows(int first, int last) {
  if (first == 0) return "whole chart";
  return first == last ? fmt::format("row {}", first) : fmt::format("rows {}-{}", first, last);
}

// One line for each kind: how many, where, and the first one's sentence.
std::string KindTable(const v1::CheckResult& check) {
  struct Kind {
    const v1::Finding* example = nullptr;
    int first = 0;
    int last = 0;
  };
  std::vector<v1::FindingCode> order;
  std::map<v1::FindingCode, Kind> kinds;
  for (const auto& finding : check.findings()) {
    Kind& kind = kinds[finding.code()];
    if (kind.example == nullptr) {
      kind.example = &finding;
      order.push_back(finding.code());
      kind.first = finding.row();
    }
    kind.first = std::min(kind.first, finding.row());
    kind.last = std::max(kind.last, finding.row());
  }
  std::map<v1::FindingCode, int64_t> counts;
  for (const auto& count : check.code_counts()) counts[count.code()] = count.count();
  Table table;
  table.Column("Severity").Column("Found", Table::Side::kRight).Column("Where").Column("The first");
  for (const v1::FindingCode code : order) {
    const Kind& kind = kinds[code];
    table.Row({SeverityWord(kind.example->severity()), std::to_string(counts[code]),
               Rows(kind.first, kind.last),
               PlaceOf(*kind.example) + ": " + kind.example->sentence()});
  }
  return table.Text();
}

std::string FindingTable(const v1::CheckResult& check, int shown) {
  bool any_seam = false;
  for (int i = 0; i < shown; ++i) any_seam |= SeamOf(check.findings(i)) != "-";
  Table table;
  table.Column("Severity").Column("Where");
  if (any_seam) table.Column("Seam, size");
  table.Column("What");
  for (int i = 0; i < shown; ++i) {
    const auto& finding = check.findings(i);
    std::string sentence = finding.sentence();
    if (finding.has_edit()) sentence += " To mend it, " + EditWords(finding.edit()) + ".";
    std::vector<std::string> cells{SeverityWord(finding.severity()), PlaceOf(finding)};
    if (any_seam) cells.push_back(SeamOf(finding));
    cells.push_back(std::move(sentence));
    table.Row(std::move(cells));
  }
  return table.Text();
}

// What to do if the other convention is meant.
std::string OfferedConvention(const v1::CheckResult& check) {
  const bool working = check.convention_offered() == v1::CONVENTION_WORKING;
  const char* meant = working ? "working" : "picture";
  if (check.reading_offered() == v1::FINDING_CODE_OTHER_CONVENTION) {
    return fmt::format("\nThe file seems to be a {0} chart: use --chart {0}.\n", meant);
  }
  if (check.reading_offered() == v1::FINDING_CODE_MARKS_OF_OTHER_CONVENTION) {
    return fmt::format(
        "\nThe marks seem to be those of a {0} chart: move each {1} by a row, or save the\n"
        "drawing as a {0} chart and use --chart {0}.\n",
        meant, working ? "down" : "up");
  }
  return {};
}

std::string Offers(const v1::CheckResult& check) {
  std::string text = OfferedConvention(check);
  if (check.swap_colours_offered()) {
    text += "\nIf colours A and B are exchanged in the file, use --swap-colours.\n";
  }
  if (!check.stitch_multiple().empty())
    text += "\nStitches: " + Sentence(check.stitch_multiple()) + "\n";
  if (!check.row_multiple().empty())
    text += "Worked rows: " + Sentence(check.row_multiple()) + "\n";
  return text;
}

std::string ProofWords(const v1::RepairResult& repair) {
  if (repair.optimal()) return "No smaller set of changes does.";
  return fmt::format("At least {} are needed; whether fewer than these are enough is not known.",
                     repair.lower_bound());
}

std::string Listed(const char* head, const google::protobuf::RepeatedPtrField<std::string>& lines) {
  if (lines.empty()) return {};
  std::string text = fmt::format("\n{}\n", head);
  for (const auto& line : lines) text += Paragraph("  ", line);
  return text;
}

}  // namespace

std::string EditWords(const v1::Edit& edit) {
  return fmt::format("make row {}, stitch {} {}", edit.row(), edit.stitch(), ValueWord(edit));
}

std::string EditTable(const google::protobuf::RepeatedPtrField<v1::Edit>& edits, int64_t all,
                      int most) {
  Table table;
  table.Column("Row", Table::Side::kRight).Column("Stitch", Table::Side::kRight);
  table.Column("Make it");
  const int shown = std::min(edits.size(), most);
  for (int i = 0; i < shown; ++i) {
    table.Row(
        {std::to_string(edits[i].row()), std::to_string(edits[i].stitch()), ValueWord(edits[i])});
  }
  std::string text = table.Text();
  if (shown < all) {
    text += fmt::format("The first {} of {} are shown{}.\n", shown, all,
                        shown < edits.size() ? "; --details shows more" : "");
  }
  return text;
}

std::string TextOf(const v1::CheckResult& check, const Style& style) {
  const auto all = check.error_count() + check.warning_count() + check.note_count();
  std::string text = check.workable() ? "The chart can be worked" : "The chart cannot be worked";
  text += all == 0 ? ": no errors, warnings or notes.\n"
                   : fmt::format(": {}, {}, {}.\n", Counted(check.error_count(), "error", "errors"),
                                 Counted(check.warning_count(), "warning", "warnings"),
                                 Counted(check.note_count(), "note", "notes"));
  if (all > kFindingsOneByOne && !style.details) {
    return text + "\n" + KindTable(check) + "\n--details lists them one by one.\n" + Offers(check);
  }
  const int shown =
      style.details ? check.findings_size() : std::min(check.findings_size(), kFindingsOnAScreen);
  if (shown > 0) text += "\n" + FindingTable(check, shown);
  if (shown < check.findings_size()) {
    text += fmt::format("\nThe first {} of {} are shown; --details lists all.\n", shown, all);
  } else if (all > shown) {
    text += fmt::format("\nThe first {} of {} are shown.\n\n", shown, all) + KindTable(check);
  }
  return text + Offers(check);
}

std::string TextOf(const v1::RepairResult& repair, const Style& style) {
  if (repair.edit_count() == 0) return "The chart can be worked as it is: nothing to change.\n";
  std::string text = fmt::format("{} make{} the chart workable. {}\n\n",
                                 Counted(repair.edit_count(), "change", "changes"),
                                 repair.edit_count() == 1 ? "s" : "", ProofWords(repair));
  text += EditTable(repair.edits(), repair.edit_count(),
                    style.details ? repair.edits_size() : kEditsOnAScreen);
  if (!style.details) return text + "\n--out FILE writes the repaired chart; --details draws it.\n";
  if (repair.edits_size() > 0) {
    text += "\n" + PictureAround(repair, repair.edits(0).row(), repair.edits(0).stitch());
  }
  return text + WaysOut(repair);
}

std::string TextOf(const v1::WrittenRows& rows) {
  std::string text;
  for (const auto& row : rows.rows()) {
    if (!row.heading().empty()) text += Paragraph("", row.heading());
    bool first = true;
    for (const auto& line : text::Wrap(row.text(), kPageColumns - 2)) {
      text += (first ? "" : "  ") + line + "\n";
      first = false;
    }
  }
  text += Listed("Abbreviations", rows.abbreviations());
  text += Listed("Special stitches", rows.special_stitches());
  text += Listed("Notes", rows.notes());
  if (rows.budget_ran_out()) {
    text += "\nA shorter text may exist: the search was cut short. The rows are right.\n";
  }
  return text;
}

}  // namespace rowproof::client
