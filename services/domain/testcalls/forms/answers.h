// One answer of the form read as what its question asks for. All texts are folded (text::Folded)
// and not empty; each function returns false with a problem. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_ANSWERS_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_ANSWERS_H_

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "services/domain/faults/erratum.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::testcalls {

// Why a text cannot be read: the byte at which it stands, and a sentence.
struct Problem {
  size_t offset = 0;
  std::string sentence;
};

// "please answer yes or no", "please give a whole number".
std::string Asked(const std::string& accepted);

// One length, mass or time with its unit.
bool ReadLengthMm(std::string_view answer, double* mm, Problem* problem);
bool ReadLengthM(std::string_view answer, double* metres, Problem* problem);
bool ReadMassG(std::string_view answer, double* grams, Problem* problem);
bool ReadMinutes(std::string_view answer, double* minutes, Problem* problem);

// "4", "class 4", "row 27"; "none" is -1 in ReadRow.
bool ReadWholeNumber(std::string_view answer, int* number, Problem* problem);
bool ReadRow(std::string_view answer, int* printed_row, Problem* problem);
// "9", "9.5 wpi".
bool ReadWraps(std::string_view answer, double* wraps, Problem* problem);

// "125 m in 50 g", "50 g / 125 m"; or "400 tex" (g/km) of a yarn without a band.
struct BallBand {
  std::optional<double> length_m;  // both or neither
  std::optional<double> mass_g;
  std::optional<double> tex;  // if they are absent
};
bool ReadBall(std::string_view answer, BallBand* ball, Problem* problem);

// "21 stitches in 10 cm, 24 rows in 10 cm, read to 1 mm"; both counts may share a span.
bool ReadGauge(std::string_view answer, estimate::GaugeReading* reading, Problem* problem);

// "5 to 8", "5-8", "5"; "all" is 0 and 0.
bool ReadStitches(std::string_view answer, faults::StitchRange* stitches, Problem* problem);

bool ReadYesNo(std::string_view answer, bool* yes, Problem* problem);
bool ReadWorkedFrom(std::string_view answer, WorkedFrom* worked_from, Problem* problem);
bool ReadHand(std::string_view answer, chart::Hand* hand, Problem* problem);
bool ReadTerms(std::string_view answer, chart::Terms* terms, Problem* problem);
// Absent: as in the pattern.
bool ReadEnds(std::string_view answer, std::optional<chart::Ends>* ends, Problem* problem);
bool ReadCountedFrom(std::string_view answer, faults::CountedFrom* from, Problem* problem);
bool ReadSeenIn(std::string_view answer, faults::SeenIn* seen_in, Problem* problem);
bool ReadErratumKind(std::string_view answer, faults::ErratumKind* kind, Problem* problem);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_ANSWERS_H_
