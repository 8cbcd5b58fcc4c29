#include "services/usecases/charts/read_design.h"

#include <utility>

#include "services/domain/chart/conversion/conversion.h"
#include "services/domain/errors.h"

namespace rowproof::usecases {
namespace {

bool FirstRowShowsOnlyB(const chart::Design& design) {
  if (design.convention != chart::Convention::kPicture || NamesColours(design)) return false;
  for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
    if (!design.cells.at(1, stitch)) return false;
  }
  return true;
}

}  // namespace

absl::StatusOr<images::ImportedChart> ReadFile(const DesignFile& file, const Stop& stop) {
  auto imported = images::ImportChart(file.content, file.settings, stop);
  if (!imported.ok()) return UnderField(imported.status(), "file");
  return imported;
}

int64_t PixelsOf(const ReadDesign& read) {
  return read.report.has_value() ? int64_t{read.report->width} * read.report->height : 0;
}

absl::StatusOr<ReadDesign> Read(const DesignSource& source, const Stop& stop) {
  ReadDesign read;
  read.design = source.design;
  if (source.file.has_value()) {
    auto imported = ReadFile(*source.file, stop);
    if (!imported.ok()) return UnderField(imported.status(), "design");
    read.design.cells = std::move(imported->cells);
    read.design.picture_colours = std::move(imported->picture_colours);
    read.report = std::move(imported->report);
  }
  chart::SettleFacing(read.design);
  if (auto status = chart::Validate(read.design, stop); !status.ok()) {
    return UnderField(status, "design");
  }
  if (source.ends_unspecified) read.design.ends = chart::UsualEnds(read.design);
  read.swap_colours_offered = FirstRowShowsOnlyB(read.design);
  return read;
}

}  // namespace rowproof::usecases
