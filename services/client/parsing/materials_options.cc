#include "services/client/parsing/materials_options.h"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/output.h"
#include "services/client/parsing/chart_options.h"
#include "services/client/parsing/choices.h"
#include "services/client/parsing/nearest.h"
#include "services/client/parsing/quantities.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

const Words& FringeEdges() {
  static const auto& words = *new Words{"row-ends", "foundation-and-top"};
  return words;
}

// The API's enums number these words from 1 in the same order.
template <typename Enum>
Enum EnumOf(const std::string& option, const Words& words, std::string_view word) {
  for (size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) return static_cast<Enum>(i + 1);
  }
  throw MustBe(option, AnyOf(words), word);
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

// "A" to "H" or "border".
v1::YarnRole RoleOf(const std::string& option, std::string_view word) {
  if (word == "border") return v1::YARN_ROLE_BORDER;
  if (word.size() == 1 && word[0] >= 'A' && word[0] <= 'H') {
    return static_cast<v1::YarnRole>(v1::YARN_ROLE_A + (word[0] - 'A'));
  }
  throw MustBe(option, "A to H, or border", word);
}

void SetBall(const BallBand& ball, v1::Yarn* yarn) {
  yarn->mutable_ball_band()->set_length_m(ball.length_m);
  yarn->mutable_ball_band()->set_mass_g(ball.mass_g);
}

std::string RoleWord(v1::YarnRole role) {
  return role == v1::YARN_ROLE_BORDER ? "border" : std::string(1, static_cast<char>('@' + role));
}

// A ball band replaces a linear density that was given earlier, and the other way round; given
// together they contradict each other, which the service refuses. Without an option, errors name
// each word's own option.
void SetYarnWords(const std::string& option, const YarnWords& words, v1::Yarn* yarn) {
  const auto says = [&words](std::string_view beginning) {
    return std::any_of(words.begin(), words.end(),
                       [&](const auto& word) { return word.first.starts_with(beginning); });
  };
  if (says("ball")) yarn->clear_tex();
  if (says("tex")) yarn->clear_ball_band();
  for (const auto& [key, value] : words) {
    const std::string own = key == "class" ? "--weight-class" : "--" + key;
    SetYarnProperty(option.empty() ? own : option + " " + key, key, value, yarn);
  }
}

// Of a yarn, from what says the least of it to what says the most.
struct SaidOfYarn {
  YarnWords by_design;
  YarnWords by_option;
};

std::map<v1::YarnRole, SaidOfYarn> YarnsSaid(const MaterialsOptions& options) {
  std::map<v1::YarnRole, SaidOfYarn> said;
  for (const auto& [colour, words] : options.design_yarns) {
    said[RoleOf("yarn", colour)].by_design = words;
  }
  std::set<v1::YarnRole> typed;
  for (const std::string& text : options.yarns) {
    auto [colour, words] = YarnWordsOf(text);
    const v1::YarnRole role = RoleOf("--yarn", colour);
    if (!typed.insert(role).second) throw MustBe("--yarn", "one entry for each colour", colour);
    said[role].by_option = std::move(words);
  }
  return said;
}

// Options change what a file says of a role. A colour before a named one has a yarn too.
void SetYarns(const MaterialsOptions& options, v1::Materials* materials) {
  const YarnWords each = WordsOfEachYarn(options);
  std::map<v1::YarnRole, SaidOfYarn> said = YarnsSaid(options);
  std::map<v1::YarnRole, v1::Yarn> yarns;
  for (const v1::ColourYarn& yarn : materials->yarns()) yarns[yarn.role()] = yarn.yarn();
  int last = each.empty() ? 0 : v1::YARN_ROLE_B;
  for (const auto& [role, words] : said) {
    if (role != v1::YARN_ROLE_BORDER) last = std::max<int>(last, role);
  }
  for (int role = v1::YARN_ROLE_A; role <= last; ++role) {
    if (role <= v1::YARN_ROLE_B || !yarns.contains(static_cast<v1::YarnRole>(role))) {
      said.emplace(static_cast<v1::YarnRole>(role), SaidOfYarn());
    }
  }
  for (const auto& [role, words] : said) {
    v1::Yarn& yarn = yarns[role];
    if (!words.by_design.empty() || !words.by_option.empty() || !each.empty()) yarn.Clear();
    SetYarnWords(fmt::format("yarn {}", RoleWord(role)), words.by_design, &yarn);
    SetYarnWords("", each, &yarn);
    SetYarnWords("--yarn", words.by_option, &yarn);
  }
  materials->clear_yarns();
  for (const auto& [role, yarn] : yarns) {
    v1::ColourYarn* added = materials->add_yarns();
    added->set_role(role);
    *added->mutable_yarn() = yarn;
  }
}

