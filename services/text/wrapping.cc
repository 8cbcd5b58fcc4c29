#include "services/text/wrapping.h"

#include <algorithm>

#include "services/text/utf8.h"

namespace rowproof::text {
namespace {

constexpr size_t kExcerptCharacters = 40;

bool IsAsciiControl(char byte) {
  const auto number = static_cast<unsigned char>(byte);
  return number < 0x20 || number == 0x7f;
}

bool IsBlankByte(char byte) { return byte == ' ' || IsAsciiControl(byte); }

}  // namespace

std::vector<std::string> Wrap(std::string_view text, size_t columns) {
  const size_t most = std::max<size_t>(columns, 1);
  std::vector<std::string> lines;
  size_t used = 0;  // columns of the last line
  auto at = text.begin();
  while (true) {
    at = std::find_if_not(at, text.end(), IsBlankByte);
    if (at == text.end()) return lines;
    const auto end = std::find_if(at, text.end(), IsBlankByte);
    std::string_view word(at, end);
    at = end;
    const size_t width = CharacterCount(word);
    if (!lines.empty() && used + 1 + width <= most) {
      lines.back().append(1, ' ').append(word);
      used += 1 + width;
      continue;
    }
    for (size_t rest = width; !word.empty(); rest -= used) {
      used = std::min(rest, most);
      lines.emplace_back(FirstCharacters(word, used));
      word.remove_prefix(lines.back().size());
    }
  }
}

std::string Padded(std::string text, size_t columns) {
  const size_t used = CharacterCount(text);
  if (used < columns) text.append(columns - used, ' ');
  return text;
}

void AppendWrapped(std::string& out, std::string_view lead, std::string_view text, size_t columns) {
  const size_t indent = CharacterCount(lead);
  const std::vector<std::string> lines = Wrap(text, columns - std::min(columns, indent));
  for (size_t i = 0; i < lines.size(); ++i) {
    out += i == 0 ? std::string(lead) : std::string(indent, ' ');
    out += lines[i];
    out += '\n';
  }
}

std::string OneLine(std::string_view text) {
  std::string line(text);
  std::replace_if(line.begin(), line.end(), IsAsciiControl, ' ');
  return line;
}

std::string Excerpt(std::string_view text) {
  const std::string_view start = FirstCharacters(text, kExcerptCharacters);
  return OneLine(start) + (start.size() < text.size() ? "..." : "");
}

}  // namespace rowproof::text
