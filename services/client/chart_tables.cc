#include "services/client/chart_tables.h"

#include <algorithm>
#include <vector>

#include "fmt/format.h"
#include "services/client/chart_cells.h"
#include "services/client/table.h"

namespace rowproof::client {
namespace {

constexpr int kMostEditsShown = 200;

std::string Counted(long long count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
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

std::string PlaceOf(const v1::Finding& finding) {
  if (finding.row() == 0) return "chart";
  if (finding.stitch() == 0) return fmt::format("row {}", finding.row());
  if (finding.last_stitch() > finding.stitch()) {
    return fmt::format("row {}, sts {}-{}", finding.row(), finding.stitch(), finding.last_stitch());
  }
  return fmt::format("row {}, st {}", finding.row(), finding.stitch());
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
    if (way.rows_moved() != 0) words += fmt::format(" by {} rows", way.rows_moved());
    table.Row({words, std::to_string(way.edits_left())});
  }
  return "\n" + table.Text();
}

std::string Listed(const char* head, const google::protobuf::RepeatedPtrField<std::string>& lines) {
  if (lines.empty()) return {};
  std::string text = fmt::format("\n{}\n", head);
  for (const auto& line : lines) text += Paragraph("  ", line);
  return text;
}

}  // namespace

std::string TextOf(const v1::CheckResult& check) {
  std::string text = fmt::format(
      "{}, {}, {}: the chart can{} be worked.\n", Counted(check.error_count(), "error", "errors"),
      Counted(check.warning_count(), "warning", "warnings"),
      Counted(check.note_count(), "note", "notes"), check.workable() ? "" : "not");
  if (!check.findings().empty()) {
    Table table;
    table.Column("Severity").Column("Where").Column("Seam, size").Column("What");
    for (const auto& finding : check.findings()) {
      table.Row({SeverityWord(finding.severity()), PlaceOf(finding), SeamOf(finding),
                 finding.sentence()});
    }
    text += "\n" + table.Text();
  }
  const auto all = check.error_count() + check.warning_count() + check.note_count();
  if (all > check.findings_size()) {
    text += fmt::format("\nThe first {} of {} are shown.\n", check.findings_size(), all);
  }
  if (check.swap_colours_offered()) {
    text +=
        "\nRow 1 shows colour B only. If A and B are exchanged in the file, use --swap-colours.\n";
  }
  return text;
}

std::string TextOf(const v1::RepairResult& repair) {
  if (repair.edit_count() == 0) return "The chart can be worked as it is: nothing to change.\n";
  const bool picture = repair.repaired().convention() != v1::CONVENTION_WORKING;
  std::string text = fmt::format("{} make{} the chart workable; no fewer do.\n\n",
                                 Counted(repair.edit_count(), "change", "changes"),
                                 repair.edit_count() == 1 ? "s" : "");
  Table table;
  table.Column("Row", Table::Side::kRight).Column("Stitch", Table::Side::kRight);
  table.Column("Make it");
  const int shown = std::min(repair.edits_size(), kMostEditsShown);
  for (int i = 0; i < shown; ++i) {
    const auto& edit = repair.edits(i);
    const char* word = picture ? (edit.value() ? "B" : "A") : (edit.value() ? "a drop" : "plain");
    table.Row({std::to_string(edit.row()), std::to_string(edit.stitch()), word});
  }
  text += table.Text();
  if (shown < repair.edits_size()) {
    text += fmt::format("The first {} are shown; --json has all, --out writes the chart.\n", shown);
  }
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
