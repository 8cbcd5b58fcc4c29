#include "services/client/parsing/quantities.h"

#include <charconv>
#include <cmath>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {
namespace {

struct Unit {
  const char* name;
  double factor;
};
constexpr Unit kLengths[] = {
    {"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", kMmPerInch}, {"yd", kMmPerYard}};
constexpr Unit kMasses[] = {{"g", 1}, {"kg", 1000}, {"oz", kGramsPerOunce}};

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

template <size_t N>
double Quantity(const std::string& option, std::string_view text, const Unit (&units)[N],
                const char* accepted) {
  std::string_view rest = Trimmed(text);
  double value = 0;
  if (TakeNumber(&rest, &value)) {
    for (const Unit& unit : units) {
      if (Trimmed(rest) == unit.name) return value * unit.factor;
    }
  }
  throw Refused(option, text, accepted);
}

}  // namespace

std::string_view Trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

double LengthMm(const std::string& option, std::string_view text) {
  return Quantity(option, text, kLengths,
                  "a number with its unit, mm, cm, m, in or yd, such as 12.5 cm");
}

double MassG(const std::string& option, std::string_view text) {
  return Quantity(option, text, kMasses, "a number with its unit, g, kg or oz, such as 50 g");
}

BallBand BallOf(const std::string& option, std::string_view text) {
  const size_t slash = text.find('/');
  if (slash == std::string_view::npos) {
    throw Refused(option, text, "length and mass of a ball with their units, such as 125 m / 50 g");
  }
  return {LengthMm(option, text.substr(0, slash)) / 1000, MassG(option, text.substr(slash + 1))};
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
