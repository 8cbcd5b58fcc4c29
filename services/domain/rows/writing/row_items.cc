#include "services/domain/rows/writing/row_items.h"

#include <algorithm>

#include "services/domain/chart/technique.h"
#include "services/domain/rows/number_list.h"

namespace rowproof::rows {
namespace {

int Width(const std::vector<Step>& steps) {
  int width = 0;
  for (const Step& step : steps) {
    width += step.count * (step.inside.empty() ? step.element.width() : Width(step.inside));
  }
  return width;
}

std::string Space(const RowWords& words, const std::vector<int>& skipped, bool over_space) {
  std::vector<int> chains = skipped;
  for (int& count : chains) count = ChainSpace(count).chains;
  std::string text = "ch " + List(chains) + ", " + words.skip + ' ';
  return text += over_space ? "ch-sp" : List(skipped);
}

void AppendSteps(const RowWords& words, const std::vector<Step>& steps, bool over_space,
                 std::string& out) {
  for (const Step& step : steps) {
    if (!out.empty() && out.back() != '[') out += ", ";
    if (step.inside.empty()) {
      out += Term(words, step.element, step.count, over_space);
      continue;
    }
    out += '[';
    AppendSteps(words, step.inside, over_space, out);
    out += "] " + std::to_string(step.count) + " times";
  }
}

// Index of the group to be starred, -1: none.
int Starred(const RowWords& words, const std::vector<Item>& items, int declared) {
  if (words.style != RepeatStyle::kAsterisk) return -1;
  int found = -1;
  for (int i = 0; i < static_cast<int>(items.size()); ++i) {
    const Item& item = items[static_cast<size_t>(i)];
    if (item.times.empty()) continue;
    if (std::any_of(item.times.begin(), item.times.end(), [](int n) { return n < 1; })) continue;
    if (i == declared) return i;
    if (found < 0 || item.width[0] > items[static_cast<size_t>(found)].width[0]) found = i;
  }
  return found;
}

// What follows "rep from *".
std::string Until(const RowWords& words, const std::vector<Item>& items, size_t starred) {
  if (starred + 1 == items.size()) return words.round ? "around" : "across";
  std::vector<int> rest(items[starred].times.size(), 0);
  for (size_t i = starred + 1; i < items.size(); ++i) {
    for (size_t size = 0; size < rest.size(); ++size) rest[size] += items[i].width[size];
  }
  const bool alike =
      std::all_of(rest.begin(), rest.end(), [&](int width) { return width == rest[0]; });
  if (alike && !words.has_spaces) return "to last " + Counted({rest[0]}, "st", "sts");
  std::vector<int> more = items[starred].times;
  for (int& times : more) --times;
  const std::string list = List(more);
  return list == "1" ? "once more" : list + " more times";
}

}  // namespace

RowWords WordsOf(const chart::Design& design, const WriterSettings& settings) {
  const chart::TechniqueFacts& facts = chart::FactsOf(design.technique);
  RowWords words;
  words.plain = chart::Abbreviation(facts.plain, settings.terms);
  words.drop = chart::Abbreviation(facts.drop, settings.terms);
  // Craft Yarn Council, US and UK terms: sk -> miss.
  words.skip = settings.terms == chart::Terms::kUs ? "sk" : "miss";
  words.style = settings.style;
  words.round = design.form == chart::Form::kTube;
  words.has_spaces = facts.skips;
  return words;
}

std::string Term(const RowWords& words, const Element& element, int count, bool over_space) {
  if (element.stitch == Stitch::kChainSpace) return Space(words, {element.skipped}, over_space);
  std::string text = element.stitch == Stitch::kPlain ? words.plain : words.drop;
  if (count > 1) text += ' ' + std::to_string(count);
  return text;
}

std::string ListedTerm(const RowWords& words, Stitch stitch, const std::vector<int>& lengths,
                       bool over_space) {
  if (stitch == Stitch::kChainSpace) return Space(words, lengths, over_space);
  return (stitch == Stitch::kPlain ? words.plain : words.drop) + (' ' + List(lengths));
}

std::string StepsText(const RowWords& words, const std::vector<Step>& steps, bool over_space) {
  std::string text;
  AppendSteps(words, steps, over_space, text);
  return text;
}

void AppendItems(const RowWords& words, const std::vector<Step>& steps, size_t sizes,
                 bool over_space, std::vector<Item>& items) {
  for (const Step& step : steps) {
    Item item;
    if (step.inside.empty()) {
      item.text = Term(words, step.element, step.count, over_space);
    } else {
      item.text = StepsText(words, step.inside, over_space);
      item.times.assign(sizes, step.count);
    }
    item.width.assign(sizes, Width({step}));
    items.push_back(std::move(item));
  }
}

std::string TextOf(const RowWords& words, const std::vector<Item>& items, int declared) {
  const int starred = Starred(words, items, declared);
  std::string text;
  for (size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += ", ";
    const Item& item = items[i];
    if (item.times.empty()) {
      text += item.text;
    } else if (static_cast<int>(i) == starred) {
      text += '*' + item.text + "; rep from * " + Until(words, items, i);
    } else {
      text += '[' + item.text + "] " + List(item.times) + " times";
    }
  }
  return text;
}

}  // namespace rowproof::rows
