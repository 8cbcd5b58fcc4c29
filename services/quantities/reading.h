// Numbers and quantities as people write them, in forms and options alike. All texts are folded:
// small letters, plain quotes and dashes. Thread-safe.
#ifndef ROWPROOF_SERVICES_QUANTITIES_READING_H_
#define ROWPROOF_SERVICES_QUANTITIES_READING_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace rowproof::quantities {

enum class ProblemKind : uint8_t {
  kTooLong,          // more words, marks and numbers than an answer has
  kUnknown,          // neither a number nor a word that belongs to quantities
  kThousands,        // "1,200": thousand or decimal comma
  kTwoDecimalSigns,  // "1.200,5"
  kTooManyDigits,
  kNoFraction,  // "1/0", "-1/2"
};

// Why a text cannot be read, and the bytes that show it.
struct Problem {
  ProblemKind kind = ProblemKind::kUnknown;
  size_t offset = 0;
  size_t length = 0;
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
// could be either and is refused. Nothing if all was read.
std::optional<Problem> ReadTokens(std::string_view folded, std::vector<Token>* tokens);

enum class Measure : uint8_t { kNone, kLength, kMass, kStitches, kRows, kTime, kDensity };

struct Quantity {
  double number = 0;
  Measure measure = Measure::kNone;
  int unit = -1;  // index into the table of units
  size_t offset = 0;
};

// Numbers with their units, and words between them that only join ("21 stitches in 10 cm"). A
// number without a unit has Measure::kNone.
std::optional<Problem> ReadQuantities(std::string_view folded, std::vector<Quantity>* quantities);

// A number and its unit, and nothing else: "12.5 cm", "4in", "3 1/2 oz".
std::optional<Quantity> ReadOneQuantity(std::string_view folded);

// Of a quantity of that measure (a bug otherwise). Exact by definition (units.h).
double MmOf(const Quantity& quantity);
double MetresOf(const Quantity& quantity);
double GramsOf(const Quantity& quantity);
double MinutesOf(const Quantity& quantity);

// The units of a measure in words, "mm, cm, m, in or yd".
const char* UnitsOf(Measure measure);

}  // namespace rowproof::quantities

#endif  // ROWPROOF_SERVICES_QUANTITIES_READING_H_
