// The stitches of mosaic fabrics: their words in US and UK terms, and the loop path from which the
// yarn in one of them is calculated. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUES_STITCHES_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUES_STITCHES_H_

#include <array>
#include <cstddef>
#include <cstdint>
#include <numbers>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Numbers are stored; never change them.
enum class StitchKind : uint8_t {
  kChain,
  kSingleCrochet,
  kSpikeSingleCrochet,
  kDoubleTwoRowsDown,
  kDoubleThreeRowsDown,
  kSlipStitch,
};
inline constexpr size_t kStitchKinds = 6;

// An idealised loop path: across * stitch pitch + up * row pitch + diameters * yarn diameter.
// Source: the project's own reasoning (strands across, legs up, wraps round a strand of the same
// diameter at centre distance d, 2 pi d each); an assumption until calibrated.
struct StitchPath {
  double across = 0;     // times the stitch pitch
  double up = 0;         // times the row pitch
  double diameters = 0;  // times the yarn's diameter
  bool operator==(const StitchPath&) const = default;
};

// Abbreviations: Craft Yarn Council list, but for those that a pattern defines itself: ssc (UK sdc)
// and mdc (UK mtr), a double crochet worked as a mosaic drop.
struct StitchFacts {
  const char* us_abbreviation = "";
  const char* us_name = "";
  const char* uk_abbreviation = "";
  const char* uk_name = "";
  StitchPath path;
};

// Indexed by StitchKind.
inline constexpr std::array<StitchFacts, kStitchKinds> kStitchFacts = {{
    // Two legs and a bump along the chain, half a wrap.
    {"ch", "chain", "ch", "chain", {3, 0, std::numbers::pi}},
    // Two strands of top loop, a bar across, two legs, one wrap.
    {"sc", "single crochet", "dc", "double crochet", {3, 2, 2 * std::numbers::pi}},
    // As sc; two strands before and two behind, one row longer.
    {"ssc", "spike single crochet", "sdc", "spike double crochet", {3, 6, 2 * std::numbers::pi}},
    // One strand across more, three strands up two rows, one and a half wraps.
    {"mdc", "mosaic double crochet", "mtr", "mosaic treble", {4, 6, 3 * std::numbers::pi}},
    // As above, three rows.
    {"mdc", "mosaic double crochet", "mtr", "mosaic treble", {4, 9, 3 * std::numbers::pi}},
    // The top loop only.
    {"sl st", "slip stitch", "ss", "slip stitch", {2, 0, std::numbers::pi}},
}};

constexpr const StitchFacts& FactsOf(StitchKind kind) {
  return kStitchFacts[static_cast<size_t>(kind)];
}

constexpr const char* Abbreviation(StitchKind kind, Terms terms) {
  return terms == Terms::kUs ? FactsOf(kind).us_abbreviation : FactsOf(kind).uk_abbreviation;
}

constexpr const char* StitchName(StitchKind kind, Terms terms) {
  return terms == Terms::kUs ? FactsOf(kind).us_name : FactsOf(kind).uk_name;
}

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUES_STITCHES_H_
