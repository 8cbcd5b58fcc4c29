#include "services/domain/testcalls/forms/questions.h"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <utility>
#include <vector>

namespace rowproof::testcalls {
namespace {

using estimate::YarnColour;

constexpr size_t kShortestGuessed = 5;
constexpr size_t kMostLettersOff = 2;
constexpr size_t kLongestLabel = 40;

// In the order of Question.
constexpr const char* kTexts[] = {
    "seat", "version", "size", "first row number", "worked from", "hand", "terms", "hook", "ends",
    "gauge before blocking", "gauge after blocking", "how blocked", "width before blocking",
    "height before blocking", "width after blocking", "height after blocking", "tape read to",
    "time", "last row", "finished", "remarks", "end of form",
    // erratum
    "erratum", "row", "stitches", "counted from", "seen in", "kind", "was", "should be", "note",
    // after "yarn A ", "border yarn " and so on
    "name", "fibre", "weight class", "wraps per inch", "ball", "length used", "length read to",
    "weight before", "weight after", "scale reads to", "with swatch", "with border"};
static_assert(std::size(kTexts) == static_cast<size_t>(Question::kYarnWithBorder) + 1);

std::string PrefixOf(YarnColour colour) {
  if (colour == YarnColour::kBorder) return "border yarn ";
  return std::string("yarn ") + estimate::Name(colour) + " ";
}

std::string InSmallLetters(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

std::vector<std::pair<std::string, Label>> MakeLabels() {
  std::vector<std::pair<std::string, Label>> labels;
  for (size_t i = 0; i < std::size(kTexts); ++i) {
    const auto question = static_cast<Question>(i);
    for (const YarnColour colour : estimate::kYarnColoursAsListed) {
      const Label label{question, colour};
      if (!IsOfYarn(question) && colour != YarnColour::kA) continue;
      labels.emplace_back(InSmallLetters(LabelText(label)), label);
    }
  }
  std::sort(labels.begin(), labels.end());
  return labels;
}

const std::vector<std::pair<std::string, Label>>& Labels() {
  static const auto* const kLabels = new auto(MakeLabels());
  return *kLabels;
}

// Letters to insert, delete or replace (Levenshtein distance).
size_t LettersOff(std::string_view a, std::string_view b) {
  std::vector<size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), size_t{0});
  for (size_t i = 0; i < a.size(); ++i) {
    size_t diagonal = row[0];
    row[0] = i + 1;
    for (size_t j = 0; j < b.size(); ++j) {
      const size_t replaced = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

bool IsFreeText(Question question) {
  switch (question) {
    case Question::kHowBlocked:
    case Question::kRemarks:
    case Question::kErratumWas:
    case Question::kErratumShouldBe:
    case Question::kErratumNote:
    case Question::kYarnName:
    case Question::kYarnFibre:
      return true;
    default:
      return false;
  }
}

bool IsRepeated(Question question) {
  return question == Question::kGaugeBefore || question == Question::kGaugeAfter ||
         question == Question::kRemarks;
}

std::string LabelText(const Label& label) {
  std::string text = kTexts[static_cast<size_t>(label.question)];
  if (!IsOfYarn(label.question)) return text;
  return PrefixOf(label.colour) + text;
}

std::optional<Label> FindLabel(std::string_view text) {
  const auto& labels = Labels();
  const auto found = std::lower_bound(
      labels.begin(), labels.end(), text,
      [](const auto& entry, std::string_view wanted) { return entry.first < wanted; });
  if (found == labels.end() || found->first != text) return std::nullopt;
  return found->second;
}

std::optional<Label> FindSimilarLabel(std::string_view text) {
  if (text.size() < kShortestGuessed || text.size() > kLongestLabel) return std::nullopt;
  std::optional<Label> nearest;
  size_t fewest = kMostLettersOff + 1;
  for (const auto& [known, label] : Labels()) {
    if (known.size() < kShortestGuessed) continue;
    const size_t off = LettersOff(known, text);
    if (off >= fewest) continue;
    fewest = off;
    nearest = label;
  }
  return nearest;
}

}  // namespace rowproof::testcalls
