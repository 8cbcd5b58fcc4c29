#include "services/client/parsing/making_options.h"

#include <algorithm>
#include <map>
#include <string_view>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/output.h"
#include "services/client/parsing/choices.h"
#include "services/client/parsing/quantities.h"

namespace rowproof::client {
namespace {

const Words& Items() {
  static const auto& words =
      *new Words{"other", "blanket", "wrap", "cushion", "hot-pad", "baby-item"};
  return words;
}
const Words& Foundations() {
  static const auto& words = *new Words{"chain", "worked"};
  return words;
}
const Words& FringeEdges() {
  static const auto& words = *new Words{"row-ends", "foundation-and-top"};
  return words;
}

Failure WrongForm(const std::string& option, std::string_view met, const std::string& accepted) {
  return {ExitCode::kUsage, fmt::format("{}: \"{}\" was met; accepted is {}", option,
                                        OneLine(std::string(met)), accepted)};
}

// The API's enums number these words from 1 in the same order.
template <typename Enum>
Enum EnumOf(const std::string& option, const Words& words, std::string_view word) {
  for (size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) return static_cast<Enum>(i + 1);
  }
  std::string accepted = words.front();
  for (size_t i = 1; i < words.size(); ++i) accepted += ", " + words[i];
  throw WrongForm(option, word, accepted);
}

std::vector<std::string_view> Split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  for (size_t at = 0; at <= text.size();) {
    const size_t end = std::min(text.find(separator, at), text.size());
    parts.push_back(Trimmed(text.substr(at, end - at)));
    at = end + 1;
  }
  return parts;
}

// Cuts a word such as "sts" off the end of a number.
std::string_view WithoutWord(std::string_view text, std::initializer_list<const char*> words) {
  for (const char* word : words) {
    if (text.ends_with(word))
      return Trimmed(text.substr(0, text.size() - std::string(word).size()));
  }
  return text;
}

v1::Yarn YarnOfEach(const MakingOptions& options) {
  v1::Yarn yarn;
  if (options.wpi.has_value()) yarn.set_wraps_per_inch(*options.wpi);
  if (options.weight_class.has_value()) yarn.set_weight_class(*options.weight_class);
  if (options.ball_m.has_value()) yarn.set_ball_length_m(*options.ball_m);
  if (options.ball_g.has_value()) yarn.set_ball_mass_g(*options.ball_g);
  if (!options.ball.empty()) {
    const BallBand ball = BallOf("--ball", options.ball);
    yarn.set_ball_length_m(ball.length_m);
    yarn.set_ball_mass_g(ball.mass_g);
  }
  if (options.tex.has_value()) yarn.set_tex(*options.tex);
  if (!options.fibre.empty()) yarn.set_fibre(options.fibre);
  return yarn;
}

void SetYarnProperty(const std::string& option, std::string_view key, std::string_view value,
                     v1::Yarn* yarn) {
  if (key == "name") {
    yarn->set_name(std::string(value));
  } else if (key == "fibre") {
    yarn->set_fibre(std::string(value));
  } else if (key == "class") {
    yarn->set_weight_class(CountOf(option + " class", value));
  } else if (key == "wpi") {
    yarn->set_wraps_per_inch(NumberOf(option + " wpi", value));
  } else if (key == "tex") {
    yarn->set_tex(NumberOf(option + " tex", value));
  } else if (key == "ball") {
    const BallBand ball = BallOf(option + " ball", value);
    yarn->set_ball_length_m(ball.length_m);
    yarn->set_ball_mass_g(ball.mass_g);
  } else {
    throw WrongForm(option, key, "name, fibre, class, wpi, ball or tex");
  }
}

// "B: class=4; ball=218 yd/100 g": the letter, and the yarn on the ground of what holds for each.
std::pair<std::string, v1::Yarn> ColourYarnOf(const std::string& text, const v1::Yarn& each) {
  constexpr char kOption[] = "--yarn";
  const size_t colon = text.find(':');
  const std::string colour(Trimmed(std::string_view(text).substr(0, colon)));
  const bool is_letter = colour.size() == 1 && colour[0] >= 'A' && colour[0] <= 'H';
  if (colon == std::string::npos || !(is_letter || colour == "border")) {
    throw WrongForm(kOption, text,
                    "COLOUR: KEY=VALUE; ..., such as \"B: class=4; ball=125 m/50 g\"");
  }
  v1::Yarn yarn = each;
  for (const std::string_view part : Split(std::string_view(text).substr(colon + 1), ';')) {
    if (part.empty()) continue;
    const size_t equals = part.find('=');
    if (equals == std::string_view::npos) throw WrongForm(kOption, part, "KEY=VALUE");
    const std::string_view key = Trimmed(part.substr(0, equals));
    // A declared density and a band contradict each other: the later word counts.
    if (key == "ball") yarn.clear_tex();
    if (key == "tex") {
      yarn.clear_ball_length_m();
      yarn.clear_ball_mass_g();
    }
    SetYarnProperty(kOption, key, Trimmed(part.substr(equals + 1)), &yarn);
  }
  return {colour, yarn};
}

