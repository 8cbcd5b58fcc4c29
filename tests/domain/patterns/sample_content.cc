#include "tests/domain/patterns/sample_content.h"

#include <cmath>
#include <limits>

namespace rowproof::patterns {
namespace {

using estimate::YarnColour;

template <typename E>
E PickEnum(std::mt19937_64& random, E last) {
  return static_cast<E>(Pick(random, 0, static_cast<int>(last)));
}

double PickReal(std::mt19937_64& random) {
  switch (Pick(random, 0, 5)) {
    case 0:
      return 0.0;
    case 1:
      return -0.0;
    case 2:
      return std::numeric_limits<double>::denorm_min();
    case 3:
      return -std::numeric_limits<double>::max();
    default:
      return std::ldexp(static_cast<double>(random() >> 11), Pick(random, -80, 20));
  }
}

template <typename Make>
auto Maybe(std::mt19937_64& random, const Make& make) {
  using Value = decltype(make());
  return Pick(random, 0, 1) == 0 ? std::optional<Value>() : std::optional<Value>(make());
}

std::string PickText(std::mt19937_64& random, int most_characters) {
  const std::vector<std::string> characters = {
      "a", "Z", " ", "\n", "\t", "7", "\xc3\xa9", "\xe2\x9c\x82", "\xf0\x9f\xa7\xb6"};
  std::string text;
  for (int n = Pick(random, 0, most_characters); n > 0; --n) {
    text += characters[static_cast<size_t>(Pick(random, 0, 8))];
  }
  return text;
}

estimate::Yarn PickYarn(std::mt19937_64& random) {
  estimate::Yarn yarn;
  yarn.name = PickText(random, 20);
  yarn.fibre = PickText(random, 20);
  yarn.weight_class = Maybe(random, [&] { return Pick(random, 0, 7); });
  yarn.wraps_per_inch = Maybe(random, [&] { return PickReal(random); });
  yarn.ball_length_m = Maybe(random, [&] { return PickReal(random); });
  yarn.ball_mass_g = Maybe(random, [&] { return PickReal(random); });
  return yarn;
}

// What only format 2 can say; any of it may be missing.
void PickMoreYarns(std::mt19937_64& random, estimate::Materials& materials) {
  for (int n = Pick(random, 0, 6); n > 0; --n) materials.more_yarns.push_back(PickYarn(random));
  materials.yarn_b.tex = Maybe(random, [&] { return PickReal(random); });
  if (Pick(random, 0, 1) == 1) materials.foundation.colour = PickEnum(random, chart::Colour::kH);
  if (Pick(random, 0, 1) == 1) materials.border.colour = PickEnum(random, YarnColour::kH);
  for (auto& fringe : materials.added_fringe) fringe.colour = PickEnum(random, YarnColour::kH);
  if (Pick(random, 0, 1) == 1) materials.calibration = PickText(random, 10);
  materials.calibration_scope = Maybe(random, [&] {
    return estimate::CalibrationScope{
        Maybe(random, [&] { return PickEnum(random, chart::Technique::kInset); }),
        Maybe(random, [&] { return PickEnum(random, chart::Facing::kPaired); }),
        Maybe(random, [&] { return PickEnum(random, chart::Ends::kWaiting); }),
        Maybe(random, [&] { return Pick(random, 0, 7); })};
  });
}

void PickMoreColours(std::mt19937_64& random, chart::Design& design) {
  design.foundation_colour = Maybe(random, [&] { return PickEnum(random, chart::Colour::kH); });
  for (auto& colour : design.row_colours) colour = PickEnum(random, chart::Colour::kH);
  if (design.convention != chart::Convention::kPicture || !HasMoreThanTwoColours(design)) return;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      const auto colour = PickEnum(random, chart::Colour::kH);
      design.picture_colours.push_back(colour);
      design.cells.set(row, stitch, colour != RowColour(design, row));
    }
  }
}

estimate::Gauge PickGauge(std::mt19937_64& random) {
  estimate::Gauge gauge;
  gauge.stitches_per_decimetre = PickReal(random);
  gauge.rows_per_decimetre = PickReal(random);
  gauge.stitches_uncertainty_per_decimetre = Maybe(random, [&] { return PickReal(random); });
  gauge.rows_uncertainty_per_decimetre = Maybe(random, [&] { return PickReal(random); });
  return gauge;
}

estimate::Assumptions PickAssumptions(std::mt19937_64& random) {
  estimate::Assumptions assumptions;
  for (auto& path : assumptions.paths) {
    path = {PickReal(random), PickReal(random), PickReal(random)};
  }
  assumptions.model_relative_uncertainty = PickReal(random);
  assumptions.size_relative_uncertainty = PickReal(random);
  assumptions.time_relative_uncertainty = PickReal(random);
  assumptions.maker_relative_spread = PickReal(random);
  assumptions.fringe_allowance_mm = PickReal(random);
  assumptions.enclosed_tail_mm = PickReal(random);
  assumptions.stitches_per_minute = PickReal(random);
  assumptions.minutes_per_row_start = PickReal(random);
  assumptions.path_covariance =
      Maybe(random, [&] { return std::vector<double>(171, PickReal(random)); });
  return assumptions;
}

