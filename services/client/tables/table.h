// Tables and paragraphs for people: never wider than 100 columns, in plain text. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_TABLE_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_TABLE_H_

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace rowproof::client {

inline constexpr size_t kPageColumns = 100;

// A paragraph: the first line after `first`, the others indented by as much.
std::string Paragraph(const std::string& first, const std::string& text);

// With a full stop at its end, unless it has one or ends otherwise.
std::string Sentence(const std::string& text);

// "1 row", "3 rows".
std::string Counted(int64_t count, const char* one, const char* many);

// A head, a rule and rows; two spaces between columns. A column of numbers is set to the right.
// The last column is wrapped to the page; others are wrapped only if the page has no room.
class Table {
 public:
  enum class Side { kLeft, kRight };
  Table& Column(std::string head, Side side = Side::kLeft);
  // As many cells as columns. A caption is a separate line above them, never broken: for names that
  // people copy.
  void Row(std::vector<std::string> cells, const std::string& caption = "");
  bool empty() const { return rows_.empty(); }
  std::string Text() const;

 private:
  std::vector<size_t> Widths() const;
  std::vector<std::string> heads_;
  std::vector<Side> sides_;
  std::vector<std::vector<std::string>> rows_;
  std::vector<std::string> captions_;
};

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_TABLE_H_
