// What holds for every chart that an importer accepts.
#ifndef ROWPROOF_TESTS_FUZZ_CHART_ROUND_TRIP_H_
#define ROWPROOF_TESTS_FUZZ_CHART_ROUND_TRIP_H_

#include <cstdint>

#include "services/domain/check.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

// Settings other than the usual, chosen by a byte.
inline ImportSettings SettingsOf(uint8_t choice) {
  ImportSettings settings;
  if ((choice & 1) != 0) settings.tolerance = choice;
  if ((choice & 2) != 0) settings.cell_scale = 1 + choice % 5;
  if ((choice & 4) != 0) settings.colour_a = Rgb{choice, 255, 128};
  if ((choice & 8) != 0) settings.colour_b = Rgb{20, choice, 40};
  settings.swap_colours = (choice & 16) != 0;
  if ((choice & 32) != 0) settings.convention = chart::Convention::kWorking;
  return settings;
}

// Every export of an accepted chart is imported again unchanged.
inline void CheckRoundTrip(const ImportedChart& chart) {
  const chart::Grid& cells = chart.cells;
  ROWPROOF_CHECK(!cells.empty());
  if (cells.rows() * cells.stitches() > 1'000'000) return;  // within the limits, but slow
  ImportSettings settings;
  settings.cell_scale = 1;
  settings.colour_a = kWhite;
  settings.colour_b = kBlack;
  const auto png = ExportPng(cells, 1, kWhite, kBlack);
  ROWPROOF_CHECK(png.ok());
  ROWPROOF_CHECK(ImportChart(*png, settings).value().cells == cells);
  for (const PbmKind kind : {PbmKind::kPlain, PbmKind::kRaw}) {
    ROWPROOF_CHECK(ImportChart(ExportPbm(cells, kind), settings).value().cells == cells);
  }
  for (const CsvLetters letters : {CsvLetters::kColours, CsvLetters::kStitches}) {
    ROWPROOF_CHECK(ImportChart(ExportCsv(cells, letters), settings).value().cells == cells);
  }
}

}  // namespace rowproof::images

#endif  // ROWPROOF_TESTS_FUZZ_CHART_ROUND_TRIP_H_
