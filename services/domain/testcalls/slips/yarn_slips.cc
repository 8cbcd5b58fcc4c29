#include "services/domain/testcalls/slips/yarn_slips.h"

#include <algorithm>
#include <cmath>

#include "services/domain/testcalls/slips/slip_ratios.h"
#include "services/quantities/units.h"

namespace rowproof::testcalls {
namespace {

using estimate::YarnColour;

// Yarns whose expected amounts are nearly equal cannot be distinguished.
constexpr double kColoursDiffer = 0.3;
// A hint must be close to its ratio: 1.094 and 0.914 are within what makers differ by.
constexpr double kHintTolerance = 0.03;

// One measured yarn and its expected amount.
struct Measured {
  const YarnUse* use;
  const Expected::Colour* expected;
  std::string field;  // "yarn[0]"
  double length_m;    // given, or from the weights
  std::optional<double> tex;
  bool weighed;
  bool asked = false;  // there is a question already

  std::string value_field() const { return field + (weighed ? ".mass_after_g" : ".length_m"); }
  std::string name() const {
    return use->colour == YarnColour::kBorder ? "the border's yarn"
                                              : fmt::format("yarn {}", estimate::Name(use->colour));
  }
};

const Expected::Colour* Find(const Expected& expected, YarnColour colour) {
  for (const Expected::Colour& entry : expected.colours) {
    if (entry.colour == colour) return &entry;
  }
  return nullptr;
}

// The band in the report goes before the expected one.
std::optional<double> TexOfUse(const YarnUse& use, const Expected::Colour* expected) {
  if (use.yarn.has_value()) return estimate::TexOf(*use.yarn);
  if (expected != nullptr && expected->tex.has_value()) return expected->tex;
  if (expected == nullptr || !expected->ball_length_m.has_value() ||
      !expected->ball_mass_g.has_value()) {
    return std::nullopt;
  }
  return quantities::TexFromBall(*expected->ball_length_m, *expected->ball_mass_g);
}

std::optional<double> BallLengthOf(const Measured& yarn) {
  if (yarn.use->yarn.has_value()) return yarn.use->yarn->ball_length_m;
  return yarn.expected->ball_length_m;
}

Slip NoBand(const YarnUse& use, const std::string& field) {
  Slip slip;
  slip.code = SlipCode::kNoBallBand;
  slip.field = field + (use.yarn.has_value() ? ".yarn.ball_band" : ".yarn");
  slip.sentence =
      "You weighed this yarn. How many metres (or yards) and grams (or ounces) does its ball band "
      "give? Without them the length cannot be worked out.";
  return slip;
}

// Yarns that can be compared; a weighed one without a ball band becomes a question.
std::vector<Measured> Measure(const Report& report, const Expected& expected,
                              std::vector<Slip>& slips) {
  std::vector<Measured> measured;
  for (size_t i = 0; i < report.yarn.size(); ++i) {
    const YarnUse& use = report.yarn[i];
    const std::string field = fmt::format("yarn[{}]", i);
    const Expected::Colour* entry = Find(expected, use.colour);
    const bool weighed = use.mass_before_g.has_value();
    if (!weighed && !use.length_m.has_value()) continue;
    const std::optional<double> tex = TexOfUse(use, entry);
    if (weighed && !tex.has_value()) {
      slips.push_back(NoBand(use, field));
      continue;
    }
    if (entry == nullptr || !(entry->whole_length_m > 0)) continue;
    const double length_m =
        weighed ? quantities::LengthMm(*use.mass_before_g - *use.mass_after_g, *tex) / 1000
                : *use.length_m;
    measured.push_back({&use, entry, field, length_m, tex, weighed});
  }
  return measured;
}

Slip Question(const Measured& yarn, SlipCode code, std::string sentence,
              std::optional<double> suggested) {
  return {code, SlipStrength::kQuestion, yarn.value_field(), std::move(sentence), suggested};
}

std::string AsReported(const Measured& yarn) {
  return fmt::format("You report {} of {}; about {} is expected.", ShownYarn(yarn.length_m),
                     yarn.name(), ShownYarn(yarn.expected->length_m));
}

void AskOutOfProportion(Measured& yarn, std::vector<Slip>& slips) {
  // Of a piece that was just begun the swatch is most of the yarn, and is not expected here.
  if (yarn.use->with_swatch && yarn.expected->length_m < yarn.expected->whole_length_m) return;
  if (!IsOutOfProportion(yarn.length_m, yarn.expected->length_m, kGrossYarn)) return;
  yarn.asked = true;
  slips.push_back(Question(yarn, SlipCode::kOutOfProportion,
                           AsReported(yarn) + " Is a unit or a digit wrong?", std::nullopt));
}

// The quotient of the two colours decides: a maker who works loosely does so in both.
bool LooksSwapped(const Measured& a, const Measured& b) {
  const double expected = std::log(a.expected->length_m / b.expected->length_m);
  const double measured = std::log(a.length_m / b.length_m);
  if (std::abs(expected) < kColoursDiffer || std::abs(measured + expected) > kExplains) {
    return false;
  }
  if (!Near(a.length_m, b.expected->length_m, 2 * kUsual)) return false;
  // If one of them is right, only the other has to be explained.
  return !Near(a.length_m, a.expected->length_m, kExplains) &&
         !Near(b.length_m, b.expected->length_m, kExplains);
}

void AskSwapped(Measured& a, Measured& b, std::vector<Slip>& slips) {
  a.asked = b.asked = true;
  const bool both_lengths = !a.weighed && !b.weighed;
  slips.push_back(
      Question(a, SlipCode::kColoursSwapped,
               fmt::format("You report {} of {} and {} of {}; about {} and {} are expected. "
                           "Are the two colours swapped?",
                           ShownYarn(a.length_m), a.name(), ShownYarn(b.length_m), b.name(),
                           ShownYarn(a.expected->length_m), ShownYarn(b.expected->length_m)),
               both_lengths ? std::optional(b.length_m) : std::nullopt));
}

// Two of the rows' colours; the border's yarn is asked for apart.
void AskColoursSwapped(std::vector<Measured>& yarns, std::vector<Slip>& slips) {
  for (size_t i = 0; i < yarns.size(); ++i) {
    for (size_t j = i + 1; j < yarns.size() && !yarns[i].asked; ++j) {
      const bool of_rows = yarns[i].use->colour != YarnColour::kBorder &&
                           yarns[j].use->colour != YarnColour::kBorder;
      if (!of_rows || yarns[j].asked || !LooksSwapped(yarns[i], yarns[j])) continue;
      AskSwapped(yarns[i], yarns[j], slips);
    }
  }
}

void AskRowBehindYarn(const Report& report, const Expected& expected, std::vector<Measured>& yarns,
                      std::vector<Slip>& slips) {
  if (report.finished || yarns.empty() || report.last_row >= expected.rows) return;
  for (const Measured& yarn : yarns) {
    const bool whole_piece = !yarn.asked &&
                             Near(yarn.length_m, yarn.expected->whole_length_m, kExplains) &&
                             !Near(yarn.length_m, yarn.expected->length_m, kUsual);
    if (!whole_piece) return;
  }
  for (Measured& yarn : yarns) yarn.asked = true;
  slips.push_back(
      {SlipCode::kRowBehindYarn, SlipStrength::kQuestion, "last_row",
       fmt::format("You report row {} as the last one worked, and about as much yarn as "
                   "all {} rows take. How far did you get?",
                   report.last_row, expected.rows),
       static_cast<double>(expected.rows)});
}

// What would have been used if the value given were what is left.
std::optional<double> UsedIfLeft(const Measured& yarn) {
  if (yarn.weighed) return quantities::LengthMm(*yarn.use->mass_after_g, *yarn.tex) / 1000;
  const std::optional<double> ball_m = BallLengthOf(yarn);
  if (!ball_m.has_value()) return std::nullopt;
  return std::ceil(yarn.expected->length_m / *ball_m) * *ball_m - yarn.length_m;
}

void AskYarnLeft(Measured& yarn, double used_m, std::vector<Slip>& slips) {
  yarn.asked = true;
  const double suggested =
      yarn.weighed ? *yarn.use->mass_before_g - *yarn.use->mass_after_g : used_m;
  const std::string question =
      yarn.weighed ? fmt::format(" Is {} g what you used, and {} g what is left?",
                                 Shown(*yarn.use->mass_after_g), Shown(suggested))
                   : fmt::format(" Is that what is left? Then you used {}.", ShownYarn(suggested));
  slips.push_back(Question(yarn, SlipCode::kYarnLeft, AsReported(yarn) + question, suggested));
}

void AskGramsAsMetres(Measured& yarn, double metres, std::vector<Slip>& slips) {
  yarn.asked = true;
  slips.push_back(Question(yarn, SlipCode::kGramsAsMetres,
                           fmt::format("{} Are these grams? {} g of this yarn is {}.",
                                       AsReported(yarn), Shown(yarn.length_m), ShownYarn(metres)),
                           metres));
}

// Of what was left and of grams the one that explains the value better.
void AskAlone(Measured& yarn, std::vector<Slip>& slips) {
  const double expected = yarn.expected->length_m;
  const auto explaining = [&](const std::optional<double>& other) {
    return other.has_value() && ExplainsBetter(*other, yarn.length_m, expected) ? other
                                                                                : std::nullopt;
  };
  const std::optional<double> if_left = explaining(UsedIfLeft(yarn));
  std::optional<double> if_grams;
  if (!yarn.weighed && yarn.tex.has_value()) {
    if_grams = explaining(quantities::LengthMm(yarn.length_m, *yarn.tex) / 1000);
  }
  const auto off = [&](double length_m) { return std::abs(std::log(length_m / expected)); };
  if (if_grams.has_value() && (!if_left.has_value() || off(*if_grams) < off(*if_left))) {
    AskGramsAsMetres(yarn, *if_grams, slips);
  } else if (if_left.has_value()) {
    AskYarnLeft(yarn, *if_left, slips);
  }
}

// One length 9 % off means nothing; there is a hint only if several are off alike.
void HintAtYards(std::vector<Measured>& yarns, std::vector<Slip>& slips) {
  const auto all_near = [&](double factor) {
    int near = 0;
    for (const Measured& yarn : yarns) {
      if (yarn.weighed) continue;
      if (yarn.asked || !Near(yarn.length_m, factor * yarn.expected->length_m, kHintTolerance)) {
        return false;
      }
      ++near;
    }
    return near > 1;
  };
  const bool yards = all_near(1 / quantities::kMetresPerYard);
  if (!yards && !all_near(quantities::kMetresPerYard)) return;
  for (Measured& yarn : yarns) {
    if (yarn.weighed) continue;
    const double suggested = yards ? yarn.length_m * quantities::kMetresPerYard
                                   : yarn.length_m / quantities::kMetresPerYard;
    slips.push_back({yards ? SlipCode::kYardsAsMetres : SlipCode::kMetresAsYards,
                     SlipStrength::kHint, yarn.value_field(),
                     fmt::format("{} Could it be {}? That would be {}.", AsReported(yarn),
                                 yards ? "yards, written as metres" : "metres, written as yards",
                                 ShownYarn(suggested)),
                     suggested});
  }
}

}  // namespace

std::vector<Slip> FindYarnSlips(const Report& report, const Expected& expected) {
  std::vector<Slip> slips;
  std::vector<Measured> yarns = Measure(report, expected, slips);
  AskColoursSwapped(yarns, slips);
  AskRowBehindYarn(report, expected, yarns, slips);
  for (Measured& yarn : yarns) {
    if (!yarn.asked) AskAlone(yarn, slips);
    if (!yarn.asked) AskOutOfProportion(yarn, slips);
  }
  HintAtYards(yarns, slips);
  return slips;
}

}  // namespace rowproof::testcalls