template <typename Message>
void SetGauge(const MaterialsOptions& options, Message* to) {
  if (!options.gauges.empty() || options.stitches_per_10cm.has_value() ||
      options.rows_per_10cm.has_value()) {
    to->clear_gauge();
    to->clear_gauge_readings();
    for (const std::string& text : options.gauges) {
      *to->add_gauge_readings() = GaugeReadingOf("--gauge", text);
    }
  }
  if (options.stitches_per_10cm.has_value() != options.rows_per_10cm.has_value()) {
    throw Failure(ExitCode::kUsage,
                  "--stitches-per-10cm and --rows-per-10cm go together; or give --gauge, such as "
                  "14x16/10cm");
  }
  if (options.stitches_per_10cm.has_value()) {
    // 10 cm are a decimetre.
    to->mutable_gauge()->set_stitches_per_decimetre(*options.stitches_per_10cm);
    to->mutable_gauge()->set_rows_per_decimetre(*options.rows_per_10cm);
  }
  if (options.other_fabric.has_value()) {
    to->set_gauge_is_of_another_fabric(*options.other_fabric);
  }
}

void SetEdges(const MaterialsOptions& options, v1::Materials* materials) {
  if (!options.foundation.empty()) {
    materials->set_foundation(
        EnumOf<v1::FoundationKind>("--foundation", Foundations(), options.foundation));
  }
  if (!options.foundation_colour.empty()) {
    materials->set_foundation_colour(
        EnumOf<v1::Colour>("--foundation-colour", ColourLetters(), options.foundation_colour));
  }
  if (!options.fringe_of_tails.empty()) {
    materials->set_tail_use(v1::TAIL_USE_FRINGE);
    materials->set_fringe_length_mm(LengthMm("--fringe-of-tails", options.fringe_of_tails));
  }
  if (!options.border.empty()) SetBorder("--border", options.border, materials);
  if (!options.fringes.empty()) materials->clear_added_fringe();
  for (const std::string& text : options.fringes) AddFringe("--fringe", text, materials);
  if (!options.swatch.empty()) SetSwatch("--swatch", options.swatch, materials);
}

void SetCalibration(const MaterialsOptions& options, v1::Materials* materials) {
  if (options.calibration.empty()) return;
  materials->clear_yarn_calibration();
  materials->clear_calibration();
  if (options.calibration.starts_with("calibrations/")) {
    materials->set_calibration(options.calibration);
  } else {
    ReadJson("--calibration", ReadFile(options.calibration), materials->mutable_yarn_calibration());
  }
}

// What materials and another maker both say in the same words.
template <typename Message>
void SetShared(const MaterialsOptions& options, Message* to) {
  if (options.hook_mm.has_value()) to->set_hook_mm(*options.hook_mm);
  if (options.tail_mm.has_value()) to->set_tail_length_mm(*options.tail_mm);
  if (options.stitches_per_minute.has_value()) {
    to->set_stitches_per_minute(*options.stitches_per_minute);
  }
  if (options.minutes_per_row_start.has_value()) {
    to->set_minutes_per_row_start(*options.minutes_per_row_start);
  }
  if (options.assurance.has_value()) to->set_assurance(*options.assurance);
}

void AddGaugeOptions(CLI::App& command, MaterialsOptions& o, const char* group) {
  AddTexts(command, "--gauge", o.gauges,
           "Stitches and worked rows counted in this fabric over a span, such as 14x16/4in or "
           "16x18/10cm; may be repeated, the counts are pooled")
      ->group(group);
  command
      .add_option("--stitches-per-10cm", o.stitches_per_10cm,
                  "Gauge of this fabric: stitches in 10 cm (3.94 in)")
      ->group(group);
  command
      .add_option("--rows-per-10cm", o.rows_per_10cm, "Gauge of this fabric: worked rows in 10 cm")
      ->group(group);
  AddSwitch(command, "--gauge-of-other-fabric", o.other_fabric,
            "The gauge was counted in another technique, facing or treatment of the ends")
      ->group(group);
}

