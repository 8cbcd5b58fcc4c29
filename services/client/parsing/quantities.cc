#include "services/client/parsing/quantities.h"

#include <charconv>
#include <cmath>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/quantities/reading.h"
#include "services/text/folding.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

Failure Refused(const std::string& option, std::string_view met, const std::string& accepted) {
  return MustBe(option, accepted, met, ExitCode::kRefused);
}

// Takes a number off the front; false if there is none that is finite.
bool TakeNumber(std::string_view* text, double* value) {
  if (text->empty() || !(text->front() == '.' || (text->front() >= '0' && text->front() <= '9'))) {
    return false;
  }
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), *value);
  if (error != std::errc() || !std::isfinite(*value)) return false;
  text->remove_prefix(static_cast<size_t>(end - text->data()));
  return true;
}

// One quantity, not below 0. A comma could be a decimal sign or part two numbers: it is refused.
quantities::Quantity One(const std::string& option, std::string_view text,
                         quantities::Measure measure, const char* unit_needed) {
  if (text.find(',') == std::string_view::npos) {
    const auto read = quantities::ReadOneQuantity(text::Folded(text));
    if (read.has_value() && read->measure == measure && read->number >= 0) return *read;
  }
  double number = 0;
  std::string_view rest = Trimmed(text);
  if (TakeNumber(&rest, &number) && rest.empty()) {
    throw Failure(ExitCode::kRefused,
                  fmt::format("{}: \"{}\" needs a unit: {}", option, Trimmed(text), unit_needed));
  }
  throw Refused(option, text, fmt::format("a number with its unit, {}", unit_needed));
}

quantities::Quantity Length(const std::string& option, std::string_view text) {
  return One(option, text, quantities::Measure::kLength, "mm, cm, m, in or yd, such as 12.5 cm");
}

}  // namespace

std::string_view Trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

double LengthMm(const std::string& option, std::string_view text) {
  return quantities::MmOf(Length(option, text));
}

double MassG(const std::string& option, std::string_view text) {
  return quantities::GramsOf(
      One(option, text, quantities::Measure::kMass, "g, kg or oz, such as 50 g"));
}

BallBand BallOf(const std::string& option, std::string_view text) {
  const size_t slash = text.find('/');
  if (slash == std::string_view::npos) {
    throw Failure(ExitCode::kRefused,
                  fmt::format("{} \"{}\" needs a ball's length and weight, such as \"125 m/50 g\"",
                              option, rowproof::text::OneLine(std::string(text))));
  }
  return {quantities::MetresOf(Length(option, text.substr(0, slash))),
          MassG(option, text.substr(slash + 1))};
}

double NumberOf(const std::string& option, std::string_view text) {
  std::string_view rest = Trimmed(text);
  double value = 0;
  if (TakeNumber(&rest, &value) && rest.empty()) return value;
  throw Refused(option, text, "a number");
}

int CountOf(const std::string& option, std::string_view text) {
  const std::string_view digits = Trimmed(text);
  int value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error == std::errc() && end == digits.data() + digits.size() && value >= 0) return value;
  throw Refused(option, text, "a whole number");
}

}  // namespace rowproof::client
