#include "services/domain/testcalls/forms/lines.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "fmt/format.h"
#include "services/text/folding.h"
#include "services/text/utf8.h"

namespace rowproof::testcalls {
namespace {

constexpr size_t kLongestLabelWords = 40;

enum class Use : uint8_t { kKept, kBlank, kLeftOut, kControl };

Use UseOf(uint32_t code) {
  if (code == '\t' || text::IsBlank(code)) return Use::kBlank;
  if (code == 0x200b || code == 0x2060 || code == 0xfeff) return Use::kLeftOut;
  if (text::IsControl(code)) return Use::kControl;
  return Use::kKept;
}

void NoteControl(uint32_t code, Place place, std::vector<FormFinding>& findings) {
  findings.push_back(
      {place.line, place.column, true, "",
       fmt::format("this line holds the control character U+{:04X}; please send plain text",
                   code)});
}

// One line: runs of blanks are one blank, none at the ends.
PlacedText NormalisedLine(std::string_view line, int number, std::vector<FormFinding>& findings) {
  PlacedText words;
  bool blank_before = false;
  bool has_control = false;  // the first of a line is enough to say
  int column = 0;
  for (size_t at = 0; at < line.size();) {
    const text::Character character = text::CharacterAt(line, at);
    const Place place{number, ++column};
    const Use use = UseOf(character.code_point);
    if (use == Use::kControl && !std::exchange(has_control, true)) {
      NoteControl(character.code_point, place, findings);
    }
    if (use == Use::kBlank) blank_before = true;
    if (use == Use::kKept) {
      if (blank_before && !words.empty()) words.Append(' ', place);
      blank_before = false;
      for (size_t i = 0; i < character.length; ++i) words.Append(line[at + i], place);
    }
    at += character.length;
  }
  return words;
}

// Calls `each` with every line, without its CR, LF or CR LF.
template <typename Function>
void ForEachLine(std::string_view text, Function each) {
  while (true) {
    const size_t end = text.find_first_of("\r\n");
    each(text.substr(0, end));
    if (end == std::string_view::npos) return;
    const bool crlf = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
    text.remove_prefix(end + (crlf ? 2 : 1));
  }
}

// Quote marks of replies ("> > "), and the blanks that format=flowed stuffs in.
PlacedText Unquoted(const PlacedText& words) {
  const size_t start = words.text.find_first_not_of("> ");
  return start == std::string::npos ? PlacedText() : words.From(start);
}

}  // namespace

Place PlacedText::PlaceOf(size_t offset) const {
  if (offset < at.size()) return at[offset];
  if (at.empty()) return {};
  return {at.back().line, at.back().column + 1};
}

void PlacedText::Append(char c, Place place) {
  text += c;
  at.push_back(place);
}

void PlacedText::Append(const PlacedText& other) {
  text += other.text;
  at.insert(at.end(), other.at.begin(), other.at.end());
}

PlacedText PlacedText::From(size_t offset) const {
  const size_t start = std::min(offset, text.size());
  return {text.substr(start), {at.begin() + static_cast<std::ptrdiff_t>(start), at.end()}};
}

std::vector<FormLine> ReadLines(std::string_view text, std::vector<FormFinding>& findings) {
  std::vector<FormLine> lines;
  ForEachLine(text, [&](std::string_view line) {
    const int number = static_cast<int>(lines.size()) + 1;
    FormLine read{LineKind::kBlank, number, Unquoted(NormalisedLine(line, number, findings))};
    read.kind = KindOf(read.words.text);
    lines.push_back(std::move(read));
  });
  return lines;
}

LineKind KindOf(std::string_view words) {
  if (words.empty()) return LineKind::kBlank;
  if (words == "#" || words.substr(0, 2) == "# ") return LineKind::kHelp;
  if (words == "--") return LineKind::kSignature;
  return LineKind::kWords;
}

PlacedText Folded(const PlacedText& text) {
  PlacedText folded;
  for (size_t at = 0; at < text.text.size();) {
    const text::Character character = text::CharacterAt(text.text, at);
    const std::string_view bytes = std::string_view(text.text).substr(at, character.length);
    for (const char c : text::FoldedCharacter(character.code_point, bytes))
      folded.Append(c, text.at[at]);
    at += character.length;
  }
  return folded;
}

std::optional<std::string> WordsBeforeColon(std::string_view words) {
  const std::string_view start = words.substr(0, kLongestLabelWords + 1);
  const size_t colon = start.find(':');
  if (colon == std::string_view::npos) return std::nullopt;
  std::string label;
  for (const char c : text::Folded(start.substr(0, colon))) {
    if (c != '*' && c != '_') label += c;  // what is left of bold or italic type
  }
  const size_t first = label.find_first_not_of(' ');
  if (first == std::string::npos) return std::nullopt;
  label = label.substr(first, label.find_last_not_of(' ') - first + 1);
  const bool letters = std::all_of(label.begin(), label.end(),
                                   [](char c) { return (c >= 'a' && c <= 'z') || c == ' '; });
  return letters ? std::optional(label) : std::nullopt;
}

std::optional<Label> LabelAtStart(std::string_view words, size_t* after) {
  const std::optional<std::string> text = WordsBeforeColon(words);
  if (!text.has_value()) return std::nullopt;
  const std::optional<Label> label = FindLabel(*text);
  if (!label.has_value()) return std::nullopt;
  const size_t colon = words.find(':');
  const bool bold = words.substr(0, colon).find('*') != std::string_view::npos;
  *after = std::min(words.find_first_not_of(bold ? "* " : " ", colon + 1), words.size());
  return label;
}

std::string NormalisedText(std::string_view text, bool multi_line) {
  std::vector<FormFinding> unused;
  std::string normalised;
  ForEachLine(text, [&](std::string_view line) {
    const std::string words = NormalisedLine(line, 1, unused).text;
    if (normalised.empty() || (words.empty() && !multi_line)) {
      normalised += words;
      return;
    }
    normalised += multi_line ? '\n' : ' ';
    normalised += words;
  });
  while (!normalised.empty() && normalised.back() == '\n') normalised.pop_back();
  return normalised;
}

}  // namespace rowproof::testcalls
