#include "services/usecases/read_design.h"

#include "services/domain/errors.h"

namespace rowproof::usecases {
namespace {

absl::Status RefuseWhatIsMissing(const chart::Design& design) {
  if (design.technique != chart::Technique::kSpike) {
    return NotSupported("technique", std::string(chart::Name(design.technique)) +
                                         " is not worked by this version; spike is");
  }
  if (design.facing == chart::Facing::kPaired) {
    return NotSupported("facing",
                        "paired is not worked by this version; one-face and two-face are");
  }
  if (design.ends == chart::Ends::kWaiting) {
    return NotSupported("ends", "waiting is not worked by this version; cut and carried are");
  }
  if (design.form == chart::Form::kTube) {
    return NotSupported("form", "tube is not worked by this version; flat is");
  }
  return absl::OkStatus();
}

bool FirstRowShowsOnlyB(const chart::Design& design) {
  if (design.convention != chart::Convention::kPicture) return false;
  for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
    if (!design.cells.at(1, stitch)) return false;
  }
  return true;
}

}  // namespace

absl::StatusOr<ReadDesign> Read(const DesignSource& source) {
  ReadDesign read{source.design};
  if (auto status = RefuseWhatIsMissing(read.design); !status.ok()) {
    return UnderField(status, "design");
  }
  if (source.file.has_value()) {
    auto imported = images::ImportChart(source.file->content, source.file->settings);
    if (!imported.ok()) return UnderField(imported.status(), "design.file");
    read.design.cells = std::move(imported->cells);
  }
  if (auto status = chart::Validate(read.design); !status.ok()) {
    return UnderField(status, "design");
  }
  read.swap_colours_offered = FirstRowShowsOnlyB(read.design);
  return read;
}

}  // namespace rowproof::usecases
