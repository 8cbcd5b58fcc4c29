#include "services/quantities/reading.h"

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <iterator>
#include <string>

#include "services/quantities/units.h"

namespace rowproof::quantities {
namespace {

constexpr size_t kMostDigits = 40;
constexpr size_t kMostTokens = 60;

// In the unit itself: number * times / by.
struct Unit {
  const char* names;  // each between blanks
  Measure measure;
  double times;  // to mm, g or minutes
  double metres_times = 1;
  double metres_by = 1;
};

constexpr Unit kUnits[] = {
    {" mm millimetre millimetres millimeter millimeters ", Measure::kLength, 1, 1, 1000},
    {" cm centimetre centimetres centimeter centimeters ", Measure::kLength, 10, 1, 100},
    {" m metre metres meter meters ", Measure::kLength, 1000, 1, 1},
    {" in inch inches \" ", Measure::kLength, kMmPerInch, 0.0254, 1},
    {" yd yds yard yards ", Measure::kLength, kMmPerYard, kMetresPerYard, 1},
    {" g gr gram grams gramme grammes ", Measure::kMass, 1},
    {" kg kilogram kilograms ", Measure::kMass, 1000},
    {" oz ounce ounces ", Measure::kMass, kGramsPerOunce},
    {" st sts stitch stitches ", Measure::kStitches, 1},
    {" row rows rnd rnds round rounds ", Measure::kRows, 1},
    {" h hr hrs hour hours ", Measure::kTime, 60},
    {" min mins minute minutes ", Measure::kTime, 1},
    {" tex ", Measure::kDensity, 1},
};

constexpr char kJoiningWords[] =
    " in per to and over on the of at read reads nearest measured by each ball ";

bool Holds(std::string_view words, std::string_view word) {
  return words.find(" " + std::string(word) + " ") != std::string_view::npos;
}

int FindUnit(std::string_view word) {
  for (size_t i = 0; i < std::size(kUnits); ++i) {
    if (Holds(kUnits[i].names, word)) return static_cast<int>(i);
  }
  return -1;
}

bool IsDigit(char c) { return c >= '0' && c <= '9'; }
bool IsLetter(char c) { return c >= 'a' && c <= 'z'; }

// Splits a folded text; stops at the first problem.
class Tokens {
 public:
  Tokens(std::string_view text, std::vector<Token>& tokens) : text_(text), tokens_(tokens) {}

  std::optional<Problem> Read() {
    if (ReadAll()) return std::nullopt;
    return problem_;
  }

 private:
  bool ReadAll() {
    while (at_ < text_.size()) {
      if (tokens_.size() >= kMostTokens) return Fail(ProblemKind::kTooLong, at_);
      if (text_[at_] == ' ' || text_[at_] == '\n') {
        ++at_;
      } else if (StartsNumber()) {
        if (!ReadNumber()) return false;
      } else if (IsLetter(text_[at_])) {
        ReadWord();
      } else if (static_cast<unsigned char>(text_[at_]) < 0x80) {
        tokens_.push_back({TokenKind::kMark, text_.substr(at_, 1), 0, false, at_});
        ++at_;
      } else {
        return Fail(ProblemKind::kUnknown, at_);
      }
    }
    return true;
  }

  // To the end of the text unless a length is given.
  bool Fail(ProblemKind kind, size_t offset, size_t length = std::string_view::npos) {
    problem_ = {kind, offset, std::min(length, text_.size() - offset)};
    return false;
  }
  char At(size_t i) const { return i < text_.size() ? text_[i] : '\0'; }
  bool AfterNumber() const { return !tokens_.empty() && tokens_.back().kind == TokenKind::kNumber; }

  bool StartsNumber() const {
    if (IsDigit(At(at_))) return true;
    if (At(at_) == '.') return IsDigit(At(at_ + 1));
    return At(at_) == '-' && !AfterNumber() &&
           (IsDigit(At(at_ + 1)) || (At(at_ + 1) == '.' && IsDigit(At(at_ + 2))));
  }

  void ReadWord() {
    const size_t start = at_;
    while (IsLetter(At(at_))) ++at_;
    tokens_.push_back({TokenKind::kWord, text_.substr(start, at_ - start), 0, false, start});
  }

  size_t DigitsFrom(size_t i) const {
    const size_t start = i;
    while (IsDigit(At(i))) ++i;
    return i - start;
  }

  bool ReadNumber() {
    const size_t start = at_;
    if (At(at_) == '-') ++at_;
    const size_t whole_start = at_;
    const size_t whole = DigitsFrom(at_);
    at_ += whole;
    size_t decimals = 0;
    const char separator = At(at_);
    if ((separator == '.' || separator == ',') && IsDigit(At(at_ + 1))) {
      decimals = DigitsFrom(at_ + 1);
      if (separator == ',' && decimals == 3 && text_.substr(whole_start, whole) != "0") {
        return Fail(ProblemKind::kThousands, start, at_ + 4 - start);
      }
      at_ += 1 + decimals;
      if ((At(at_) == '.' || At(at_) == ',') && IsDigit(At(at_ + 1))) {
        return Fail(ProblemKind::kTwoDecimalSigns, start);
      }
    }
    if (whole + decimals > kMostDigits) return Fail(ProblemKind::kTooManyDigits, start);
    std::string digits(text_.substr(start, at_ - start));
    std::replace(digits.begin(), digits.end(), ',', '.');
    double value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (decimals == 0 && At(at_) == '/' && IsDigit(At(at_ + 1))) return ReadFraction(start, value);
    tokens_.push_back(
        {TokenKind::kNumber, text_.substr(start, at_ - start), value, decimals == 0, start});
    return true;
  }

