// Options that take one word of a list, and the API's enums for the words. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_CHOICES_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_CHOICES_H_

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace rowproof::client {

using Words = std::vector<std::string>;

// In the order in which the API's enums number them, from 1.
const Words& Techniques();
const Words& Facings();
const Words& EndsWords();
const Words& Forms();
const Words& Charts();
const Words& Hands();
const Words& TermsWords();
const Words& RepeatStyles();
const Words& Symmetries();
const Words& Drawings();
const Words& Papers();
const Words& StitchMeanings();
const Words& Items();
const Words& Foundations();
const Words& ColourLetters();

// 0 (unspecified) for a word that is not in the list, the empty one for instance.
template <typename Enum>
Enum EnumOf(const Words& words, const std::string& word) {
  for (size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) return static_cast<Enum>(i + 1);
  }
  return static_cast<Enum>(0);
}

// Accepts one of the words for the option. It says the name itself: CLI11 leaves out that of an
// option which help does not show.
CLI::Validator OneOf(const char* option, const Words& words);
// An option that takes one of them.
CLI::Option* AddWord(CLI::App& command, const char* option, std::string& value, const Words& words,
                     const char* help);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_CHOICES_H_
