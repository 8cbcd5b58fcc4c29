#include "tests/domain/rows/mutation.h"

#include <cctype>
#include <regex>
#include <utility>

namespace rowproof::rows {
namespace {

size_t Below(std::mt19937& random, size_t limit) { return random() % limit; }

bool IsDigit(const std::string& line, size_t i) {
  return std::isdigit(static_cast<unsigned char>(line[i])) != 0;
}

bool IsLetter(const std::string& line, size_t i) {
  return i < line.size() && std::isalpha(static_cast<unsigned char>(line[i])) != 0;
}

bool ChangeNumber(std::string& line, std::mt19937& random) {
  std::vector<std::pair<size_t, size_t>> numbers;
  for (size_t i = 0; i < line.size();) {
    size_t end = i;
    while (end < line.size() && IsDigit(line, end)) ++end;
    if (end > i) numbers.emplace_back(i, end - i);
    i = end > i ? end : i + 1;
  }
  if (numbers.empty()) return false;
  const auto [at, length] = numbers[Below(random, numbers.size())];
  const int number = std::stoi(line.substr(at, length));
  int other = number;
  while (other == number || other < 0) {
    other = Below(random, 3) == 0 ? static_cast<int>(Below(random, 40))
                                  : number + static_cast<int>(Below(random, 5)) - 2;
  }
  line.replace(at, length, std::to_string(other));
  return true;
}

// Whole words of a row that name a stitch, in the steps.
std::vector<std::pair<size_t, size_t>> Stitches(const std::string& line) {
  std::vector<std::pair<size_t, size_t>> found;
  const size_t steps = line.find(": ");
  if (steps == std::string::npos) return found;
  for (size_t i = steps; i < line.size(); ++i) {
    for (const char* word : {"sc", "ssc", "mdc", "dc", "sdc", "mtr"}) {
      const size_t length = std::char_traits<char>::length(word);
      if (line.compare(i, length, word) != 0) continue;
      if (IsLetter(line, i - 1) || IsLetter(line, i + length)) continue;
      found.emplace_back(i, length);
    }
  }
  return found;
}

bool ChangeStitch(std::string& line, chart::Terms terms, std::mt19937& random) {
  const auto stitches = Stitches(line);
  if (stitches.empty()) return false;
  const auto [at, length] = stitches[Below(random, stitches.size())];
  const std::vector<std::string> words =
      terms == chart::Terms::kUs
          ? std::vector<std::string>{"sc", "ssc", "mdc", "dc", "hdc", "tr", "sl st"}
          : std::vector<std::string>{"dc", "sdc", "mtr", "tr", "htr", "dtr", "ss"};
  const std::string& other = words[Below(random, Below(random, 3) == 0 ? words.size() : 3)];
  if (line.substr(at, length) == other) return false;
  line.replace(at, length, other);
  return true;
}

// The steps' parts: "[", "*" and "] 3 times" stand in parts of their own.
bool MoveBracket(std::string& line, std::mt19937& random) {
  std::vector<size_t> opens;
  for (size_t i = line.find(": "); i < line.size(); ++i) {
    if (line[i] == '[' || line[i] == '*') opens.push_back(i);
  }
  if (opens.empty()) return false;
  const size_t open = opens[Below(random, opens.size())];
  if (Below(random, 2) == 0) {  // the opening one, over a step to the left or right
    const char bracket = line[open];
    const bool left = Below(random, 2) == 0;
    size_t to = left ? line.rfind(", ", open - 1) : line.find(", ", open);
    if (left && (open < 3 || line.compare(open - 2, 2, ", ") != 0)) return false;
    if (left) to = open >= 3 ? line.rfind(", ", open - 3) : std::string::npos;
    if (left && (to == std::string::npos || to < line.find(": "))) to = line.find(": ");
    if (to == std::string::npos) return false;
    to += 2;
    line.erase(open, 1);
    line.insert(left ? to : to - 1, 1, bracket);
    return true;
  }
  const size_t close = line.find(']', open);
  if (close == std::string::npos) return false;
  const size_t end = line.find(" times", close);
  if (end == std::string::npos) return false;
  const std::string closing = line.substr(close, end + 6 - close);
  const size_t left = line.rfind(", ", close);
  if (Below(random, 2) == 0 && left != std::string::npos && left > open) {
    line.erase(close, closing.size());
    line.insert(left, closing);
    return true;
  }
  size_t right = line.find(", ", end);
  if (right == std::string::npos) return false;
  right = line.find_first_of(",.", right + 2);
  if (right == std::string::npos) return false;
  line.insert(right, closing);
  line.erase(close, closing.size());
  return true;
}

bool Exchange(std::string& line, const std::string& from, const std::string& to) {
  const size_t at = line.find(from);
  if (at == std::string::npos) return false;
  line.replace(at, from.size(), to);
  return true;
}

bool TurnSide(std::string& line) {
  return Exchange(line, "(RS, ", "(WS, ") || Exchange(line, "(WS, ", "(RS, ");
}

bool ChangeColour(std::string& line, std::mt19937& random) {
  const size_t at = line.find("S, ");
  const size_t end = line.find(')', at);
  if (at == std::string::npos || end == std::string::npos) return false;
  line.replace(at + 3, end - at - 3, 1, static_cast<char>('A' + Below(random, 3)));
  return true;
}

bool ChangeStep(std::string& line, std::mt19937& random) {
  const size_t steps = line.find(": ");
  const size_t last = line.find(". (");
  if (steps == std::string::npos || last == std::string::npos) return false;
  std::vector<size_t> commas;
  for (size_t i = line.find(", ", steps); i < last; i = line.find(", ", i + 1)) commas.push_back(i);
  if (commas.size() < 2) return false;
  const size_t i = Below(random, commas.size() - 1);
  const std::string step = line.substr(commas[i], commas[i + 1] - commas[i]);
  if (Below(random, 2) == 0) {
    line.erase(commas[i], step.size());
  } else {
    line.insert(commas[i], step);
  }
  return true;
}

// Each match now and then.
std::string Replaced(const std::string& line, const char* pattern, const std::string& by,
                     std::mt19937& random) {
  const std::regex expression(pattern);
  std::string replaced;
  size_t at = 0;
  for (std::sregex_iterator match(line.begin(), line.end(), expression), end; match != end;
       ++match) {
    if (Below(random, 3) != 0) continue;
    const auto start = static_cast<size_t>(match->position());
    replaced += line.substr(at, start - at) + match->format(by);
    at = start + static_cast<size_t>(match->length());
  }
  return replaced + line.substr(at);
}

}  // namespace

std::string InOtherWords(const std::string& line, std::mt19937& random) {
  if (line.find("S, ") == std::string::npos) return line;
  std::string other = line;
  other = Replaced(other, R"(\b(s?sc|mdc|s?dc|mtr) (\d+)(?=[,.\]]))", "$2 $1", random);
  other = Replaced(other, R"(\b(s?sc|mdc|s?dc|mtr) (\d+)(?=[,.\]]))", "$1 in next $2 sts", random);
  other = Replaced(other, R"(\] 2 times)", "] twice", random);
  other = Replaced(other, R"(\] (\d+) times)", "] x $1", random);
  other = Replaced(other, R"(, sc(?=[,.\]]))", ", 1 sc", random);
  other = Replaced(other, R"(\. \((\d+ sts?)\)$)", ". $1.", random);
  other = Replaced(other, R"(: )", ": ch 1 (does not count as a st), ", random);
  return other;
}

bool Mutate(MutationKind kind, size_t at, chart::Terms terms, std::mt19937& random,
            std::vector<std::string>& lines) {
  std::string& line = lines[at];
  const std::string before = line;
  const std::string& other = lines[Below(random, lines.size())];
  bool applies = false;
  switch (kind) {
    case MutationKind::kNumber:
      applies = ChangeNumber(line, random);
      break;
    case MutationKind::kStitch:
      applies = ChangeStitch(line, terms, random);
      break;
    case MutationKind::kBracket:
      applies = MoveBracket(line, random);
      break;
    case MutationKind::kCopiedRow:
      applies = true;
      line = other;
      break;
    case MutationKind::kCopiedSteps: {
      const size_t to = line.find(": ");
      const size_t from = other.find(": ");
      applies = to != std::string::npos && from != std::string::npos;
      if (applies) line = line.substr(0, to) + other.substr(from);
      break;
    }
    case MutationKind::kSide:
      applies = TurnSide(line);
      break;
    case MutationKind::kColour:
      applies = ChangeColour(line, random);
      break;
    case MutationKind::kStep:
      applies = ChangeStep(line, random);
      break;
  }
  return applies && line != before;
}

}  // namespace rowproof::rows
