#include "services/domain/rows/stitch_words.h"

#include <cctype>

#include "services/domain/chart/technique.h"

namespace rowproof::rows {

StitchWords StitchWordsOf(const chart::Design& design, chart::Terms terms) {
  const chart::TechniqueFacts& facts = chart::FactsOf(design.technique);
  const bool us = terms == chart::Terms::kUs;
  StitchWords words;
  words.plain = chart::Abbreviation(facts.plain, terms);
  words.plain_name = chart::StitchName(facts.plain, terms);
  words.tall_name = us ? "double crochet" : "treble";
  words.drop = chart::Abbreviation(facts.drop, terms);
  words.drop_name = chart::StitchName(facts.drop, terms);
  words.slip = chart::Abbreviation(chart::StitchKind::kSlipStitch, terms);
  words.skip = us ? "sk" : "miss";
  words.skipped = us ? "skipped" : "missed";
  words.gauge = us ? "Gauge" : "Tension";
  words.row = design.form == chart::Form::kTube ? "round" : "row";
  return words;
}

std::string NameOfColour(const WriterSettings& settings, chart::Colour colour) {
  return settings.colour_names.empty() ? chart::Name(colour)
                                       : settings.colour_names[static_cast<size_t>(colour)];
}

std::string Capital(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

}  // namespace rowproof::rows
