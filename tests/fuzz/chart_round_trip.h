// What holds for every chart that an importer accepts.
#ifndef ROWPROOF_TESTS_FUZZ_CHART_ROUND_TRIP_H_
#define ROWPROOF_TESTS_FUZZ_CHART_ROUND_TRIP_H_

#include <cstdint>

#include "services/domain/check.h"
#include "services/images/chart_export.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

// Settings other than the usual, chosen by two bytes.
inline ImportSettings SettingsOf(uint8_t choice, uint8_t more) {
  using chart::Colour;
  ImportSettings settings;
  if ((choice & 1) != 0) settings.tolerance = choice;
  if ((choice & 2) != 0) settings.cell_scale = 1 + choice % 5;
  if ((choice & 4) != 0) settings.colour_a = Rgb{choice, 255, 128};
  if ((choice & 8) != 0) settings.colour_b = Rgb{20, choice, 40};
  settings.swap_colours = (choice & 16) != 0;
  if ((choice & 32) != 0) settings.convention = chart::Convention::kWorking;
  if ((choice & 64) != 0) settings.meanings = {{kBlack, Colour::kA}, {Rgb{1, 2, more}, Colour::kB}};
  if ((choice & 128) != 0) {
    for (int row = 0; row < more % 16; ++row) {
      settings.row_colours.push_back(static_cast<Colour>(row % (2 + more % 7)));
    }
  }
  settings.find_grid = (more & 1) != 0;
  if ((more & 2) != 0) settings.crop = {more % 7, more % 5, more % 3, more % 2};
  if ((more & 4) != 0) settings.grid = DeclaredGrid{more / 7.0, more / 9.0, more % 4, more % 3};
  return settings;
}

// Every export of an accepted chart is imported again unchanged, with no other setting than what
// belongs to the design.
inline void CheckRoundTrip(const ImportedChart& chart, const ImportSettings& how) {
  ROWPROOF_CHECK(!chart.cells.empty());
  ROWPROOF_CHECK(chart.report.cut.left >= 0 && chart.report.cut.right >= 0);
  ROWPROOF_CHECK(chart.report.cut.top >= 0 && chart.report.cut.bottom >= 0);
  ROWPROOF_CHECK(!Describe(chart.report).empty());
  if (chart.cells.rows() * chart.cells.stitches() > 20'000) return;  // within the limits, but slow
  chart::Design design;
  design.cells = chart.cells;
  design.convention = how.convention;
  design.picture_colours = chart.picture_colours;
  if (!design.picture_colours.empty()) design.row_colours = how.row_colours;
  ROWPROOF_CHECK(chart::Validate(design).ok());
  ImportSettings settings;
  settings.convention = design.convention;
  settings.row_colours = design.row_colours;
  for (const FileFormat format :
       {FileFormat::kPng, FileFormat::kPlainPbm, FileFormat::kRawPbm, FileFormat::kPlainPgm,
        FileFormat::kRawPpm, FileFormat::kCsv, FileFormat::kTsv}) {
    const auto file = ExportChart(design, {format, 1, {}});
    if (!file.ok() && chart::NamesColours(design)) continue;  // a PBM
    const auto again = ImportChart(file.value(), settings);
    ROWPROOF_CHECK(again.ok());
    ROWPROOF_CHECK(again->cells == chart.cells);
    ROWPROOF_CHECK(again->picture_colours == chart.picture_colours);
  }
}

// Reads a file with usual and with other settings.
template <typename Import>
void ReadBothWays(Import import, uint8_t choice, uint8_t more) {
  for (const ImportSettings& settings : {ImportSettings{}, SettingsOf(choice, more)}) {
    const auto chart = import(settings);
    if (chart.ok()) CheckRoundTrip(*chart, settings);
  }
}

}  // namespace rowproof::images

#endif  // ROWPROOF_TESTS_FUZZ_CHART_ROUND_TRIP_H_
