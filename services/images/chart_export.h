// A chart as a file: PNG, Netpbm's PBM, PGM and PPM, CSV and TSV. Pure, thread-safe.
#ifndef ROWPROOF_SERVICES_IMAGES_CHART_EXPORT_H_
#define ROWPROOF_SERVICES_IMAGES_CHART_EXPORT_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/images/colour.h"
#include "services/images/import_report.h"

namespace rowproof::images {

struct ExportSettings {
  FileFormat format = FileFormat::kPng;
  // Side of a cell in pixels; a CSV or TSV has 1.
  int cell_scale = 1;
  // Of PNG and PPM: A, B, ... as many as the chart has (A: plain, B: drop in a working chart).
  // Empty: white, black, and for more colours a fixed list. A PGM has even steps of grey from white
  // to black, a PBM 0 and 1.
  std::vector<Rgb> colours;
};

// The design's cells as a file. A picture file carries a note on how it was made (tEXt of a PNG, a
// comment of a PNM), so that it is imported again unchanged without any setting but the convention
// and the row order. INVALID_ARGUMENT: "cell_scale" outside its range, or one that makes a file
// that Import would refuse; "format": PBM for more than two colours; "colours": not as many as the
// chart has, or two alike.
// The stop's status if the work has to stop.
absl::StatusOr<std::string> ExportChart(const chart::Design& design, const ExportSettings& settings,
                                        const Stop& stop = {});

// The colours that ExportChart takes if none are given.
std::vector<Rgb> UsualColours(size_t count);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_CHART_EXPORT_H_
