#include "services/usecases/reports/expected_report.h"

#include "services/domain/estimate/estimate.h"

namespace rowproof::usecases {
namespace {

constexpr double kMmInAMetre = 1000;

double LengthM(const estimate::SizeEstimate& size, estimate::YarnColour colour) {
  for (const auto& entry : size.colours) {
    if (entry.colour == colour) return entry.length_mm / kMmInAMetre;
  }
  return 0;
}

void ExpectColours(const testcalls::Report& report, const estimate::Materials& materials,
                   const estimate::SizeEstimate& whole, const estimate::SizeEstimate& worked,
                   testcalls::Expected* expected) {
  for (const auto& use : report.yarn) {
    testcalls::Expected::Colour colour;
    colour.colour = use.colour;
    colour.length_m = LengthM(worked, use.colour);
    colour.whole_length_m = LengthM(whole, use.colour);
    if (colour.length_m <= 0 || colour.whole_length_m <= 0) continue;
    if (const estimate::Yarn* yarn = testcalls::YarnInUse(use, materials); yarn != nullptr) {
      colour.ball_length_m = yarn->ball_length_m;
      colour.ball_mass_g = yarn->ball_mass_g;
      colour.tex = yarn->tex;
    }
    expected->colours.push_back(colour);
  }
}

}  // namespace

testcalls::Expected ExpectedOf(const testcalls::Report& report,
                               const patterns::VersionContent& content) {
  const int size = testcalls::SizeIndex(content.design, report.size);
  testcalls::Expected expected;
  expected.rows = testcalls::WorkedRowCount(content.design, size);
  expected.stitches_per_decimetre = content.materials.gauge.stitches_per_decimetre;
  expected.rows_per_decimetre = content.materials.gauge.rows_per_decimetre;
  expected.hook_mm = content.materials.hook_mm;
  const auto whole =
      estimate::EstimateFigures(content.design, size, content.materials, expected.rows);
  if (!whole.ok()) return expected;
  expected.width_mm = whole->before_blocking.width_mm;
  if (report.last_row == 0) return expected;
  const bool finished = report.last_row == expected.rows;  // as most reports are
  const auto worked = finished ? whole
                               : estimate::EstimateFigures(content.design, size, content.materials,
                                                           report.last_row);
  if (!worked.ok()) return expected;
  expected.height_mm = worked->before_blocking.height_mm;
  if (worked->minutes > 0) expected.minutes = worked->minutes;
  ExpectColours(report, content.materials, *whole, *worked, &expected);
  return expected;
}

}  // namespace rowproof::usecases
