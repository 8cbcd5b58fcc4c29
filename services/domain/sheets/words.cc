#include "services/domain/sheets/words.h"

#include <cmath>

#include "absl/strings/ascii.h"
#include "absl/strings/str_split.h"
#include "fmt/format.h"
#include "services/domain/estimate/hook_labels.h"
#include "services/domain/estimate/weight_class.h"
#include "services/quantities/printing.h"
#include "services/quantities/units.h"

namespace rowproof::sheets {

std::string Grouped(int64_t number) {
  std::string digits = std::to_string(number);
  for (auto place = static_cast<std::ptrdiff_t>(digits.size()) - 3; place > 0; place -= 3) {
    digits.insert(static_cast<size_t>(place), 1, ',');
  }
  return digits;
}

std::string Centimetres(double mm) {
  const double cm = mm / 10;
  return cm >= 20 ? fmt::format("{:.0f}", cm)
                  : fmt::format("{}", quantities::Number(std::round(2 * cm) / 2));
}

std::string Inches(double mm) {
  const auto quarters = static_cast<int64_t>(std::llround(4 * mm / quantities::kMmPerInch));
  constexpr const char* kParts[] = {"", "1/4", "1/2", "3/4"};
  const int64_t whole = quarters / 4;
  const char* part = kParts[quarters % 4];
  if (*part == '\0') return std::to_string(whole);
  return whole == 0 ? part : fmt::format("{} {}", whole, part);
}

std::string Hook(double mm) {
  const std::string label = estimate::HookUsLabel(mm);
  const std::string size = quantities::Number(mm) + " mm";
  return label.empty() ? size : fmt::format("{} (US {})", size, label);
}

std::string YarnKind(const estimate::Yarn& yarn) {
  std::string kind;
  if (yarn.weight_class.has_value()) {
    const estimate::WeightClass* found = estimate::FindWeightClass(*yarn.weight_class);
    kind = found == nullptr ? std::to_string(*yarn.weight_class)
                            : fmt::format("{} {}", found->number, found->name);
  } else if (yarn.wraps_per_inch.has_value()) {
    kind = fmt::format("{} wraps in 1 in (25.4 mm)", quantities::Number(*yarn.wraps_per_inch));
  }
  if (!yarn.fibre.empty()) kind += (kind.empty() ? "" : ", ") + yarn.fibre;
  return kind;
}

std::string Ball(const estimate::Yarn& yarn) {
  if (yarn.tex.has_value()) return quantities::Number(*yarn.tex) + " tex (g in 1,000 m)";
  if (!yarn.ball_length_m.has_value() || !yarn.ball_mass_g.has_value()) return "";
  return fmt::format("{} per {}", quantities::BothLengths(1000 * *yarn.ball_length_m),
                     quantities::BothMasses(*yarn.ball_mass_g));
}

std::string NameOfColour(estimate::YarnColour colour, const estimate::Yarn& yarn) {
  const std::string letter = estimate::Name(colour);
  return yarn.name.empty() ? letter : fmt::format("{}, {}", letter, yarn.name);
}

std::vector<std::string> Lines(const std::string& passage) {
  std::vector<std::string> lines;
  for (const absl::string_view line : absl::StrSplit(passage, '\n')) {
    const absl::string_view text = absl::StripAsciiWhitespace(line);
    if (!text.empty()) lines.emplace_back(text.data(), text.size());
  }
  return lines;
}

}  // namespace rowproof::sheets
