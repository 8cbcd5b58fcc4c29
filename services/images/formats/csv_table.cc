#include "services/images/formats/csv_table.h"

#include <algorithm>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "services/images/chart_file.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

absl::Status Refuse(int line, size_t column, const std::string& wrong,
                    const std::string& remedy = kTableForm) {
  return Refusal("content",
                 fmt::format("Line {}, column {}: {}; {}.", line, column, wrong, remedy));
}

// Cells are letters, or of the pair . and x.
enum class Signs : uint8_t { kUnknown, kColours, kStitches };

std::optional<TableEntry> EntryOf(char c) {
  if (c == '.') return TableEntry::kPlain;
  if (c == 'x' || c == 'X') return TableEntry::kDrop;
  const char capital = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  if (capital < 'A' || capital > 'H') return std::nullopt;
  return static_cast<TableEntry>(capital - 'A');
}

// The lines of a file, one after the other, without their ends.
class Lines {
 public:
  explicit Lines(std::string_view text) : rest_(text) {}
  std::string_view Next() {
    const size_t end = rest_.find('\n');
    std::string_view line = rest_.substr(0, end);
    if (end == std::string_view::npos) {
      rest_ = {};
      return line;
    }
    rest_.remove_prefix(end + 1);
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
  }

 private:
  std::string_view rest_;
};

std::string_view WithoutMarkAndEmptyEnd(std::string_view text) {
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  while (text.ends_with('\n')) {
    text.remove_suffix(1);
    if (text.ends_with('\r')) text.remove_suffix(1);
  }
  return text;
}

// The first character of a line, outside quotes, that may separate cells; NUL: none.
char SeparatorOf(std::string_view line) {
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == ',' || c == ';' || c == '\t')) return c;
  }
  // A single column may be quoted.
  return line.starts_with('"') ? ',' : '\0';
}

class TableReader {
 public:
  TableReader(Table* table, size_t letters) : table_(table), letters_(letters) {}

  absl::Status Read(std::string_view line, int number) {
    number_ = number;
    count_ = 0;
    if (line.empty()) return Refuse(number_, 1, "the line is empty", "delete it");
    size_t at = 0;
    while (true) {
      auto status = table_->separator == '\0' ? AddCell(line, at, 1) : AddField(line, &at);
      if (!status.ok()) return status;
      if (table_->separator == '\0') {
        if (++at == line.size()) break;
      } else {
        if (at == line.size()) break;
        ++at;  // the separator
      }
    }
    if (number_ == 1) table_->width = count_;
    if (count_ == table_->width) return absl::OkStatus();
    return Refuse(number_, line.size() + 1,
                  fmt::format("the line has {} cells, but line 1 has {}", count_, table_->width),
                  "make all lines the same length");
  }

 private:
  // From `*at` to the next separator, or the end.
  absl::Status AddField(std::string_view line, size_t* at) {
    const size_t first = *at;
    if (first == line.size() || line[first] != '"') {
      *at = std::min(line.find(table_->separator, first), line.size());
      return AddCell(line, first, *at - first);
    }
    const size_t close = line.find('"', first + 1);
    if (close == std::string_view::npos) {
      return Refuse(number_, line.size() + 1, "the line ends inside quotes", "close them");
    }
    *at = close + 1;
    if (*at < line.size() && line[*at] != table_->separator) {
      return Refuse(number_, *at + 1, fmt::format("{} follows a closing quote", Shown(line[*at])));
    }
    return AddCell(line, first + 1, close - first - 1);
  }

  absl::Status AddCell(std::string_view line, size_t first, size_t length) {
    if (number_ > 1 && count_ == table_->width) {
      return Refuse(number_, first + 1,
                    fmt::format("the line has more cells than the {} of line 1", table_->width),
                    "make all lines the same length");
    }
    if (++count_ > kMostPixelsAcross) {
      return CheckDimensions("content", static_cast<uint64_t>(count_),
                             static_cast<uint64_t>(table_->height));
    }
    const std::string_view cell = line.substr(first, length);
    if (cell.empty()) return Add(TableEntry::kEmpty);
    if (table_->separator != '\0' &&
        std::all_of(cell.begin(), cell.end(), [](char c) { return c >= '0' && c <= '9'; })) {
      return Add(TableEntry::kNumber);
    }
    const auto entry = EntryOf(cell.front());
    if (!entry.has_value()) return Unexpected(cell.front(), first);
    if (cell.size() > 1) return Unexpected(cell[1], first + 1);
    const bool letter = *entry < TableEntry::kPlain;
    if (letter && static_cast<size_t>(*entry) >= letters_) {
      return Refuse(number_, first + 1,
                    fmt::format("{} is not one of the colours A to {}", Shown(cell.front()),
                                static_cast<char>('A' + letters_ - 1)),
                    "name further colours in the row colours");
    }
    const Signs signs = letter ? Signs::kColours : Signs::kStitches;
    if (signs_ == Signs::kUnknown) signs_ = signs;
    if (signs != signs_) {
      return Refuse(
          number_, first + 1,
          fmt::format("{} does not belong in a file whose cells are {}", Shown(cell.front()),
                      signs_ == Signs::kColours ? "letters" : ". and x"));
    }
    return Add(*entry);
  }
  absl::Status Add(TableEntry entry) {
    table_->entries.push_back(entry);
    return absl::OkStatus();
  }
  absl::Status Unexpected(char c, size_t at) const {
    return Refuse(number_, at + 1, fmt::format("{} is not a cell", Shown(c)));
  }

  Table* table_;
  size_t letters_;
  Signs signs_ = Signs::kUnknown;
  int number_ = 0;  // of the line, from 1
  int count_ = 0;   // entries of it so far
};

}  // namespace

absl::StatusOr<Table> ReadTable(std::string_view bytes, size_t letters, const Stop& stop) {
  const std::string_view text = WithoutMarkAndEmptyEnd(bytes);
  if (text.empty()) return Refuse(1, 1, "there are no cells");
  const auto height = static_cast<uint64_t>(std::count(text.begin(), text.end(), '\n')) + 1;
  if (auto status = CheckDimensions("content", 1, height); !status.ok()) return status;
  Table table;
  table.height = static_cast<int>(height);
  table.separator = SeparatorOf(Lines(text).Next());
  TableReader reader(&table, letters);
  Lines lines(text);
  for (int number = 1; number <= table.height; ++number) {
    const std::string_view line = lines.Next();
    if (stop.After(line.size())) return stop.status();
    if (auto status = reader.Read(line, number); !status.ok()) return status;
    if (number > 1) continue;
    const auto width = static_cast<uint64_t>(table.width);
    if (auto status = CheckDimensions("content", width, height); !status.ok()) return status;
  }
  return table;
}

}  // namespace rowproof::images