  // "1/2" alone, or after a whole number and a blank.
  bool ReadFraction(size_t start, double numerator) {
    ++at_;
    const size_t length = DigitsFrom(at_);
    if (length > 2) return Fail(ProblemKind::kUnknown, start);
    double denominator = 0;
    std::from_chars(text_.data() + at_, text_.data() + at_ + length, denominator);
    at_ += length;
    if (!(denominator > 0) || numerator < 0) {
      return Fail(ProblemKind::kNoFraction, start);
    }
    const double fraction = numerator / denominator;
    if (AfterNumber() && tokens_.back().whole && tokens_.back().value >= 0) {
      Token& whole = tokens_.back();
      whole.value += fraction;
      whole.whole = false;
      whole.text = text_.substr(whole.offset, at_ - whole.offset);
      return true;
    }
    tokens_.push_back(
        {TokenKind::kNumber, text_.substr(start, at_ - start), fraction, false, start});
    return true;
  }

  std::string_view text_;
  std::vector<Token>& tokens_;
  Problem problem_;
  size_t at_ = 0;
};

// The unit of the number at `i`, -1 if it has none. "in" before another number joins the two
// ("125 in 50 g" lacks a unit) and is not inches.
int UnitAfter(const std::vector<Token>& tokens, size_t i) {
  if (i + 1 >= tokens.size() || tokens[i + 1].kind == TokenKind::kNumber) return -1;
  const bool number_next = i + 2 < tokens.size() && tokens[i + 2].kind == TokenKind::kNumber;
  if (tokens[i + 1].text == "in" && number_next) return -1;
  return FindUnit(tokens[i + 1].text);
}

const Unit& UnitOf(const Quantity& quantity, Measure measure) {
  if (quantity.measure != measure || quantity.unit < 0) std::abort();  // a bug of the caller
  return kUnits[quantity.unit];
}

}  // namespace

std::optional<Problem> ReadTokens(std::string_view folded, std::vector<Token>* tokens) {
  return Tokens(folded, *tokens).Read();
}

std::optional<Problem> ReadQuantities(std::string_view folded, std::vector<Quantity>* quantities) {
  std::vector<Token> tokens;
  if (auto problem = ReadTokens(folded, &tokens); problem.has_value()) return problem;
  for (size_t i = 0; i < tokens.size(); ++i) {
    const Token& token = tokens[i];
    if (token.kind == TokenKind::kNumber) {
      const int unit = UnitAfter(tokens, i);
      const Measure measure = unit < 0 ? Measure::kNone : kUnits[unit].measure;
      quantities->push_back({token.value, measure, unit, token.offset});
      if (unit >= 0) ++i;
      continue;
    }
    const bool joins = token.kind == TokenKind::kWord
                           ? Holds(kJoiningWords, token.text)
                           : token.text.find_first_of(",;/=.()&+") != std::string_view::npos;
    if (!joins) return Problem{ProblemKind::kUnknown, token.offset, folded.size() - token.offset};
  }
  return std::nullopt;
}

std::optional<Quantity> ReadOneQuantity(std::string_view folded) {
  std::vector<Token> tokens;
  if (ReadTokens(folded, &tokens).has_value() || tokens.size() != 2) return std::nullopt;
  const int unit = tokens[0].kind == TokenKind::kNumber ? UnitAfter(tokens, 0) : -1;
  if (unit < 0) return std::nullopt;
  return Quantity{tokens[0].value, kUnits[unit].measure, unit, tokens[0].offset};
}

double MmOf(const Quantity& quantity) {
  return quantity.number * UnitOf(quantity, Measure::kLength).times;
}

double MetresOf(const Quantity& quantity) {
  const Unit& unit = UnitOf(quantity, Measure::kLength);
  return quantity.number * unit.metres_times / unit.metres_by;
}

double GramsOf(const Quantity& quantity) {
  return quantity.number * UnitOf(quantity, Measure::kMass).times;
}

double MinutesOf(const Quantity& quantity) {
  return quantity.number * UnitOf(quantity, Measure::kTime).times;
}

const char* UnitsOf(Measure measure) {
  switch (measure) {
    case Measure::kLength:
      return "mm, cm, m, in or yd";
    case Measure::kMass:
      return "g, kg or oz";
    case Measure::kTime:
      return "h:mm, hours or minutes";
    case Measure::kStitches:
      return "stitches";
    case Measure::kRows:
      return "rows";
    case Measure::kDensity:
      return "tex";
    case Measure::kNone:
      break;
  }
  return "";
}

}  // namespace rowproof::quantities