estimate::Materials PickMaterials(std::mt19937_64& random) {
  estimate::Materials materials;
  materials.yarn_a = PickYarn(random);
  materials.yarn_b = PickYarn(random);
  materials.border_yarn = Maybe(random, [&] { return PickYarn(random); });
  materials.hook_mm = Maybe(random, [&] { return PickReal(random); });
  materials.gauge = PickGauge(random);
  materials.gauge_after_blocking = Maybe(random, [&] { return PickGauge(random); });
  materials.gauge_is_of_another_fabric = Pick(random, 0, 1) == 1;
  materials.ends = Maybe(random, [&] { return PickEnum(random, chart::Ends::kWaiting); });
  materials.foundation.kind = PickEnum(random, estimate::FoundationKind::kWorked);
  materials.foundation.colour = Maybe(random, [&] { return PickEnum(random, chart::Colour::kB); });
  materials.tail_use = PickEnum(random, estimate::TailUse::kFringe);
  materials.fringe_length_mm = PickReal(random);
  materials.tail_mm = Maybe(random, [&] { return PickReal(random); });
  materials.slack = PickReal(random);
  materials.border = {Pick(random, 0, 200), PickEnum(random, YarnColour::kBorder),
                      Pick(random, 0, 1) == 1};
  for (int n = Pick(random, 0, 3); n > 0; --n) {
    materials.added_fringe.push_back({PickEnum(random, YarnColour::kBorder),
                                      Pick(random, 0, 100'000), PickReal(random),
                                      PickEnum(random, estimate::FringeEdge::kFoundationAndTop)});
  }
  materials.swatch = Maybe(random, [&] {
    return estimate::Swatch{Pick(random, 0, 100), Pick(random, 0, 100)};
  });
  materials.stitches_per_minute = Maybe(random, [&] { return PickReal(random); });
  materials.minutes_per_row_start = Maybe(random, [&] { return PickReal(random); });
  materials.assurance = PickReal(random);
  materials.item = PickEnum(random, estimate::ItemKind::kBabyItem);
  materials.intended_user = PickEnum(random, estimate::IntendedUser::kSmallChild);
  materials.assumptions = PickAssumptions(random);
  return materials;
}

std::optional<chart::Band> PickBand(std::mt19937_64& random, int length) {
  return Maybe(random, [&] {
    const int first = Pick(random, 1, length);
    return chart::Band{first, Pick(random, first, length)};
  });
}

}  // namespace

int Pick(std::mt19937_64& random, int low, int high) {
  return low + static_cast<int>(random() % static_cast<uint64_t>(high - low + 1));
}

chart::Grid GridOf(const std::vector<std::string>& lines) {
  const int rows = static_cast<int>(lines.size());
  const int stitches = static_cast<int>(lines.front().size());
  chart::Grid grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    const std::string& line = lines[static_cast<size_t>(rows - row)];
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      grid.set(row, stitch, line.at(static_cast<size_t>(stitches - stitch)) == 'x');
    }
  }
  return grid;
}

chart::Design WorkingChart(const std::vector<std::string>& lines) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = GridOf(lines);
  return design;
}

chart::Grid RandomGrid(std::mt19937_64& random, int rows, int stitches) {
  chart::Grid grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    for (uint64_t& word : grid.mutable_row(row)) word = random();
    grid.mutable_row(row).back() &= grid.last_word_mask();
  }
  return grid;
}

VersionContent SmallVersion() {
  VersionContent content;
  content.title = "Fen Ladder (invented)";
  content.design = WorkingChart({"...x.", ".x...", "...x.", ".....", "....."});
  content.design.stitch_band = chart::Band{2, 3};
  content.design.sizes = {{"S", 1, 1}, {"M", 4, 1}};
  content.materials.yarn_a = {"Oat (invented)", "wool", 4, 10.0, 170.0, 100.0};
  content.materials.yarn_b = {"Slate (invented)", "wool",      std::nullopt, 9.5,
                              std::nullopt,       std::nullopt};
  content.materials.hook_mm = 5.5;
  content.materials.gauge = {14.0, 16.0, 0.25, std::nullopt};
  content.materials.border = {2, estimate::YarnColour::kB, true};
  content.materials.swatch = estimate::Swatch{20, 22};
  // Set here, so that another default does not change the golden vector.
  content.materials.slack = 0.05;
  content.materials.assurance = 0.95;
  constexpr double kPi = 3.14159265358979323846;
  content.materials.assumptions.paths = {{{3, 0, kPi},
                                          {3, 2, 2 * kPi},
                                          {3, 6, 2 * kPi},
                                          {4, 6, 3 * kPi},
                                          {4, 9, 3 * kPi},
                                          {2, 0, kPi}}};
  content.materials.assumptions.model_relative_uncertainty = 0.12;
  content.materials.assumptions.size_relative_uncertainty = 0.03;
  content.materials.assumptions.time_relative_uncertainty = 0.5;
  content.materials.assumptions.maker_relative_spread = 0.10;
  content.materials.assumptions.fringe_allowance_mm = 50;
  content.materials.assumptions.enclosed_tail_mm = 150;
  content.materials.assumptions.stitches_per_minute = 15;
  content.materials.assumptions.minutes_per_row_start = 1;
  content.introduction = "A small piece.\nWork loosely.";
  content.finishing = "Weave in the ends.";
  content.level = "intermediate";
  return content;
}

