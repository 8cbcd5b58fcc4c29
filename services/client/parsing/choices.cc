#include "services/client/parsing/choices.h"

#include <algorithm>

#include "services/client/failure.h"
#include "services/client/parsing/nearest.h"
#include "services/text/wrapping.h"

namespace rowproof::client {

const Words& Techniques() {
  static const auto& words = *new Words{"spike", "overlay", "inset"};
  return words;
}
const Words& Facings() {
  static const auto& words = *new Words{"one-face", "two-face", "paired"};
  return words;
}
const Words& EndsWords() {
  static const auto& words = *new Words{"cut", "carried", "waiting"};
  return words;
}
const Words& Forms() {
  static const auto& words = *new Words{"flat", "tube"};
  return words;
}
const Words& Charts() {
  static const auto& words = *new Words{"picture", "working"};
  return words;
}
const Words& Hands() {
  static const auto& words = *new Words{"right", "left"};
  return words;
}
const Words& TermsWords() {
  static const auto& words = *new Words{"us", "uk"};
  return words;
}
const Words& RepeatStyles() {
  static const auto& words = *new Words{"brackets", "asterisk"};
  return words;
}
const Words& Symmetries() {
  static const auto& words = *new Words{"left-right", "top-to-bottom", "half-turn"};
  return words;
}
const Words& Drawings() {
  static const auto& words = *new Words{"picture", "working", "face-1", "face-2"};
  return words;
}
const Words& Papers() {
  static const auto& words = *new Words{"a4", "letter"};
  return words;
}
const Words& StitchMeanings() {
  static const auto& words = *new Words{"drop", "plain"};
  return words;
}

const Words& Items() {
  static const auto& words =
      *new Words{"other", "blanket", "wrap", "cushion", "hot-pad", "baby-item"};
  return words;
}
const Words& Foundations() {
  static const auto& words = *new Words{"chain", "worked"};
  return words;
}
const Words& ColourLetters() {
  static const auto& words = *new Words{"A", "B", "C", "D", "E", "F", "G", "H"};
  return words;
}

CLI::Validator OneOf(const char* option, const Words& words) {
  // Shown as the kind of value in --help.
  std::string shown;
  for (const std::string& word : words) shown += (shown.empty() ? "" : "|") + word;
  CLI::Validator validator(shown);
  validator.operation([option = std::string(option), words](std::string& word) {
    if (std::find(words.begin(), words.end(), word) != words.end()) return std::string();
    return option + " must be " + AnyOf(words) + " (got \"" + text::OneLine(word) + "\")";
  });
  return validator;
}

CLI::Option* AddWord(CLI::App& command, const char* option, std::string& value, const Words& words,
                     const char* help) {
  return command.add_option(option, value, help)->check(OneOf(option, words));
}

}  // namespace rowproof::client