bool IsEmpty(const v1::Yarn& yarn) { return yarn.ByteSizeLong() == 0; }

void SetYarns(const MakingOptions& options, v1::Making* making) {
  const v1::Yarn each = YarnOfEach(options);
  std::map<std::string, v1::Yarn> yarns;
  for (const std::string& text : options.yarns) {
    auto [colour, yarn] = ColourYarnOf(text, each);
    if (!yarns.emplace(colour, yarn).second) {
      throw WrongForm("--yarn", colour, "one entry for each colour");
    }
  }
  const auto set = [&](const std::string& colour, v1::Yarn* yarn) {
    const auto found = yarns.find(colour);
    if (found != yarns.end()) {
      *yarn = found->second;
    } else if (!IsEmpty(each)) {
      *yarn = each;
    }
  };
  set("A", making->mutable_yarn_a());
  set("B", making->mutable_yarn_b());
  if (yarns.contains("border")) *making->mutable_border_yarn() = yarns.at("border");
  for (char letter = 'C'; letter <= 'H'; ++letter) {
    const std::string colour(1, letter);
    const int index = letter - 'C';
    if (!yarns.contains(colour)) continue;
    while (making->more_yarns_size() <= index) *making->add_more_yarns() = each;
    set(colour, making->mutable_more_yarns(index));
  }
}

template <typename Message>
void SetGauge(const MakingOptions& options, Message* to) {
  if (!options.gauges.empty()) {
    to->clear_gauge();
    to->clear_gauge_readings();
    for (const std::string& text : options.gauges) {
      *to->add_gauge_readings() = GaugeReadingOf("--gauge", text);
    }
  }
  if (options.stitches_per_10cm.has_value() || options.rows_per_10cm.has_value()) {
    // 10 cm are 100 mm.
    to->mutable_gauge()->set_stitches_per_100mm(options.stitches_per_10cm.value_or(0));
    to->mutable_gauge()->set_rows_per_100mm(options.rows_per_10cm.value_or(0));
  }
  if (options.other_fabric) to->set_gauge_is_of_another_fabric(true);
}

void SetEdges(const MakingOptions& options, v1::Making* making) {
  if (!options.foundation.empty()) {
    making->set_foundation(
        EnumOf<v1::FoundationKind>("--foundation", Foundations(), options.foundation));
  }
  if (!options.foundation_colour.empty()) {
    const Words letters = {"A", "B", "C", "D", "E", "F", "G", "H"};
    making->set_foundation_colour(
        EnumOf<v1::Colour>("--foundation-colour", letters, options.foundation_colour));
  }
  if (!options.fringe_of_tails.empty()) {
    making->set_tail_use(v1::TAIL_USE_FRINGE);
    making->set_fringe_length_mm(LengthMm("--fringe-of-tails", options.fringe_of_tails));
  }
  if (!options.border.empty()) {
    const auto parts = Split(options.border, ':');
    making->mutable_border()->set_rounds(CountOf("--border", parts[0]));
    if (parts.size() > 1) making->mutable_border()->set_colour(std::string(parts[1]));
    if (parts.size() > 3 || (parts.size() == 3 && parts[2] != "double")) {
      throw WrongForm("--border", options.border, "ROUNDS, ROUNDS:COLOUR or ROUNDS:COLOUR:double");
    }
    making->mutable_border()->set_enclosing_double(parts.size() == 3);
  }
  for (const std::string& text : options.fringes) {
    const auto parts = Split(text, ':');
    const size_t by = parts.size() < 2 ? std::string_view::npos : parts[1].find('x');
    if (parts.size() > 3 || by == std::string_view::npos) {
      throw WrongForm("--fringe", text, "COLOUR:STRANDSxLENGTH, such as A:40x8cm");
    }
    auto* fringe = making->add_added_fringe();
    fringe->set_colour(std::string(parts[0]));
    fringe->set_strands(CountOf("--fringe", parts[1].substr(0, by)));
    fringe->set_length_mm(LengthMm("--fringe", parts[1].substr(by + 1)));
    if (parts.size() == 3) {
      fringe->set_edge(EnumOf<v1::FringeEdge>("--fringe", FringeEdges(), parts[2]));
    }
  }
  if (!options.swatch.empty()) {
    const auto parts = Split(options.swatch, 'x');
    if (parts.size() != 2) throw WrongForm("--swatch", options.swatch, "STITCHESxROWS");
    making->mutable_swatch()->set_stitches(CountOf("--swatch", parts[0]));
    making->mutable_swatch()->set_rows(CountOf("--swatch", parts[1]));
  }
}

