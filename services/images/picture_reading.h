// From a picture to a chart: with or without grid lines, as declared, noted or found.
#ifndef ROWPROOF_SERVICES_IMAGES_PICTURE_READING_H_
#define ROWPROOF_SERVICES_IMAGES_PICTURE_READING_H_

#include <optional>
#include <string>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/images/chart_file.h"
#include "services/images/file_note.h"
#include "services/images/grid_finder.h"
#include "services/images/picture.h"

namespace rowproof::images {

// All of a PNG or PNM but its decoding. A note that is wrong is ignored. The stop's status if the
// picture's work has to stop.
absl::StatusOr<ImportedChart> ReadPicture(const Picture& picture, const ImportSettings& settings,
                                          FileFormat format, const std::optional<FileNote>& note);

// Cells that touch and fill the region: of scale x scale pixels; without a scale, of the size that
// FindCellSize finds.
absl::StatusOr<FoundCells> ReadTouching(const Picture& picture, const Region& region,
                                        const CellColours& colours, std::optional<int> scale,
                                        const std::string& field);

// INVALID_ARGUMENT, "stitch_count" or "row_count": not as many as the settings say.
absl::Status CheckCounts(const FoundCells& found, const ImportSettings& settings);

// The picture's cells keep the workability rules that hold in every technique (no drop in rows 1
// and 2, over another, or above the last row) with the settings' row colours. Only for two letters.
bool IsWorkable(const Picture& picture, const CellClasses& cells, const ImportSettings& settings);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_PICTURE_READING_H_
