// Names of stitches, measures and colours as sentences use them, in US or UK terms. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_STITCH_WORDS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_STITCH_WORDS_H_

#include <string>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

struct StitchWords {
  std::string plain;       // "sc"
  std::string plain_name;  // "single crochet"
  std::string tall_name;   // "double crochet": what a mosaic drop is
  std::string drop;        // "ssc", "mdc"
  std::string drop_name;   // "spike single crochet"
  std::string slip;        // "sl st"
  std::string skip;        // "sk"
  std::string skipped;     // "skipped"
  std::string gauge;       // "Gauge"
  std::string row;         // "row", "round"
};

// Craft Yarn Council, US and UK terms: sc -> dc, dc -> tr, sl st -> ss, sk -> miss, gauge ->
// tension.
StitchWords StitchWordsOf(const chart::Design& design, chart::Terms terms);

// As the settings name it, or its letter.
std::string NameOfColour(const WriterSettings& settings, chart::Colour colour);

// "Start" of a sentence from "start".
std::string Capital(std::string text);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_STITCH_WORDS_H_