void SetCalibration(const MakingOptions& options, v1::Making* making) {
  if (options.calibration.empty()) return;
  making->clear_yarn_calibration();
  making->clear_calibration();
  if (options.calibration.starts_with("calibrations/")) {
    making->set_calibration(options.calibration);
  } else {
    ReadJson("--calibration", ReadFile(options.calibration), making->mutable_yarn_calibration());
  }
}

// What a making and another maker both say in the same words.
template <typename Message>
void SetShared(const MakingOptions& options, Message* to) {
  if (options.hook_mm.has_value()) to->set_hook_mm(*options.hook_mm);
  if (options.tail_mm.has_value()) to->set_tail_mm(*options.tail_mm);
  if (options.stitches_per_minute.has_value()) {
    to->set_stitches_per_minute(*options.stitches_per_minute);
  }
  if (options.minutes_per_row_start.has_value()) {
    to->set_minutes_per_row_start(*options.minutes_per_row_start);
  }
  if (options.assurance.has_value()) to->set_assurance(*options.assurance);
}

void AddGaugeAndYarnOptions(CLI::App& command, MakingOptions& o) {
  command
      .add_option("--gauge", o.gauges,
                  "Stitches and worked rows counted in this fabric over a span, such as 14x16/4in "
                  "or 16x18/10cm; may be repeated, the counts are pooled")
      ->expected(1)
      ->take_all();
  command.add_option("--stitches-per-10cm", o.stitches_per_10cm,
                     "Gauge of this fabric: stitches in 10 cm (3.94 in)");
  command.add_option("--rows-per-10cm", o.rows_per_10cm,
                     "Gauge of this fabric: worked rows in 10 cm");
  command.add_flag("--gauge-of-other-fabric", o.other_fabric,
                   "The gauge was counted in another technique, facing or way with the ends");
  command
      .add_option("--yarn", o.yarns,
                  "One colour's yarn, such as \"B: class=4; wpi=10; ball=218 yd/100 g; "
                  "fibre=80 % cotton, 20 % acrylic; name=Oat\" (or tex=400); may be repeated")
      ->expected(1)
      ->take_all();
  command.add_option("--hook-mm", o.hook_mm, "Hook in mm, for display and for notes");
  command.add_option("--tail-mm", o.tail_mm, "Length of every cut tail in mm; else 150");
  command.add_option("--stitches-per-minute", o.stitches_per_minute, "Your pace; else 15");
  command.add_option("--minutes-per-row-start", o.minutes_per_row_start, "To start a row; else 1");
  command.add_option("--assurance", o.assurance,
                     "Probability that the amount to print suffices, 0.5 to 0.99; else 0.95");
  command.add_option("--size-name", o.size_name, "Size to estimate; else the first");
}

}  // namespace

