#include "services/client/tables/chart.h"

#include <algorithm>
#include <vector>

#include "fmt/format.h"
#include "services/client/tables/chart_cells.h"
#include "services/client/tables/table.h"

namespace rowproof::client {
namespace {

constexpr int kMostEditsShown = 200;

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
  std::string seam = finding.seam();
  if (!finding.size().empty()) seam += (seam.empty() ? "" : ", ") + finding.size();
  return seam.empty() ? "-" : seam;
}

std::string WaysOut(const v1::RepairResult& repair) {
  if (repair.alternatives().empty()) return {};
  Table table;
  table.Column("Another way").Column("Changes left", Table::Side::kRight);
  for (const auto& way : repair.alternatives()) {
    std::string words = way.kind();
    std::replace(words.begin(), words.end(), '-', ' ');
    if (way.rows_moved() != 0) {
      words += way.rows_moved() > 0 ? " up by a row" : " down by a row";
    }
    table.Row({words, std::to_string(way.edits_left()) + (way.optimal() ? "" : " or fewer")});
  }
  return "\n" + table.Text();
}

// Where the list of findings is cut off.
std::string CountTable(const v1::CheckResult& check) {
  Table table;
  table.Column("Code").Column("Found", Table::Side::kRight);
  for (const auto& count : check.code_counts()) {
    table.Row({count.code(), std::to_string(count.count())});
  }
  return table.Text();
}

// What to do where the other convention is meant.
std::string OfferedConvention(const v1::CheckResult& check) {
  const bool working = check.convention_offered() == v1::CONVENTION_WORKING;
  const char* meant = working ? "working" : "picture";
  if (check.reading_offered() == "other-convention") {
    return fmt::format("\nThe file seems to be a {0} chart: use --chart {0}.\n", meant);
  }
  if (check.reading_offered() == "marks-of-other-convention") {
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
  if (!check.stitch_multiple().empty()) text += "\nStitches: " + check.stitch_multiple() + ".\n";
  if (!check.row_multiple().empty()) text += "Worked rows: " + check.row_multiple() + ".\n";
  return text;
}

std::string ProofWords(const v1::RepairResult& repair) {
  if (repair.optimal()) return "no fewer do";
  return fmt::format("fewer than {} do not do, whether fewer than these do is not proved",
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

std::string EditTable(const google::protobuf::RepeatedPtrField<v1::Edit>& edits, const char* more) {
  Table table;
  table.Column("Row", Table::Side::kRight).Column("Stitch", Table::Side::kRight);
  table.Column("Make it");
  const int shown = std::min(edits.size(), kMostEditsShown);
  for (int i = 0; i < shown; ++i) {
    table.Row(
        {std::to_string(edits[i].row()), std::to_string(edits[i].stitch()), ValueWord(edits[i])});
  }
  std::string text = table.Text();
  if (shown < edits.size()) text += fmt::format("The first {} are shown; {}.\n", shown, more);
  return text;
}

std::string TextOf(const v1::CheckResult& check) {
  std::string text = fmt::format(
      "{}, {}, {}: the chart can{} be worked.\n", Counted(check.error_count(), "error", "errors"),
      Counted(check.warning_count(), "warning", "warnings"),
      Counted(check.note_count(), "note", "notes"), check.workable() ? "" : "not");
  if (!check.findings().empty()) {
    Table table;
    table.Column("Severity").Column("Where").Column("Seam, size").Column("What");
    for (const auto& finding : check.findings()) {
      std::string sentence = finding.sentence();
      if (finding.has_edit()) sentence += " Mended if you " + EditWords(finding.edit()) + ".";
      table.Row({SeverityWord(finding.severity()), PlaceOf(finding), SeamOf(finding), sentence});
    }
    text += "\n" + table.Text();
  }
  const auto all = check.error_count() + check.warning_count() + check.note_count();
  if (all > check.findings_size()) {
    text += fmt::format("\nThe first {} of {} are shown.\n\n", check.findings_size(), all) +
            CountTable(check);
  }
  return text + Offers(check);
}

std::string TextOf(const v1::RepairResult& repair) {
  if (repair.edit_count() == 0) return "The chart can be worked as it is: nothing to change.\n";
  std::string text = fmt::format("{} make{} the chart workable; {}.\n\n",
                                 Counted(repair.edit_count(), "change", "changes"),
                                 repair.edit_count() == 1 ? "s" : "", ProofWords(repair));
  text += EditTable(repair.edits(), "--json has all, --out writes the chart");
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
    for (const auto& line : Wrap(row.text(), kPageColumns - 2)) {
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
