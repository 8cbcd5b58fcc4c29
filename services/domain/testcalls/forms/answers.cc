#include "services/domain/testcalls/forms/answers.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/quantities/reading.h"
#include "services/text/wrapping.h"

namespace rowproof::testcalls {

using quantities::Measure;
using quantities::Quantity;
using quantities::Token;
using quantities::TokenKind;
using quantities::UnitsOf;

std::string Asked(const std::string& accepted) {
  for (const char* article : {"a ", "one ", "the ", "both ", "stitch numbers"}) {
    if (accepted.starts_with(article)) return "please give " + accepted;
  }
  return "please answer " + accepted;
}

namespace {

constexpr double kMostWhole = 1'000'000;

std::string SentenceOf(std::string_view answer, const quantities::Problem& found) {
  const std::string shown = text::Excerpt(answer.substr(found.offset, found.length));
  switch (found.kind) {
    case quantities::ProblemKind::kTooLong:
      return "this answer is too long";
    case quantities::ProblemKind::kUnknown:
      break;
    case quantities::ProblemKind::kThousands:
      return fmt::format(
          "\"{}\" could be a thousand or a decimal comma; write it without the comma, or with a "
          "decimal point",
          shown);
    case quantities::ProblemKind::kTwoDecimalSigns:
      return fmt::format("\"{}\" has two decimal signs", shown);
    case quantities::ProblemKind::kTooManyDigits:
      return "this number has too many digits";
    case quantities::ProblemKind::kNoFraction:
      return fmt::format("\"{}\" is not a fraction", shown);
  }
  return fmt::format("\"{}\" cannot be understood", shown);
}

// Whether nothing was found; `problem` says it in words.
bool Passes(std::string_view answer, const std::optional<quantities::Problem>& found,
            Problem* problem) {
  if (!found.has_value()) return true;
  *problem = {found->offset, SentenceOf(answer, *found)};
  return false;
}

bool Refuse(std::string_view answer, size_t offset, const std::string& accepted, Problem* problem) {
  *problem = {offset, fmt::format("{} (you wrote \"{}\")", Asked(accepted), text::Excerpt(answer))};
  return false;
}

bool RefuseUnit(std::string_view answer, const Quantity& quantity, const char* units,
                Problem* problem) {
  *problem = {quantity.offset, fmt::format("please add the unit to \"{}\" ({})",
                                           text::Excerpt(answer.substr(quantity.offset)), units)};
  return false;
}

// Exactly one quantity of a measure.
bool ReadOne(std::string_view answer, Measure measure, Quantity* quantity, Problem* problem) {
  std::vector<Quantity> found;
  if (!Passes(answer, quantities::ReadQuantities(answer, &found), problem)) return false;
  const std::string accepted = fmt::format("one number in {}", UnitsOf(measure));
  if (found.size() == 1 && found[0].measure == Measure::kNone) {
    return RefuseUnit(answer, found[0], UnitsOf(measure), problem);
  }
  if (found.size() != 1 || found[0].measure != measure) {
    return Refuse(answer, found.empty() ? 0 : found.back().offset, accepted, problem);
  }
  *quantity = found[0];
  return true;
}

bool IsOneOf(std::string_view word, std::string_view words) {
  return words.find(fmt::format(" {} ", word)) != std::string_view::npos;
}

// The numbers of an answer between `words` (each between blanks) and `marks`.
bool ReadNumbers(std::string_view answer, std::string_view words, std::string_view marks,
                 const char* accepted, std::vector<Token>* numbers, Problem* problem) {
  std::vector<Token> tokens;
  if (!Passes(answer, quantities::ReadTokens(answer, &tokens), problem)) return false;
  for (const Token& token : tokens) {
    const bool passes =
        token.kind == TokenKind::kNumber ||
        (token.kind == TokenKind::kWord && IsOneOf(token.text, words)) ||
        (token.kind == TokenKind::kMark && marks.find(token.text) != std::string_view::npos);
    if (!passes) return Refuse(answer, token.offset, accepted, problem);
    if (token.kind == TokenKind::kNumber) numbers->push_back(token);
  }
  return true;
}

bool ReadWhole(std::string_view answer, std::string_view words, const char* accepted, int* number,
               Problem* problem) {
  std::vector<Token> numbers;
  if (!ReadNumbers(answer, words, "#.", accepted, &numbers, problem)) return false;
  if (numbers.size() != 1 || !numbers[0].whole || !(numbers[0].value >= 0) ||
      !(numbers[0].value <= kMostWhole)) {
    return Refuse(answer, numbers.empty() ? 0 : numbers.back().offset, accepted, problem);
  }
  *number = static_cast<int>(numbers[0].value);
  return true;
}

std::string WithoutEndMarks(std::string_view answer) {
  const auto is_mark = [](char c) { return c == '.' || c == '!' || c == '(' || c == ')'; };
  std::string words;
  for (const char c : answer) {
    if (!is_mark(c)) words += c == '-' ? ' ' : c;
  }
  while (!words.empty() && words.back() == ' ') words.pop_back();
  return words;
}

template <typename T>
struct Choice {
  const char* words;
  T value;
};

template <typename T>
bool ReadChoice(std::string_view answer, std::initializer_list<Choice<T>> choices,
                const char* accepted, T* value, Problem* problem) {
  const std::string words = WithoutEndMarks(answer);
  for (const Choice<T>& choice : choices) {
    if (words == choice.words) {
      *value = choice.value;
      return true;
    }
  }
  return Refuse(answer, 0, accepted, problem);
}

constexpr char kGaugeAccepted[] =
    "both counts with their spans, like \"21 stitches in 10 cm, 24 rows in 10 cm, read to 1 mm\"";

// The counts and spans of a gauge in their order: a span is of the counts before it that have none
// yet, a length after that is the step of the ruler.
struct GaugeParts {
  std::optional<double> stitches, rows, stitch_span_mm, row_span_mm, step_mm;