VersionContent ColourfulVersion() {
  using chart::Colour;
  VersionContent content = SmallVersion();
  content.title = "Kiln Tube (invented)";
  chart::Design& design = content.design;
  design = chart::Design();
  design.technique = chart::Technique::kOverlay;
  design.facing = chart::Facing::kOneFace;
  design.ends = chart::Ends::kWaiting;
  design.form = chart::Form::kTube;
  design.row_colours = {Colour::kA, Colour::kB, Colour::kC, Colour::kB};
  // Stitch 1 first: the rows of the picture from its right edge.
  design.picture_colours = {Colour::kA, Colour::kA, Colour::kA, Colour::kA,   // row 1
                            Colour::kB, Colour::kB, Colour::kC, Colour::kB,   // row 2
                            Colour::kC, Colour::kB, Colour::kC, Colour::kC,   // row 3
                            Colour::kB, Colour::kB, Colour::kB, Colour::kB};  // row 4
  design.cells = GridOf({"....", "..x.", ".x..", "...."});
  design.foundation_colour = Colour::kC;
  content.materials.yarn_b.tex = 590.5;
  estimate::Yarn rust;
  rust.name = "Rust (invented)";
  rust.fibre = "cotton";
  rust.weight_class = 4;
  content.materials.more_yarns = {rust};
  content.materials.foundation = {estimate::FoundationKind::kWorked, Colour::kC};
  content.materials.border = {2, estimate::YarnColour::kC, true};
  content.materials.added_fringe = {
      {estimate::YarnColour::kC, 60, 120.0, estimate::FringeEdge::kFoundationAndTop}};
  content.materials.calibration = "calibrations/invented";
  return content;
}

VersionContent WordyVersion() {
  VersionContent content = ColourfulVersion();
  content.designer_text =
      "Terms: UK.\nRnd 1 (A): dc 4. (4 sts)\nRnd 2 (B): dc, [mtr, dc] once.\n\xe2\x80\xa6";
  content.designer_text_terms.reset();
  content.designer_text_hand = chart::Hand::kLeft;
  return content;
}

VersionContent ScopedVersion() {
  VersionContent content = ColourfulVersion();
  content.materials.calibration_scope = estimate::CalibrationScope{
      chart::Technique::kOverlay, std::nullopt, chart::Ends::kWaiting, 4};
  return content;
}

VersionContent StyledVersion() {
  VersionContent content = ColourfulVersion();
  content.row_style = {
      chart::Hand::kLeft,           chart::Terms::kUk, rows::RepeatStyle::kAsterisk, 3, true,
      {"oat", "dark slate", "rust"}};
  return content;
}

VersionContent RandomVersion(std::mt19937_64& random) {
  VersionContent content;
  content.title = PickText(random, 40);
  chart::Design& design = content.design;
  const int rows = Pick(random, 1, 90);
  const int stitches = Pick(random, 1, 140);
  design.cells = RandomGrid(random, rows, stitches);
  design.technique = PickEnum(random, chart::Technique::kInset);
  design.facing = PickEnum(random, chart::Facing::kPaired);
  design.ends = PickEnum(random, chart::Ends::kWaiting);
  design.convention = PickEnum(random, chart::Convention::kWorking);
  if (design.technique != chart::Technique::kInset) {
    design.form = PickEnum(random, chart::Form::kTube);
  }
  if (Pick(random, 0, 1) == 1) {
    for (int n = 0; n < rows; ++n) {
      design.row_colours.push_back(PickEnum(random, chart::Colour::kB));
    }
  }
  design.stitch_band = PickBand(random, stitches);
  design.row_band = PickBand(random, rows);
  design.sizes.clear();
  for (int n = Pick(random, 1, 4); n > 0; --n) {
    design.sizes.push_back({"size " + std::to_string(n),
                            design.stitch_band ? Pick(random, 1, 9) : 1,
                            design.row_band ? Pick(random, 1, 9) : 1});
  }
  design.first_row_number = Pick(random, 0, 2);
  content.materials = PickMaterials(random);
  if (Pick(random, 0, 1) == 1) {
    PickMoreColours(random, design);
    PickMoreYarns(random, content.materials);
  }
  content.introduction = PickText(random, 60);
  content.notes = PickText(random, 60);
  content.finishing = PickText(random, 60);
  content.level = PickText(random, 10);
  content.designer_text = PickText(random, 400);
  content.designer_text_terms = PickEnum(random, chart::Terms::kUk);
  if (!content.designer_text.empty() && Pick(random, 0, 2) == 0) {
    content.designer_text_terms.reset();
  }
  content.designer_text_hand = PickEnum(random, chart::Hand::kLeft);
  return content;
}

}  // namespace rowproof::patterns
