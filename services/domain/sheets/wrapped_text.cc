#include "services/domain/sheets/wrapped_text.h"

#include <algorithm>

#include "services/domain/check.h"

namespace rowproof::sheets {
namespace {

bool IsContinuation(char byte) { return (static_cast<unsigned char>(byte) & 0xc0) == 0x80; }

bool IsBlank(char byte) {
  const auto number = static_cast<unsigned char>(byte);
  return number <= 0x20 || number == 0x7f;
}

// Bytes of the first `columns` characters.
size_t BytesOf(std::string_view text, size_t columns) {
  size_t bytes = 0;
  while (bytes < text.size() && columns > 0) {
    ++bytes;
    while (bytes < text.size() && IsContinuation(text[bytes])) ++bytes;
    --columns;
  }
  return bytes;
}

void AddWord(std::string_view word, size_t columns, std::vector<std::string>& lines) {
  if (!lines.empty() && Columns(lines.back()) + 1 + Columns(word) <= columns) {
    lines.back() += ' ';
    lines.back() += word;
    return;
  }
  while (!word.empty()) {
    const size_t bytes = BytesOf(word, columns);
    lines.emplace_back(word.substr(0, bytes));
    word.remove_prefix(bytes);
  }
}

}  // namespace

size_t Columns(std::string_view text) {
  size_t columns = 0;
  for (size_t at = 0; at < text.size(); ++columns) at += BytesOf(text.substr(at), 1);
  return columns;
}

std::vector<std::string> Wrap(std::string_view text, size_t columns) {
  ROWPROOF_CHECK(columns >= 1);
  std::vector<std::string> lines;
  auto at = text.begin();
  while (true) {
    at = std::find_if_not(at, text.end(), IsBlank);
    if (at == text.end()) return lines;
    const auto end = std::find_if(at, text.end(), IsBlank);
    AddWord({at, end}, columns, lines);
    at = end;
  }
}

std::string Padded(std::string text, size_t columns) {
  const size_t used = Columns(text);
  if (used < columns) text.append(columns - used, ' ');
  return text;
}

void AppendWrapped(std::string& out, std::string_view lead, std::string_view text, size_t columns) {
  const size_t indent = Columns(lead);
  ROWPROOF_CHECK(indent < columns);
  const std::vector<std::string> lines = Wrap(text, columns - indent);
  for (size_t i = 0; i < lines.size(); ++i) {
    out += i == 0 ? std::string(lead) : std::string(indent, ' ');
    out += lines[i];
    out += '\n';
  }
}

}  // namespace rowproof::sheets