  bool Add(const Quantity& quantity) {
    if (quantity.measure == Measure::kStitches) return Set(stitches, quantity.number);
    if (quantity.measure == Measure::kRows) return Set(rows, quantity.number);
    if (quantity.measure != Measure::kLength) return false;
    const double mm = MmOf(quantity);
    const bool of_stitches = stitches.has_value() && !stitch_span_mm.has_value();
    const bool of_rows = rows.has_value() && !row_span_mm.has_value();
    if (of_stitches) stitch_span_mm = mm;
    if (of_rows) row_span_mm = mm;
    if (of_stitches || of_rows) return true;
    return stitches.has_value() && rows.has_value() && Set(step_mm, mm);
  }
  bool complete() const { return stitch_span_mm.has_value() && row_span_mm.has_value(); }

 private:
  static bool Set(std::optional<double>& part, double value) {
    if (part.has_value()) return false;
    part = value;
    return true;
  }
};

}  // namespace

bool ReadLengthMm(std::string_view answer, double* mm, Problem* problem) {
  Quantity quantity;
  if (!ReadOne(answer, Measure::kLength, &quantity, problem)) return false;
  *mm = MmOf(quantity);
  return true;
}

bool ReadLengthM(std::string_view answer, double* metres, Problem* problem) {
  Quantity quantity;
  if (!ReadOne(answer, Measure::kLength, &quantity, problem)) return false;
  *metres = MetresOf(quantity);
  return true;
}

bool ReadMassG(std::string_view answer, double* grams, Problem* problem) {
  Quantity quantity;
  if (!ReadOne(answer, Measure::kMass, &quantity, problem)) return false;
  *grams = GramsOf(quantity);
  return true;
}

bool ReadMinutes(std::string_view answer, double* minutes, Problem* problem) {
  std::vector<Token> tokens;
  if (!Passes(answer, quantities::ReadTokens(answer, &tokens), problem)) return false;
  const bool clock = tokens.size() >= 3 && tokens[0].whole && tokens[1].text == ":" &&
                     tokens[2].whole && tokens[2].text.size() == 2;
  if (clock) {
    const bool ends = tokens.size() == 3 ||
                      (tokens.size() == 4 && IsOneOf(tokens[3].text, " h hr hrs hour hours "));
    if (!ends || !(tokens[0].value >= 0) || !(tokens[2].value < 60)) {
      return Refuse(answer, 0, UnitsOf(Measure::kTime), problem);
    }
    *minutes = 60 * tokens[0].value + tokens[2].value;
    return true;
  }
  std::vector<Quantity> found;
  if (!Passes(answer, quantities::ReadQuantities(answer, &found), problem)) return false;
  double sum = 0;
  for (size_t i = 0; i < found.size(); ++i) {
    if (found[i].measure == Measure::kNone) {
      return RefuseUnit(answer, found[i], UnitsOf(Measure::kTime), problem);
    }
    // Hours, then minutes; each at most once.
    const bool in_order = i == 0 || (i == 1 && found[1].unit > found[0].unit);
    if (found[i].measure != Measure::kTime || !in_order) {
      return Refuse(answer, found[i].offset, UnitsOf(Measure::kTime), problem);
    }
    sum += MinutesOf(found[i]);
  }
  if (found.empty()) return Refuse(answer, 0, UnitsOf(Measure::kTime), problem);
  *minutes = sum;
  return true;
}

bool ReadWholeNumber(std::string_view answer, int* number, Problem* problem) {
  return ReadWhole(answer, " class version no nr number ", "a whole number", number, problem);
}

bool ReadRow(std::string_view answer, int* printed_row, Problem* problem) {
  if (WithoutEndMarks(answer) == "none") {
    *printed_row = -1;
    return true;
  }
  return ReadWhole(answer, " row rnd round no nr number ",
                   "the row's number as the pattern prints it, or \"none\"", printed_row, problem);
}

bool ReadWraps(std::string_view answer, double* wraps, Problem* problem) {
  constexpr char kAccepted[] = "a number of wraps in one inch";
  std::vector<Token> numbers;
  if (!ReadNumbers(answer, " wpi wraps per in inch ", "/.", kAccepted, &numbers, problem)) {
    return false;
  }
  if (numbers.size() != 1) {
    return Refuse(answer, numbers.empty() ? 0 : numbers.back().offset, kAccepted, problem);
  }
  *wraps = numbers[0].value;
  return true;
}

bool ReadBall(std::string_view answer, BallBand* ball, Problem* problem) {
  constexpr char kAccepted[] = "a length and a mass, like \"125 m in 50 g\", or \"400 tex\"";
  std::vector<Quantity> found;
  if (!Passes(answer, quantities::ReadQuantities(answer, &found), problem)) return false;
  BallBand read;
  for (const Quantity& quantity : found) {
    if (quantity.measure == Measure::kNone) {
      return RefuseUnit(answer, quantity, "mm, cm, m, in, yd, g, kg, oz or tex", problem);
    }
    if (quantity.measure == Measure::kLength && !read.length_m.has_value()) {
      read.length_m = MetresOf(quantity);
    } else if (quantity.measure == Measure::kMass && !read.mass_g.has_value()) {
      read.mass_g = GramsOf(quantity);
    } else if (quantity.measure == Measure::kDensity && found.size() == 1) {
      read.tex = quantity.number;
    } else {
      return Refuse(answer, quantity.offset, kAccepted, problem);
    }
  }
  if (!read.tex.has_value() && (!read.length_m.has_value() || !read.mass_g.has_value())) {
    return Refuse(answer, 0, kAccepted, problem);
  }
  *ball = read;
  return true;
}

bool ReadGauge(std::string_view answer, estimate::GaugeReading* reading, Problem* problem) {
  std::vector<Quantity> found;
  if (!Passes(answer, quantities::ReadQuantities(answer, &found), problem)) return false;
  GaugeParts parts;
  for (const Quantity& quantity : found) {
    if (quantity.measure == Measure::kNone) {
      return RefuseUnit(answer, quantity, "stitches, rows, mm, cm or in", problem);
    }
    if (!parts.Add(quantity)) return Refuse(answer, quantity.offset, kGaugeAccepted, problem);
  }
  if (!parts.complete()) return Refuse(answer, 0, kGaugeAccepted, problem);
  *reading = estimate::GaugeReading{};
  reading->stitches = *parts.stitches;
  reading->rows = *parts.rows;
  reading->stitch_span_mm = *parts.stitch_span_mm;
  reading->row_span_mm = *parts.row_span_mm;
  if (parts.step_mm.has_value()) reading->scale_step_mm = *parts.step_mm;
  return true;
}

bool ReadStitches(std::string_view answer, faults::StitchRange* stitches, Problem* problem) {
  constexpr char kAccepted[] = "stitch numbers, like \"5\" or \"5 to 8\", or \"all\"";
  const std::string words = WithoutEndMarks(answer);
  if (words == "all" || words == "whole row" || words == "the whole row") {
    *stitches = {};
    return true;
  }
  std::vector<Token> numbers;
  if (!ReadNumbers(answer, " to st sts stitch stitches ", "-", kAccepted, &numbers, problem)) {
    return false;
  }
  if (numbers.empty() || numbers.size() > 2) {
    return Refuse(answer, numbers.empty() ? 0 : numbers.back().offset, kAccepted, problem);
  }
  for (const Token& number : numbers) {
    if (!number.whole || !(number.value >= 1) || !(number.value <= kMostWhole)) {
      return Refuse(answer, number.offset, kAccepted, problem);
    }
  }
  const int first = static_cast<int>(numbers.front().value);
  const int last = static_cast<int>(numbers.back().value);
  *stitches = {std::min(first, last), std::max(first, last)};
  return true;
}

bool ReadYesNo(std::string_view answer, bool* yes, Problem* problem) {
  return ReadChoice<bool>(answer, {{"yes", true}, {"y", true}, {"no", false}, {"n", false}},
                          "yes or no", yes, problem);
}

bool ReadWorkedFrom(std::string_view answer, WorkedFrom* worked_from, Problem* problem) {
  return ReadChoice<WorkedFrom>(answer,
                                {{"chart", WorkedFrom::kChart},
                                 {"the chart", WorkedFrom::kChart},
                                 {"text", WorkedFrom::kText},
                                 {"written rows", WorkedFrom::kText},
                                 {"rows", WorkedFrom::kText},
                                 {"both", WorkedFrom::kBoth}},
                                "chart, text or both", worked_from, problem);
}

bool ReadHand(std::string_view answer, chart::Hand* hand, Problem* problem) {
  return ReadChoice<chart::Hand>(answer,
                                 {{"right", chart::Hand::kRight},
                                  {"right handed", chart::Hand::kRight},
                                  {"left", chart::Hand::kLeft},
                                  {"left handed", chart::Hand::kLeft}},
                                 "right or left", hand, problem);
}

bool ReadTerms(std::string_view answer, chart::Terms* terms, Problem* problem) {
  return ReadChoice<chart::Terms>(answer,
                                  {{"us", chart::Terms::kUs},
                                   {"us terms", chart::Terms::kUs},
                                   {"uk", chart::Terms::kUk},
                                   {"uk terms", chart::Terms::kUk}},
                                  "US or UK", terms, problem);
}

bool ReadEnds(std::string_view answer, std::optional<chart::Ends>* ends, Problem* problem) {
  using Ends = std::optional<chart::Ends>;
  return ReadChoice<Ends>(answer,
                          {{"cut", chart::Ends::kCut},
                           {"carried", chart::Ends::kCarried},
                           {"waiting", chart::Ends::kWaiting},
                           {"as in the pattern", Ends()}},
                          "cut, carried, waiting or \"as in the pattern\"", ends, problem);
}

bool ReadCountedFrom(std::string_view answer, faults::CountedFrom* from, Problem* problem) {
  return ReadChoice<faults::CountedFrom>(
      answer,
      {{"stitch 1", faults::CountedFrom::kStitchOne},
       {"chart", faults::CountedFrom::kStitchOne},
       {"row start", faults::CountedFrom::kRowStart},
       {"start of row", faults::CountedFrom::kRowStart},
       {"start of the row", faults::CountedFrom::kRowStart}},
      "\"stitch 1\" (as the chart numbers them) or \"row start\"", from, problem);
}

bool ReadSeenIn(std::string_view answer, faults::SeenIn* seen_in, Problem* problem) {
  return ReadChoice<faults::SeenIn>(answer,
                                    {{"chart", faults::SeenIn::kChart},
                                     {"text", faults::SeenIn::kText},
                                     {"written rows", faults::SeenIn::kText},
                                     {"both", faults::SeenIn::kBoth},
                                     {"elsewhere", faults::SeenIn::kElsewhere}},
                                    "chart, text, both or elsewhere", seen_in, problem);
}

bool ReadErratumKind(std::string_view answer, faults::ErratumKind* kind, Problem* problem) {
  return faults::ParseErratumKind(WithoutEndMarks(answer), kind) ||
         Refuse(answer, 0, "stitch, count, colour, side, repeat, materials, measurement or other",
                problem);
}

}  // namespace rowproof::testcalls