// What another maker may do otherwise too.
void AddMakersOwnOptions(CLI::App& command, MaterialsOptions& o, const char* group) {
  AddTexts(command, "--yarn", o.yarns,
           "One colour's yarn, such as \"B: class=4; wpi=10; ball=210 yd/100 g; fibre=80 % cotton, "
           "20 % acrylic; name=Oat\" (or tex=400); may be repeated")
      ->group(group);
  command.add_option("--hook-mm", o.hook_mm, "Hook in mm")->group(group);
  command.add_option("--tail-mm", o.tail_mm, "Length of every cut tail in mm (default: 150)")
      ->group(group);
  command.add_option("--stitches-per-minute", o.stitches_per_minute, "Your pace (default: 15)")
      ->group(group);
  command
      .add_option("--minutes-per-row-start", o.minutes_per_row_start,
                  "Minutes to start a row (default: 1)")
      ->group(group);
  command
      .add_option("--assurance", o.assurance,
                  "Probability that the amount to buy is enough, 0.5 to 0.99 (default: 0.95)")
      ->group(group);
}

void AddSizeName(CLI::App& command, MaterialsOptions& o, const char* group) {
  command
      .add_option("--size-name", o.size_name,
                  "One size alone (default: all; of an estimate the first)")
      ->group(group);
}

void AddEachYarnOptions(CLI::App& command, MaterialsOptions& o, const char* group) {
  const auto grouped = [group](CLI::Option* option) { option->group(group); };
  grouped(command.add_option("--wpi", o.wpi,
                             "Wraps per inch of each yarn; give this or the weight class"));
  grouped(command.add_option("--weight-class", o.weight_class,
                             "Standard yarn weight of each yarn, 0 to 7"));
  grouped(command.add_option("--ball", o.ball,
                             "Ball band of each yarn, in any unit: 125 m/50 g, 210 yd/3.5 oz"));
  grouped(command.add_option("--ball-m", o.ball_m, "Metres in a ball of each yarn"));
  grouped(command.add_option("--ball-g", o.ball_g, "Grams in a ball of each yarn"));
  grouped(
      command.add_option("--tex", o.tex, "Grams per km of each yarn, if there is no ball band"));
  grouped(command.add_option("--fibre", o.fibre, "Fibre of each yarn"));
}

void AddEdgeOptions(CLI::App& command, MaterialsOptions& o, const char* group) {
  const auto grouped = [group](CLI::Option* option) { option->group(group); };
  grouped(command.add_option("--fringe-of-tails", o.fringe_of_tails,
                             "Leave the tails of cut rows as fringe of this length, such as 10cm"));
  grouped(command.add_option("--slack", o.slack,
                             "Slack of a carried strand (default: 0.05 of the row's width)"));
  grouped(command.add_option("--border", o.border,
                             "Rounds of sc: 3, 3:B or 3:B:double (two layers around the ends)"));
  grouped(AddTexts(command, "--fringe", o.fringes,
                   "Added fringe: COLOUR:STRANDSxLENGTH, such as A:40x8cm, or A:40x8cm:row-ends; "
                   "once for each yarn"));
  grouped(command.add_option("--swatch", o.swatch, "A swatch to include: STITCHESxROWS"));
  grouped(AddWord(command, "--item", o.item, Items(), "What it becomes, for the cautions"));
  grouped(AddSwitch(command, "--for-small-child", o.for_small_child, "It is for a small child"));
}

}  // namespace

void AddMaterialsOptions(CLI::App& command, MaterialsOptions& o, const MaterialsUse& use) {
  const auto group_if = [](bool used) { return used ? kMaterialsGroup : kHiddenGroup; };
  const char* yarn = group_if(use.yarn);
  AddGaugeOptions(command, o, group_if(use.gauge));
  AddTexts(command, "--blocked-gauge", o.blocked_gauges,
           "As --gauge, counted after blocking; may be repeated")
      ->group(yarn);
  AddEachYarnOptions(command, o, yarn);
  AddMakersOwnOptions(command, o, yarn);
  command.add_option("--foundation", o.foundation, "What row 1 is worked into (default: a chain)")
      ->check(OneOf("--foundation", Foundations()))
      ->group(group_if(use.foundation));
  command
      .add_option("--foundation-colour", o.foundation_colour,
                  "Colour of the foundation, A to H (default: row 1's)")
      ->group(group_if(use.foundation));
  AddEdgeOptions(command, o, yarn);
  command
      .add_option("--calibration", o.calibration,
                  "What your own stitches take: a calibration that you keep (calibrations/...), or "
                  "the file that \"calibrate --json\" writes")
      ->group(yarn);
  command
      .add_option(
          "--materials", o.materials_file,
          "JSON file of gauge, yarns and the rest (the API's Materials); options override it")
      ->group(yarn);
  AddSizeName(command, o, group_if(use.size_name));
}

