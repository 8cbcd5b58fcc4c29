#include "services/domain/rows/reading/lines.h"

#include "services/domain/rows/reading/characters.h"
#include "services/domain/rows/reading/tokens.h"

namespace rowproof::rows {
namespace {

bool IsLetter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool IsDigit(char c) { return c >= '0' && c <= '9'; }

// The character at a place, variants undone; its bytes.
char CharacterAt(std::string_view text, size_t at, size_t* length) {
  *length = 1;
  if (at >= text.size()) return '\n';
  const char c = text[at];
  if (static_cast<uint8_t>(c) >= 0x80) return PlainCharacter(text, at, length);
  return c == '\t' || c == '\r' || c == '\f' ? ' ' : c;
}

// `marks`: bullets and quote marks are passed too.
size_t SkipBlanks(std::string_view line, size_t at, bool marks) {
  for (;;) {
    size_t length = 0;
    const char c = CharacterAt(line, at, &length);
    if (at >= line.size()) return line.size();
    const bool passes = c == ' ' || c == 0 || (marks && (c == '>' || c == '\x01'));
    if (!passes) return at;
    at += length;
  }
}

// Length of a word in small letters at a place, if it is that word.
size_t WordAt(std::string_view line, size_t at, std::string_view word) {
  if (at + word.size() > line.size()) return 0;
  for (size_t i = 0; i < word.size(); ++i) {
    if ((line[at + i] | 0x20) != word[i]) return 0;
  }
  const size_t end = at + word.size();
  return end < line.size() && IsLetter(line[end]) ? 0 : word.size();
}

size_t RowWordAt(std::string_view line, size_t at) {
  if (at >= line.size() || (line[at] | 0x20) != 'r') return 0;
  for (const char* word : {"row", "rows", "rnd", "rnds", "round", "rounds"}) {
    if (const size_t length = WordAt(line, at, word); length > 0) return length;
  }
  return 0;
}

// "Row 7", "Rows - (11-18)", "R7", "7th row:", "Next row:"; what follows decides (reading_head.h).
bool IsRow(std::string_view line, size_t at) {
  if (at >= line.size()) return false;
  if (const size_t word = RowWordAt(line, at); word > 0) {
    size_t length = 0;
    const size_t next = SkipBlanks(line, at + word, false);
    const char c = CharacterAt(line, next, &length);
    if (c != '-') return IsDigit(c);
    // The number of a size that does not work the row: a list follows.
    const char list = CharacterAt(line, SkipBlanks(line, next + length, false), &length);
    return list == '(' || list == '[';
  }
  if ((line[at] | 0x20) == 'r') return at + 1 < line.size() && IsDigit(line[at + 1]);
  if (IsDigit(line[at])) {
    while (at < line.size() && IsDigit(line[at])) ++at;
    for (const char* ending : {"st", "nd", "rd", "th"}) {
      if (const size_t length = WordAt(line, at, ending); length > 0) {
        return RowWordAt(line, SkipBlanks(line, at + length, false)) > 0;
      }
    }
    return false;
  }
  const size_t next = WordAt(line, at, "next");
  return next > 0 && RowWordAt(line, SkipBlanks(line, at + next, false)) > 0;
}

std::string_view TrimmedEnd(std::string_view line) {
  size_t end = line.size();
  while (end > 0 && (line[end - 1] == ' ' || line[end - 1] == '\t' || line[end - 1] == '\r' ||
                     line[end - 1] == '\f' || line[end - 1] == '\n')) {
    --end;
  }
  return line.substr(0, end);
}

bool EndsWith(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

// "Size L:", "All sizes:"
bool IsSizeHeading(std::string_view line, size_t at) {
  const std::string_view trimmed = TrimmedEnd(line.substr(at));
  if (trimmed.empty() || trimmed.back() != ':') return false;
  size_t start = 0;
  if (const size_t length = WordAt(trimmed, 0, "for"); length > 0) {
    start = SkipBlanks(trimmed, length, false);
  }
  if (WordAt(trimmed, start, "size") > 0) return true;
  const size_t all = WordAt(trimmed, start, "all");
  return all > 0 && WordAt(trimmed, SkipBlanks(trimmed, start + all, false), "sizes") > 0;
}

// Whether a line may continue the row above it.
bool GoesOn(std::string_view row, std::string_view line, size_t at) {
  const std::string_view so_far = TrimmedEnd(row);
  for (const char* count : {"st)", "sts)", "sp)", "sps)", "st]", "sts]", "stitches)"}) {
    if (EndsWith(so_far, count)) return false;
  }
  if (so_far.back() != '.') return true;
  return at + 1 < line.size() && (line[at] == '(' || line[at] == '[') && IsDigit(line[at + 1]);
}

}  // namespace

void ForEachLine(std::string_view text, const std::function<void(const TextLine&)>& take) {
  TextLine row;  // one that may continue; none if its line is 0
  const auto close_row = [&] {
    if (row.line > 0) take(row);
    row.line = 0;
  };
  int number = 0;
  for (size_t begin = 0; begin < text.size();) {
    ++number;
    const size_t newline = text.find('\n', begin);
    const size_t end = newline == std::string_view::npos ? text.size() : newline;
    const std::string_view line = text.substr(begin, end - begin);
    const size_t at = SkipBlanks(line, 0, true);
    if (at == line.size()) {
      close_row();
    } else if (IsRow(line, at)) {
      close_row();
      row = {TextLine::Kind::kRow, begin, end, number};
    } else if (IsSizeHeading(line, at)) {
      close_row();
      take({TextLine::Kind::kSize, begin, end, number});
    } else if (row.line > 0 && GoesOn(text.substr(row.begin, row.end - row.begin), line, at)) {
      row.end = end;
    } else {
      close_row();
      take({TextLine::Kind::kOther, begin, end, number});
    }
    begin = end + 1;
  }
  close_row();
}

}  // namespace rowproof::rows
