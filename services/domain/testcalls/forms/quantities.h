// Numbers, quantities and choices as people write them in the form. All texts are folded
// (form_lines.h). Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_QUANTITIES_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_QUANTITIES_H_

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rowproof::testcalls {

// Why a text cannot be read: the byte where the fault is, and a sentence.
struct Problem {
  size_t offset = 0;
  std::string sentence;
};

enum class TokenKind : uint8_t { kNumber, kWord, kMark };

struct Token {
  TokenKind kind = TokenKind::kMark;
  std::string_view text;  // within the folded text
  double value = 0;       // of a number
  bool whole = false;     // a number without decimals
  size_t offset = 0;
};

// Words, marks and numbers: digits with a decimal point or comma, "1/2", "4 1/2"; "-" before a
// number after anything but a number is its sign. A comma before exactly three digits ("1,200")
// could be either and is refused. False with a problem.
bool ReadTokens(std::string_view folded, std::vector<Token>* tokens, Problem* problem);

enum class Measure : uint8_t { kNone, kLength, kMass, kStitches, kRows, kTime, kDensity };

struct Quantity {
  double number = 0;
  Measure measure = Measure::kNone;
  int unit = -1;  // index into the table of units
  size_t offset = 0;
};

// Numbers with their units, and words between them that only join ("21 stitches in 10 cm"). A
// number without a unit has Measure::kNone.
bool ReadQuantities(std::string_view folded, std::vector<Quantity>* quantities, Problem* problem);

// Exact by definition (1 in = 25.4 mm, 1 yd = 0.9144 m, 1 oz = 28.349523125 g).
double MmOf(const Quantity& quantity);
double MetresOf(const Quantity& quantity);
double GramsOf(const Quantity& quantity);
double MinutesOf(const Quantity& quantity);

// The units of a measure in words, "mm, cm, m, in or yd".
const char* UnitsOf(Measure measure);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_QUANTITIES_H_
