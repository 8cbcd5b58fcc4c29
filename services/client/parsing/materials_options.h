// The options for what an estimate needs besides the chart, and the messages made from them.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_MATERIALS_OPTIONS_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_MATERIALS_OPTIONS_H_

#include <CLI/CLI.hpp>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "rowproof/v1/materials.pb.h"

namespace rowproof::client {

// The words for one yarn: name, fibre, class, wpi, ball, ball-m, ball-g or tex, each with its text.
using YarnWords = std::vector<std::pair<std::string, std::string>>;

// Texts are as typed, empty if not given; the service checks numbers. Options for every yarn
// override the design file, and --yarn overrides both for its colour.
struct MaterialsOptions {
  std::string materials_file;  // JSON of the API's Materials; the options change what it says
  // Name of a kept calibration, or a file: JSON of the API's YarnCalibration, as `calibrate` writes
  // it.
  std::string calibration;
  std::vector<std::string> gauges;
  std::vector<std::string> blocked_gauges;
  std::optional<bool> other_fabric;
  std::optional<double> stitches_per_10cm;
  std::optional<double> rows_per_10cm;
  std::vector<std::string> yarns;
  // Of the design file, by "A" to "H" and "border".
  std::map<std::string, YarnWords> design_yarns;
  std::optional<double> wpi;
  std::optional<int> weight_class;
  std::string ball;
  std::optional<double> ball_m;
  std::optional<double> ball_g;
  std::optional<double> tex;
  std::string fibre;
  std::optional<double> hook_mm;
  std::string foundation;
  std::string foundation_colour;
  std::string fringe_of_tails;
  std::optional<double> tail_mm;
  std::optional<double> slack;
  std::string border;
  std::vector<std::string> fringes;
  std::string swatch;
  std::string item;
  std::optional<bool> for_small_child;
  std::optional<double> stitches_per_minute;
  std::optional<double> minutes_per_row_start;
  std::optional<double> assurance;
  std::string size_name;
};

// Which of the options a command uses. It accepts the others too, but its help does not show them.
struct MaterialsUse {
  bool foundation = false;
  bool gauge = false;
  bool yarn = false;  // yarns and whatever else an estimate needs
  bool size_name = false;
};
void AddMaterialsOptions(CLI::App& command, MaterialsOptions& options, const MaterialsUse& use);
// The fewer of them that another maker may do otherwise.
void AddAnotherMakerOptions(CLI::App& command, MaterialsOptions& options);

// Throws Failure: usage for a text that is not of the documented form, refused for a quantity
// without a number or a known unit, or for what is missing (a gauge, a yarn before a later one).
v1::Materials MaterialsOf(const MaterialsOptions& options);
v1::AnotherMaker AnotherMakerOf(const MaterialsOptions& options);

// The colour of a declared worked foundation; unspecified if it is a chain. Unless it is named it
// is row 1's, the first of `row_colours`.
v1::Colour FoundationColourOf(const v1::Materials& materials,
                              const google::protobuf::RepeatedField<int>& row_colours);

// What the options say of each yarn, and of one by "B: class=4; ball=125 m/50 g".
YarnWords WordsOfEachYarn(const MaterialsOptions& options);
std::pair<std::string, YarnWords> YarnWordsOf(const std::string& text);
// Sets one property; throws Failure (usage) for a key that is unknown, as MaterialsOf for a value;
// it calls the property by `called`.
void SetYarnProperty(const std::string& called, const std::string& key, const std::string& value,
                     v1::Yarn* yarn);

// "3", "3:B", "3:B:double"; "A:40x8cm", "A:40x8cm:row-ends"; "20x20". Throw as MaterialsOf.
void SetBorder(const std::string& option, const std::string& text, v1::Materials* materials);
void AddFringe(const std::string& option, const std::string& text, v1::Materials* materials);
void SetSwatch(const std::string& option, const std::string& text, v1::Materials* materials);

// "14x16/4in", "14 sts x 16 rows / 4 in": counts over one span for both.
v1::GaugeReading GaugeReadingOf(const std::string& option, const std::string& text);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_MATERIALS_OPTIONS_H_
