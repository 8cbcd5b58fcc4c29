#include "services/domain/sheets/errata_sheet.h"

#include <algorithm>
#include <array>
#include <limits>
#include <set>
#include <string_view>
#include <tuple>

#include "fmt/format.h"
#include "services/domain/patterns/difference_sentences.h"
#include "services/text/wrapping.h"

namespace rowproof::sheets {
namespace {

int SortingRow(const ErrataEntry& entry) {
  return entry.row == 0 ? std::numeric_limits<int>::max() : entry.row;
}

std::string VersionsInWords(const std::vector<int>& versions) {
  std::string words = versions.size() == 1 ? "version " : "versions ";
  for (size_t i = 0; i < versions.size(); ++i) {
    if (i > 0) words += i + 1 == versions.size() ? " and " : ", ";
    words += std::to_string(versions[i]);
  }
  return words;
}

std::string Concerned(const ErrataSheet& sheet) {
  const std::string corrected =
      fmt::format("version {} of {}", sheet.corrected_in, sheet.release_date);
  if (sheet.versions_concerned.empty()) return fmt::format("For {}.", corrected);
  return fmt::format("Applies to {}; corrected in {}.", VersionsInWords(sheet.versions_concerned),
                     corrected);
}

std::string EntryHeading(const ErrataEntry& entry, int first_row_number) {
  std::string words =
      fmt::format("{} (version {}", PlaceInWords(entry, first_row_number), entry.version);
  if (!entry.sizes.empty()) words += "; sizes " + entry.sizes;
  return words + ")";
}

void AppendEntry(std::string& out, size_t number, const ErrataEntry& entry, int first_row_number) {
  text::AppendWrapped(out, fmt::format("{}. ", number), EntryHeading(entry, first_row_number),
                      kMailColumns);
  text::AppendWrapped(out, "   Was:       ", entry.was.empty() ? "(nothing)" : entry.was,
                      kMailColumns);
  text::AppendWrapped(
      out, "   Should be: ", entry.should_be.empty() ? "(nothing)" : entry.should_be, kMailColumns);
  text::AppendWrapped(out, "   Found in:  ", entry.found_in, kMailColumns);
  text::AppendWrapped(out, "   Note:      ", entry.note, kMailColumns);
  out += '\n';
}

void AppendList(std::string& out, const char* heading, const std::vector<std::string>& items) {
  if (items.empty()) return;
  text::AppendWrapped(out, "", heading, kMailColumns);
  for (const std::string& item : items) text::AppendWrapped(out, "- ", item, kMailColumns);
  out += '\n';
}

struct Column {
  const char* heading;
  size_t columns;
};
constexpr std::array<Column, 6> kTable = {
    {{"Ver.", 4}, {"Place", 20}, {"Sizes", 10}, {"Was", 22}, {"Should be", 22}, {"Found in", 12}}};
constexpr size_t kBetween = 2;
static_assert(4 + 20 + 10 + 22 + 22 + 12 + 5 * kBetween <= kTableColumns);

void AppendTableRow(std::string& out, const std::array<std::string, kTable.size()>& cells) {
  std::array<std::vector<std::string>, kTable.size()> wrapped;
  size_t height = 0;
  for (size_t c = 0; c < kTable.size(); ++c) {
    wrapped[c] = text::Wrap(cells[c], kTable[c].columns);
    height = std::max(height, wrapped[c].size());
  }
  for (size_t line = 0; line < height; ++line) {
    std::string row;
    for (size_t c = 0; c < kTable.size(); ++c) {
      row += text::Padded(line < wrapped[c].size() ? wrapped[c][line] : "", kTable[c].columns);
      row.append(kBetween, ' ');
    }
    row.erase(row.find_last_not_of(' ') + 1);
    out += row + "\n";
  }
}

}  // namespace

void SortEntries(std::vector<ErrataEntry>& entries) {
  std::stable_sort(entries.begin(), entries.end(), [](const ErrataEntry& a, const ErrataEntry& b) {
    return std::tuple(SortingRow(a), a.first_stitch, a.version, std::string_view(a.section)) <
           std::tuple(SortingRow(b), b.first_stitch, b.version, std::string_view(b.section));
  });
}

ErrataSheet MakeErrataSheet(const ErrataSheetFacts& facts) {
  ErrataSheet sheet;
  sheet.title = facts.title;
  sheet.designer = facts.designer;
  sheet.corrected_in = facts.corrected_in;
  sheet.content_hash = facts.content_hash;
  sheet.release_date = facts.release_date;
  sheet.first_row_number = facts.numbers.new_first;
  sheet.entries = facts.entries;
  SortEntries(sheet.entries);
  std::set<int> versions;
  for (const ErrataEntry& entry : sheet.entries) versions.insert(entry.version);
  sheet.versions_concerned.assign(versions.begin(), versions.end());
  for (const patterns::RowDifference& row : facts.difference.rows) {
    if (row.change != patterns::RowChange::kSame)
      sheet.changed_rows.push_back(patterns::Sentence(row, facts.numbers));
  }
  for (const patterns::FieldDifference& field : facts.difference.fields) {
    sheet.other_changes.push_back(patterns::Sentence(field));
  }
  return sheet;
}

std::string PlaceInWords(const ErrataEntry& entry, int first_row_number) {
  std::vector<std::string> parts;
  if (!entry.section.empty()) parts.push_back(entry.section);
  if (entry.page > 0) parts.push_back(fmt::format("page {}", entry.page));
  if (entry.row > 0) parts.push_back(fmt::format("row {}", entry.row + first_row_number - 1));
  if (entry.row > 0 && entry.first_stitch > 0) {
    parts.push_back(entry.last_stitch > entry.first_stitch
                        ? fmt::format("stitches {} to {}", entry.first_stitch, entry.last_stitch)
                        : fmt::format("stitch {}", entry.first_stitch));
  }
  if (parts.empty()) return "Whole pattern";
  std::string words;
  for (const std::string& part : parts) words += (words.empty() ? "" : ", ") + part;
  if (words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string PlainText(const ErrataSheet& sheet) {
  std::string out;
  text::AppendWrapped(out, "", "ERRATA: " + sheet.title, kMailColumns);
  if (!sheet.designer.empty()) text::AppendWrapped(out, "", "by " + sheet.designer, kMailColumns);
  out += '\n';
  text::AppendWrapped(out, "", Concerned(sheet), kMailColumns);
  if (!sheet.content_hash.empty()) {
    text::AppendWrapped(out, "", fmt::format("SHA-256 of version {}:", sheet.corrected_in),
                        kMailColumns);
    text::AppendWrapped(out, "  ", sheet.content_hash, kMailColumns);
  }
  out += '\n';
  if (sheet.entries.empty()) out += "No errata.\n\n";
  for (size_t i = 0; i < sheet.entries.size(); ++i) {
    AppendEntry(out, i + 1, sheet.entries[i], sheet.first_row_number);
  }
  AppendList(out, "Changed rows:", sheet.changed_rows);
  AppendList(out, "Other changes:", sheet.other_changes);
  while (out.size() > 1 && out[out.size() - 2] == '\n') out.pop_back();
  return out;
}

std::string Table(const ErrataSheet& sheet) {
  std::string out;
  std::array<std::string, kTable.size()> cells;
  for (size_t c = 0; c < kTable.size(); ++c) cells[c] = kTable[c].heading;
  AppendTableRow(out, cells);
  for (size_t c = 0; c < kTable.size(); ++c) cells[c] = std::string(kTable[c].columns, '-');
  AppendTableRow(out, cells);
  for (const ErrataEntry& entry : sheet.entries) {
    AppendTableRow(out, {std::to_string(entry.version), PlaceInWords(entry, sheet.first_row_number),
                         entry.sizes.empty() ? "all" : entry.sizes, entry.was, entry.should_be,
                         entry.found_in});
  }
  return out;
}

}  // namespace rowproof::sheets
