#include "services/client/parsing/choices.h"

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

void AddWord(CLI::App& command, const char* option, std::string& value, const Words& words,
             const char* help) {
  auto* added = command.add_option(option, value, help)->check(CLI::IsMember(words));
  if (!value.empty()) added->capture_default_str();
}

}  // namespace rowproof::client
