#include "services/client/parsing/measurement_options.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/output.h"
#include "services/client/parsing/choices.h"
#include "services/client/parsing/quantities.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

v1::StitchKind KindOf(const std::string& word) {
  // In the order of the API's enum.
  static const auto& words = *new Words{"ch", "sc", "ssc", "dc2", "dc3", "sl st"};
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) {
    throw Failure(ExitCode::kUsage,
                  fmt::format("--stitches: the kind must be ch, sc, ssc, dc2, dc3 or \"sl st\" "
                              "(got \"{}\")",
                              text::OneLine(word)));
  }
  return static_cast<v1::StitchKind>(found - words.begin() + 1);
}

v1::StitchCount StitchCountOf(const std::string& text) {
  const size_t equals = text.find('=');
  if (equals == std::string::npos) {
    throw MustBe("--stitches", "KIND=COUNT, such as sc=400", text);
  }
  v1::StitchCount count;
  count.set_stitch(KindOf(std::string(Trimmed(std::string_view(text).substr(0, equals)))));
  count.set_count(NumberOf("--stitches", std::string_view(text).substr(equals + 1)));
  return count;
}

v1::SwatchMeasurement SwatchOf(const MeasurementOptions& o) {
  v1::SwatchMeasurement swatch;
  for (const std::string& text : o.stitches) *swatch.add_stitches() = StitchCountOf(text);
  swatch.set_row_start_count(o.row_starts);
  if (!o.tails.empty()) swatch.set_tail_length_mm(LengthMm("--tails", o.tails));
  const v1::Materials materials = MaterialsOf(o.materials);
  *swatch.mutable_gauge_readings() = materials.gauge_readings();
  if (materials.yarns_size() > 0) *swatch.mutable_yarn() = materials.yarns(0).yarn();
  if (o.length.empty() == o.mass.empty()) {
    throw Failure(ExitCode::kUsage, "give either --length or --mass of the yarn");
  }
  if (!o.length.empty()) {
    swatch.set_length_mm(LengthMm("--length", o.length));
    if (!o.scale_step.empty()) swatch.set_scale_step(LengthMm("--step", o.scale_step));
  } else {
    swatch.set_mass_g(MassG("--mass", o.mass));
    if (!o.scale_step.empty()) swatch.set_scale_step(MassG("--step", o.scale_step));
  }
  return swatch;
}

}  // namespace

void AddMeasurementOptions(CLI::App& command, MeasurementOptions& o) {
  command
      .add_option("--stitches", o.stitches,
                  "Stitches of one kind in the swatch, such as sc=400; kinds are ch, sc, ssc, dc2 "
                  "(two rows down), dc3 (three rows down) and \"sl st\"; once for each kind")
      ->expected(1)
      ->take_all();
  command.add_option("--length", o.length,
                     "Yarn of the unravelled swatch, such as 24.6m or 26.9yd");
  command.add_option("--mass", o.mass, "Or the swatch's mass, such as 12.5g or 0.44oz");
  command.add_option("--step", o.scale_step,
                     "Step of the tape or scale, such as 1cm or 0.1g (default: 1 mm or 1 g)");
  command.add_option("--tails", o.tails,
                     "Length of all tails together, where they were measured too");
  command.add_option("--row-starts", o.row_starts, "Rows that began with a slip knot or ch 1");
  command
      .add_option("--gauge", o.materials.gauges,
                  "Stitches and worked rows counted in the swatch over a span, such as 14x16/4in; "
                  "may be repeated")
      ->expected(1)
      ->take_all();
  command.add_option("--wpi", o.materials.wpi, "Wraps per inch of the yarn");
  command.add_option("--weight-class", o.materials.weight_class, "Standard yarn weight, 0 to 7");
  command.add_option("--ball", o.materials.ball, "Its ball band, such as 125 m/50 g, for a mass");
  command.add_option("--tex", o.materials.tex, "Or grams a km, where no ball band is known");
  command.add_option("--swatch-note", o.swatch_note, "What you want to remember of this swatch");
}

void AddScopeOptions(CLI::App& command, ScopeOptions& o) {
  AddWord(command, "--technique", o.technique, Techniques(), "Technique that was measured");
  AddWord(command, "--facing", o.facing, Facings(), "How the swatch was turned");
  AddWord(command, "--ends", o.ends, EndsWords(), "What became of its ends");
}

v1::CalibrateYarnRequest MeasurementsOf(const MeasurementOptions& o) {
  v1::CalibrateYarnRequest request;
  if (!o.file.empty()) ReadJson(o.file, ReadFile(o.file), &request);
  if (!o.stitches.empty()) {
    v1::YarnMeasurement* measurement = request.add_measurements();
    *measurement->mutable_swatch() = SwatchOf(o);
    measurement->set_note(o.swatch_note);
  }
  return request;
}

void SetScope(const ScopeOptions& options, std::optional<int> weight_class,
              v1::CalibrationScope* scope) {
  if (!options.technique.empty()) {
    scope->set_technique(EnumOf<v1::Technique>(Techniques(), options.technique));
  }
  if (!options.facing.empty()) scope->set_facing(EnumOf<v1::Facing>(Facings(), options.facing));
  if (!options.ends.empty()) scope->set_ends(EnumOf<v1::Ends>(EndsWords(), options.ends));
  if (weight_class.has_value()) scope->set_weight_class(*weight_class);
}

}  // namespace rowproof::client
