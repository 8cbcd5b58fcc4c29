#include "services/domain/rows/writing/abbreviations.h"

#include <algorithm>
#include <cctype>
#include <string>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/domain/chart/techniques/stitches.h"

namespace rowproof::rows {
namespace {

using Entry = std::pair<std::string, std::string>;

// The Craft Yarn Council's master list; the words that differ between the systems, and those that
// are our own, as the list has none, are the stitches'.
std::vector<Entry> EntriesOf(chart::Terms terms) {
  std::vector<Entry> entries = {
      {"BLO", "back loop only"},  {"ch-sp", "chain space"}, {"ch-sps", "chain spaces"},
      {"FLO", "front loop only"}, {"rep", "repeat"},        {"Rnd", "round"},
      {"Rnds", "rounds"},         {"RS", "right side"},     {"st", "stitch"},
      {"sts", "stitches"},        {"WS", "wrong side"},
  };
  if (terms == chart::Terms::kUs) entries.emplace_back("sk", "skip");
  for (const auto kind : {chart::StitchKind::kChain, chart::StitchKind::kSingleCrochet,
                          chart::StitchKind::kSpikeSingleCrochet,
                          chart::StitchKind::kDoubleTwoRowsDown, chart::StitchKind::kSlipStitch}) {
    entries.emplace_back(chart::Abbreviation(kind, terms), chart::StitchName(kind, terms));
  }
  return entries;
}

bool IsWordPart(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; }

// Whether the word is in the text; if it is, it is removed.
bool TakeWord(std::string& text, const std::string& word) {
  bool found = false;
  for (size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const size_t end = at + word.size();
    const bool starts = at == 0 || !IsWordPart(text[at - 1]);
    if (!starts || (end < text.size() && IsWordPart(text[end]))) continue;
    text.replace(at, word.size(), word.size(), '.');
    found = true;
  }
  return found;
}

std::string LowerCase(const std::string& text) {
  std::string lower = text;
  for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return lower;
}

}  // namespace

std::vector<std::string> AbbreviationsIn(const std::vector<std::string>& texts, chart::Terms terms,
                                         const Stop& stop) {
  std::vector<Entry> entries = EntriesOf(terms);
  // Longer words first: they hold shorter ones.
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Entry& a, const Entry& b) { return a.first.size() > b.first.size(); });
  std::vector<std::string> left = texts;
  std::vector<Entry> used;
  for (const Entry& entry : entries) {
    bool found = false;
    for (std::string& text : left) {
      if (stop.After(text.size() / 2)) return {};
      found |= TakeWord(text, entry.first);
    }
    if (found) used.push_back(entry);
  }
  std::sort(used.begin(), used.end(),
            [](const Entry& a, const Entry& b) { return LowerCase(a.first) < LowerCase(b.first); });
  std::vector<std::string> lines;
  for (const auto& [word, meaning] : used) lines.push_back(fmt::format("{} - {}", word, meaning));
  return lines;
}

}  // namespace rowproof::rows