void AddMakingOptions(CLI::App& command, MakingOptions& o) {
  command.add_option("--making", o.making_file,
                     "JSON file of yarn, gauge, hook and the rest (the API's Making); the options "
                     "change what it says");
  command.add_option("--calibration", o.calibration,
                     "What your own stitches take, in place of what is assumed: a calibration that "
                     "you keep (calibrations/..., or one revision of it), or the JSON file that "
                     "calibrate --json writes");
  AddGaugeAndYarnOptions(command, o);
  command
      .add_option("--blocked-gauge", o.blocked_gauges,
                  "As --gauge, counted after blocking, for the blocked size; may be repeated")
      ->expected(1)
      ->take_all();
  command.add_option("--wpi", o.wpi,
                     "Wraps per inch of each yarn; this or a weight class is needed");
  command.add_option("--weight-class", o.weight_class, "Standard yarn weight of each yarn, 0 to 7");
  command.add_option("--ball", o.ball,
                     "Ball band of each yarn, in any unit: 125 m/50 g, 218 yd/3.5 oz");
  command.add_option("--ball-m", o.ball_m, "Metres in a ball of each yarn, for grams and balls");
  command.add_option("--ball-g", o.ball_g, "Grams in a ball of each yarn, for grams and balls");
  command.add_option("--tex", o.tex, "Grams a km of each yarn, where no ball band is known");
  command.add_option("--fibre", o.fibre, "Fibre of each yarn, for the cautions");
  command.add_option("--foundation", o.foundation,
                     "What row 1 stands on: chain or worked; else chain");
  command.add_option("--foundation-colour", o.foundation_colour, "Its colour; else row 1's");
  command.add_option("--fringe-of-tails", o.fringe_of_tails,
                     "Leave the tails of cut rows as fringe of this length, such as 10cm");
  command.add_option("--slack", o.slack, "Slack of a carried strand; else 0.05 of the row's width");
  command.add_option("--border", o.border,
                     "Rounds of sc: 3, 3:B or 3:B:double (two layers that enclose the ends)");
  command
      .add_option(
          "--fringe", o.fringes,
          "Added fringe: COLOUR:STRANDSxLENGTH, such as A:40x8cm, or ...:row-ends; once for "
          "each yarn")
      ->expected(1)
      ->take_all();
  command.add_option("--swatch", o.swatch, "A swatch to be counted in: STITCHESxROWS");
  command.add_option("--item", o.item,
                     "What it becomes, for the cautions: other, blanket, wrap, "
                     "cushion, hot-pad, baby-item");
  command.add_flag("--for-small-child", o.for_small_child, "Meant for a small child");
}

void AddAnotherMakerOptions(CLI::App& command, MakingOptions& o) {
  AddGaugeAndYarnOptions(command, o);
}

v1::GaugeReading GaugeReadingOf(const std::string& option, const std::string& text) {
  const size_t slash = text.find('/');
  const auto counts = Split(std::string_view(text).substr(0, slash), 'x');
  if (slash == std::string::npos || counts.size() != 2) {
    throw WrongForm(option, text, "STITCHESxROWS/SPAN, such as 14x16/4in or 16x18/10cm");
  }
  v1::GaugeReading reading;
  reading.set_stitches(NumberOf(option, WithoutWord(counts[0], {"stitches", "sts", "st"})));
  reading.set_rows(NumberOf(option, WithoutWord(counts[1], {"rows", "row"})));
  const double span_mm = LengthMm(option, std::string_view(text).substr(slash + 1));
  reading.set_stitch_span_mm(span_mm);
  reading.set_row_span_mm(span_mm);
  return reading;
}

v1::Making MakingOf(const MakingOptions& options) {
  v1::Making making;
  if (!options.making_file.empty()) {
    ReadJson("--making", ReadFile(options.making_file), &making);
  }
  SetCalibration(options, &making);
  SetYarns(options, &making);
  SetGauge(options, &making);
  if (!options.blocked_gauges.empty()) {
    making.clear_gauge_after_blocking();
    making.clear_gauge_readings_after_blocking();
    for (const std::string& text : options.blocked_gauges) {
      *making.add_gauge_readings_after_blocking() = GaugeReadingOf("--blocked-gauge", text);
    }
  }
  SetShared(options, &making);
  if (options.slack.has_value()) making.set_slack(*options.slack);
  SetEdges(options, &making);
  if (!options.item.empty()) {
    making.set_item(EnumOf<v1::ItemKind>("--item", Items(), options.item));
  }
  if (options.for_small_child) making.set_for_small_child(true);
  return making;
}

v1::AnotherMaker AnotherMakerOf(const MakingOptions& options) {
  v1::AnotherMaker maker;
  SetGauge(options, &maker);
  for (const std::string& text : options.yarns) {
    auto [colour, yarn] = ColourYarnOf(text, v1::Yarn());
    auto* added = maker.add_yarns();
    added->set_colour(colour);
    *added->mutable_yarn() = yarn;
  }
  SetShared(options, &maker);
  return maker;
}

}  // namespace rowproof::client