void AddAnotherMakerOptions(CLI::App& command, MaterialsOptions& o) {
  AddGaugeOptions(command, o, kMaterialsGroup);
  AddMakersOwnOptions(command, o, kMaterialsGroup);
  AddSizeName(command, o, kMaterialsGroup);
}

void SetBorder(const std::string& option, const std::string& text, v1::Materials* materials) {
  const auto parts = Split(text, ':');
  materials->mutable_border()->set_round_count(CountOf(option, parts[0]));
  if (parts.size() > 1) materials->mutable_border()->set_role(RoleOf(option, parts[1]));
  if (parts.size() > 3 || (parts.size() == 3 && parts[2] != "double")) {
    throw MustBe(option, "ROUNDS, ROUNDS:COLOUR or ROUNDS:COLOUR:double", text);
  }
  materials->mutable_border()->set_enclosing_double(parts.size() == 3);
}

void AddFringe(const std::string& option, const std::string& text, v1::Materials* materials) {
  const auto parts = Split(text, ':');
  const size_t by = parts.size() < 2 ? std::string_view::npos : parts[1].find('x');
  if (parts.size() > 3 || by == std::string_view::npos) {
    throw MustBe(option, "COLOUR:STRANDSxLENGTH, such as A:40x8cm", text);
  }
  auto* fringe = materials->add_added_fringe();
  fringe->set_role(RoleOf(option, parts[0]));
  fringe->set_strand_count(CountOf(option, parts[1].substr(0, by)));
  fringe->set_length_mm(LengthMm(option, parts[1].substr(by + 1)));
  if (parts.size() == 3) {
    fringe->set_edge(EnumOf<v1::FringeEdge>(option, FringeEdges(), parts[2]));
  }
}

void SetSwatch(const std::string& option, const std::string& text, v1::Materials* materials) {
  const auto parts = Split(text, 'x');
  if (parts.size() != 2) throw MustBe(option, "STITCHESxROWS, such as 20x20", text);
  materials->mutable_swatch()->set_stitch_count(CountOf(option, parts[0]));
  materials->mutable_swatch()->set_row_count(CountOf(option, parts[1]));
}

YarnWords WordsOfEachYarn(const MaterialsOptions& options) {
  YarnWords words;
  const auto add = [&words](const char* key, const auto& value) {
    if (value.has_value()) words.emplace_back(key, fmt::format("{}", *value));
  };
  add("wpi", options.wpi);
  add("class", options.weight_class);
  add("ball-m", options.ball_m);
  add("ball-g", options.ball_g);
  if (!options.ball.empty()) words.emplace_back("ball", options.ball);
  add("tex", options.tex);
  if (!options.fibre.empty()) words.emplace_back("fibre", options.fibre);
  return words;
}

std::pair<std::string, YarnWords> YarnWordsOf(const std::string& text) {
  constexpr char kOption[] = "--yarn";
  const size_t colon = text.find(':');
  const std::string colour(Trimmed(std::string_view(text).substr(0, colon)));
  const bool is_letter = colour.size() == 1 && colour[0] >= 'A' && colour[0] <= 'H';
  if (colon == std::string::npos || !(is_letter || colour == "border")) {
    throw MustBe(kOption, "COLOUR: KEY=VALUE; ..., such as \"B: class=4; ball=125 m/50 g\"", text);
  }
  YarnWords words;
  for (const std::string_view part : Split(std::string_view(text).substr(colon + 1), ';')) {
    if (part.empty()) continue;
    const size_t equals = part.find('=');
    if (equals == std::string_view::npos) throw MustBe(kOption, "KEY=VALUE", part);
    words.emplace_back(Trimmed(part.substr(0, equals)), Trimmed(part.substr(equals + 1)));
  }
  return {colour, words};
}

