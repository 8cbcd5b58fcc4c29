// What contradicts itself in materials, or its guidelines, and what was assumed. Notes are never
// errors: the tables of the trade call themselves guidelines, and mosaic fabrics are worked denser
// than they say. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_NOTES_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_NOTES_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::estimate {

enum class NoteCode : uint8_t {
  kWrapsOutsideClass,       // wraps per inch, against the weight class
  kBandOutsideClass,        // metres in 100 g, against what is usual in the class
  kHookOutsideClass,        // hook, against the class's
  kGaugeOutsideClass,       // stitch gauge, against the class's single crochet
  kGaugeOfAnotherFabric,    // counted in another technique, facing or way with the ends
  kEndsDoNotFit,            // the maker's way with the ends, against technique, facing and form
  kFoundationContradicted,  // the materials' foundation, against the one that the chart declares
  kCalibrationOfAnotherFabric,  // measured in another technique, facing or way with the ends
  kCalibrationOfAnotherClass,   // measured in another yarn weight class
};
inline constexpr size_t kNoteCodes = 9;

struct Note {
  NoteCode code = NoteCode::kBandOutsideClass;
  std::string sentence;
  bool operator==(const Note&) const = default;
};

// In the order of the yarns, then of the codes. Yarns that no row, border or fringe uses are not
// looked at. The materials must be valid for the design.
std::vector<Note> Notes(const chart::Design& design, const Materials& materials);

struct Piece;  // part_lengths.h
// What an estimate took for granted, in sentences.
std::vector<std::string> Assumed(const Piece& piece);

const char* CodeName(NoteCode code);  // "wraps-outside-class", "band-outside-class", ...

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_NOTES_H_
