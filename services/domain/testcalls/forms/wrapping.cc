#include "services/domain/testcalls/forms/wrapping.h"

#include <algorithm>
#include <string_view>

#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/lines.h"
#include "services/text/utf8.h"
#include "services/text/wrapping.h"

namespace rowproof::testcalls {
namespace {

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
  for (size_t i = 0; i < text.size(); i += text::CharacterAt(text, i).length) {
    if (text[i] == ' ' && GoesOn(text.substr(i + 1))) {
      if (column > columns && best != std::string_view::npos) return best;
      best = i;
    }
    if (column > columns && best != std::string_view::npos) return best;
    ++column;
  }
  return column > columns ? best : std::string_view::npos;
}

}  // namespace

std::string WrappedAnswer(const std::string& label, const std::string& text) {
  std::string lines = label + ":";
  std::string_view rest = text;
  size_t columns = kFormColumns - std::min(kFormColumns, lines.size() + 1);
  if (!rest.empty()) lines += ' ';
  while (!rest.empty()) {
    const size_t end =
        text::CharacterCount(rest) <= columns ? std::string_view::npos : FindBreak(rest, columns);
    lines += rest.substr(0, end);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    if (!rest.empty()) lines += '\n';
    columns = kFormColumns;
  }
  return lines + "\n";
}

std::string WrappedHelp(const std::string& text) {
  std::string lines;
  for (const std::string& line : text::Wrap(NormalisedText(text, false), kFormHelpColumns - 2)) {
    lines += "# " + line + "\n";
  }
  return lines;
}

}  // namespace rowproof::testcalls