void SetYarnProperty(const std::string& called, const std::string& key, const std::string& value,
                     v1::Yarn* yarn) {
  if (key == "name") {
    yarn->set_name(value);
  } else if (key == "fibre") {
    yarn->set_fibre(value);
  } else if (key == "class") {
    yarn->set_weight_class(CountOf(called, value));
  } else if (key == "wpi") {
    yarn->set_wraps_per_inch(NumberOf(called, value));
  } else if (key == "tex") {
    yarn->set_tex(NumberOf(called, value));
  } else if (key == "ball") {
    SetBall(BallOf(called, value), yarn);
  } else if (key == "ball-m") {
    yarn->mutable_ball_band()->set_length_m(NumberOf(called, value));
  } else if (key == "ball-g") {
    yarn->mutable_ball_band()->set_mass_g(NumberOf(called, value));
  } else {
    throw MustBe(called, "name, fibre, class, wpi, ball or tex", key);
  }
}

v1::GaugeReading GaugeReadingOf(const std::string& option, const std::string& text) {
  const size_t slash = text.find('/');
  const auto counts = Split(std::string_view(text).substr(0, slash), 'x');
  if (slash == std::string::npos && counts.size() == 2) {
    throw Failure(
        ExitCode::kUsage,
        fmt::format("{} \"{}\" needs the span that was counted over, such as {}x{}/10cm", option,
                    rowproof::text::OneLine(text), Trimmed(counts[0]), Trimmed(counts[1])));
  }
  if (slash == std::string::npos || counts.size() != 2) {
    throw MustBe(option, "STITCHESxROWS/SPAN, such as 14x16/4in or 16x18/10cm", text);
  }
  v1::GaugeReading reading;
  reading.set_stitches(NumberOf(option, WithoutWord(counts[0], {"stitches", "sts", "st"})));
  reading.set_rows(NumberOf(option, WithoutWord(counts[1], {"rows", "row"})));
  const double span_mm = LengthMm(option, std::string_view(text).substr(slash + 1));
  reading.set_stitch_span_mm(span_mm);
  reading.set_row_span_mm(span_mm);
  return reading;
}

v1::Materials MaterialsOf(const MaterialsOptions& options) {
  v1::Materials materials;
  if (!options.materials_file.empty()) {
    ReadJson("--materials", ReadFile(options.materials_file), &materials);
  }
  SetCalibration(options, &materials);
  SetYarns(options, &materials);
  SetGauge(options, &materials);
  if (!options.blocked_gauges.empty()) {
    materials.clear_gauge_after_blocking();
    materials.clear_gauge_readings_after_blocking();
    for (const std::string& text : options.blocked_gauges) {
      *materials.add_gauge_readings_after_blocking() = GaugeReadingOf("--blocked-gauge", text);
    }
  }
  SetShared(options, &materials);
  if (options.slack.has_value()) materials.set_slack(*options.slack);
  SetEdges(options, &materials);
  if (!options.item.empty()) {
    materials.set_item(EnumOf<v1::ItemKind>("--item", Items(), options.item));
  }
  if (options.for_small_child.has_value()) materials.set_for_small_child(*options.for_small_child);
  return materials;
}

v1::AnotherMaker AnotherMakerOf(const MaterialsOptions& options) {
  v1::AnotherMaker maker;
  SetGauge(options, &maker);
  for (const std::string& text : options.yarns) {
    const auto [colour, words] = YarnWordsOf(text);
    auto* added = maker.add_yarns();
    added->set_role(RoleOf("--yarn", colour));
    SetYarnWords("--yarn", words, added->mutable_yarn());
  }
  SetShared(options, &maker);
  return maker;
}

v1::Colour FoundationColourOf(const v1::Materials& materials,
                              const google::protobuf::RepeatedField<int>& row_colours) {
  if (materials.foundation() != v1::FOUNDATION_KIND_WORKED) return v1::COLOUR_UNSPECIFIED;
  if (materials.foundation_colour() != v1::COLOUR_UNSPECIFIED) return materials.foundation_colour();
  return row_colours.empty() ? v1::COLOUR_A : static_cast<v1::Colour>(row_colours[0]);
}

}  // namespace rowproof::client
