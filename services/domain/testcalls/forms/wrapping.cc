#include "services/domain/testcalls/forms/wrapping.h"

#include <algorithm>
#include <string_view>

#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/lines.h"

namespace rowproof::testcalls {
namespace {

bool IsFirstByte(char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }

size_t Characters(std::string_view text) {
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), IsFirstByte));
}

// Whether the reader would take a line that begins so for more of the answer before it.
bool GoesOn(std::string_view rest) {
  if (rest.front() == '>' || rest.front() == '#') return false;
  if (KindOf(rest.substr(0, rest.find(' '))) != LineKind::kWords) return false;
  const auto words = WordsBeforeColon(rest);
  return !words.has_value();
}

// Where the text is broken: the last blank within `columns` after which the text continues,
// otherwise the first such blank; npos if there is none.
size_t FindBreak(std::string_view text, size_t columns) {
  size_t best = std::string_view::npos;
  size_t column = 0;
  for (size_t i = 0; i < text.size(); ++i) {
    if (text[i] == ' ' && GoesOn(text.substr(i + 1))) {
      if (column > columns && best != std::string_view::npos) return best;
      best = i;
    }
    if (column > columns && best != std::string_view::npos) return best;
    if (IsFirstByte(text[i])) ++column;
  }
  return column > columns ? best : std::string_view::npos;
}

// The first word of at most `columns` characters, or its start.
std::string_view FirstPiece(std::string_view text, size_t columns) {
  size_t end = 0;
  for (size_t column = 0; end < text.size(); ++column) {
    size_t next = end + 1;
    while (next < text.size() && !IsFirstByte(text[next])) ++next;
    if (column == columns || text[end] == ' ') break;
    end = next;
  }
  return text.substr(0, end);
}

}  // namespace

std::string WrappedAnswer(const std::string& label, const std::string& text) {
  std::string lines = label + ":";
  std::string_view rest = text;
  size_t columns = kFormColumns - std::min(kFormColumns, lines.size() + 1);
  if (!rest.empty()) lines += ' ';
  while (!rest.empty()) {
    const size_t end =
        Characters(rest) <= columns ? std::string_view::npos : FindBreak(rest, columns);
    lines += rest.substr(0, end);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    if (!rest.empty()) lines += '\n';
    columns = kFormColumns;
  }
  return lines + "\n";
}

std::string WrappedHelp(const std::string& text) {
  const std::string normalised = NormalisedText(text, false);
  std::string_view rest = normalised;
  std::string lines;
  size_t used = kFormHelpColumns;
  while (!rest.empty()) {
    const std::string_view piece = FirstPiece(rest, kFormHelpColumns - 2);
    const size_t width = Characters(piece);
    if (used + 1 + width > kFormHelpColumns) {
      lines += lines.empty() ? "# " : "\n# ";
      used = 2;
    } else {
      lines += ' ';
      ++used;
    }
    lines += piece;
    used += width;
    rest.remove_prefix(piece.size());
    if (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
  }
  return lines + "\n";
}

}  // namespace rowproof::testcalls
