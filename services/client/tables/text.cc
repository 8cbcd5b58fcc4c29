#include "services/client/tables/text.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"

namespace rowproof::client {
namespace {

constexpr int kRowsOnAScreen = 14;
constexpr int kFindingsOnAScreen = 5;

std::string Letter(v1::Colour colour) {
  return colour == v1::COLOUR_UNSPECIFIED
             ? "-"
             : std::string(1, static_cast<char>('A' + static_cast<int>(colour) - 1));
}

const char* SideWord(v1::Side side) {
  return side == v1::SIDE_RIGHT ? "RS" : side == v1::SIDE_WRONG ? "WS" : "-";
}

// "53 (69, 85)", one number if all are alike.
template <typename Numbers>
std::string List(const Numbers& numbers) {
  std::string list;
  bool alike = true;
  for (int i = 0; i < numbers.size(); ++i) {
    alike = alike && numbers[i] == numbers[0];
    list += fmt::format("{}{}", i == 0 ? "" : i == 1 ? " (" : ", ", numbers[i]);
  }
  if (numbers.empty()) return "-";
  return alike ? std::to_string(numbers[0]) : list + ")";
}

std::string CountsOf(const v1::TextRow& row) {
  google::protobuf::RepeatedField<int> stitches;
  google::protobuf::RepeatedField<int> spaces;
  for (const auto& count : row.counts()) {
    stitches.Add(count.stitch_count());
    if (count.chain_space_count() > 0) spaces.Add(count.chain_space_count());
  }
  return List(stitches) + (spaces.empty() ? "" : ", ch-sps " + List(spaces));
}

std::string StatedOf(const v1::TextRow& row) {
  std::string text;
  for (const auto& stated : row.stated()) {
    if (!text.empty()) text += ", ";
    text += stated.what() == "sts" ? List(stated.counts())
                                   : fmt::format("{} {}", stated.what(), List(stated.counts()));
  }
  return text.empty() ? "-" : text;
}

// "7", "27 (35, -)".
std::string NumbersOf(const v1::ComparedRow& row) {
  std::string list = List(row.numbers());
  for (size_t at = list.find("-1"); at != std::string::npos; at = list.find("-1")) {
    list.replace(at, 2, "-");
  }
  return row.numbers().empty() ? std::to_string(row.number()) : list;
}

std::string TermsLine(const v1::TextRows& rows) {
  if (rows.terms() == v1::TERMS_UNSPECIFIED) {
    return "Terms: not stated, and the words do not show whether they are US or UK.\n";
  }
  return fmt::format("Terms: {}, {}.\n", rows.terms() == v1::TERMS_US ? "US" : "UK",
                     rows.terms_declared() ? "as stated" : "by the words used");
}

std::string NamesOf(const v1::TextRows& rows) {
  std::string text;
  for (const auto& name : rows.colour_names()) {
    text += fmt::format("Colour {}: {}\n", Letter(name.colour()), name.name());
  }
  for (const auto& stitch : rows.definitions()) {
    text += fmt::format("Stitch {}: {}\n", stitch.name(), Word(stitch.meaning()));
  }
  if (rows.has_foundation()) {
    text += fmt::format("Foundation: {} chains{}{}\n", List(rows.foundation().chains()),
                        rows.foundation().colour() == v1::COLOUR_UNSPECIFIED
                            ? ""
                            : " in " + Letter(rows.foundation().colour()),
                        rows.foundation().ring() ? ", joined into a ring" : "");
  }
  return text;
}

// What could not be read first, then what differs, with the row as it would be right.
std::string FindingsOf(const v1::TextComparison& comparison, int most) {
  if (comparison.findings().empty() && comparison.reading().empty()) return {};
  Table table;
  table.Column("Severity").Column("What");
  for (const auto& finding : comparison.reading()) {
    if (--most < 0) break;
    table.Row({Word(finding.severity()), finding.sentence()});
  }
  for (const auto& finding : comparison.findings()) {
    if (--most < 0) break;
    table.Row({Word(finding.severity()), finding.sentence()});
    if (!finding.corrected().empty()) table.Row({"", "Right would be: " + finding.corrected()});
  }
  return "\n" + table.Text();
}

// Text over chart: side by side both would be too narrow to be read.
std::string RowsOf(const v1::TextComparison& comparison, bool all_rows) {
  Table table;
  table.Column("Row").Column("Agreement").Column("").Column("What it says");
  int left_out = 0;
  for (const auto& row : comparison.rows()) {
    if (!all_rows && row.agreement() == v1::ROW_AGREEMENT_AGREES) {
      ++left_out;
      continue;
    }
    table.Row(
        {NumbersOf(row), Word(row.agreement()), "text", row.text().empty() ? "-" : row.text()},
        row.heading());
    table.Row({"", "", "chart", row.chart().empty() ? "-" : row.chart()});
  }
  std::string text = table.empty() ? "" : "\n" + table.Text();
  if (left_out == 0) return text;
  return text + fmt::format("\n{} not shown (--all-rows shows them).\n",
                            Counted(left_out, "row that agrees is", "rows that agree are"));
}

}  // namespace

std::string TextOf(const v1::TextRows& rows, const Style& style) {
  std::string text =
      fmt::format("{} of rows; {}, {}, {}.\n", Counted(rows.rows_size(), "line", "lines"),
                  Counted(rows.error_count(), "error", "errors"),
                  Counted(rows.warning_count(), "warning", "warnings"),
                  Counted(rows.note_count(), "note", "notes"));
  text += TermsLine(rows);
  std::string sizes;
  for (const auto& size : rows.sizes()) sizes += (sizes.empty() ? "" : ", ") + size;
  text += Paragraph("Sizes: ", sizes) + NamesOf(rows);
  if (!rows.findings().empty()) {
    Table table;
    table.Column("Severity").Column("What");
    for (const auto& finding : rows.findings()) {
      table.Row({Word(finding.severity()), finding.sentence()});
    }
    text += "\n" + table.Text();
  }
  if (rows.rows().empty()) return text;
  const int shown = style.details ? rows.rows_size() : std::min(rows.rows_size(), kRowsOnAScreen);
  Table table;
  table.Column("Line", Table::Side::kRight).Column("Row").Column("Side").Column("Colour");
  table.Column("Stitches").Column("Stated").Column("What it says");
  for (int i = 0; i < shown; ++i) {
    const auto& row = rows.rows(i);
    const bool read = row.kind() != v1::TEXT_ROW_KIND_UNSPECIFIED;
    table.Row({std::to_string(row.place().line()),
               row.numbers() + (row.size().empty() ? "" : ", " + row.size()), SideWord(row.side()),
               Letter(row.colour()), CountsOf(row), StatedOf(row),
               read ? row.says() : "could not be read"});
  }
  text += "\n" + table.Text();
  if (shown < rows.rows_size()) {
    text += fmt::format("The first {} of {} lines are shown; --details shows all.\n", shown,
                        rows.rows_size());
  }
  if (rows.counts_left_out()) text += "\nThe text is long: its last rows were not counted.\n";
  return text;
}

std::string TextOf(const v1::TextComparison& comparison, const Style& style, bool all_rows) {
  std::string text = fmt::format(
      "{}, {}, {}: text and chart {}.\n", Counted(comparison.error_count(), "error", "errors"),
      Counted(comparison.warning_count(), "warning", "warnings"),
      Counted(comparison.note_count(), "note", "notes"),
      comparison.equal() ? "say the same in every size" : "do not say the same");
  text += fmt::format("The text was read in {} terms.\n",
                      comparison.terms() == v1::TERMS_UK ? "UK" : "US");
  const int most =
      style.details ? comparison.findings_size() + comparison.reading_size() : kFindingsOnAScreen;
  text += FindingsOf(comparison, most);
  const auto all = comparison.error_count() + comparison.warning_count() + comparison.note_count();
  const auto shown = std::min(most, comparison.findings_size() + comparison.reading_size());
  if (all > shown) text += fmt::format("\nThe first {} of {} are shown.\n", shown, all);
  if (style.details || all_rows) return text + RowsOf(comparison, all_rows);
  return comparison.equal() || comparison.rows().empty()
             ? text
             : text + "\n--details shows the rows that differ, with both texts.\n";
}

}  // namespace rowproof::client
