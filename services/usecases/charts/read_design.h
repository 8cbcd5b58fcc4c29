// A design as a caller sends it: its cells themselves, or a file to read them from. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CHARTS_READ_DESIGN_H_
#define ROWPROOF_SERVICES_USECASES_CHARTS_READ_DESIGN_H_

#include <optional>
#include <string_view>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/stop.h"
#include "services/images/chart_file.h"

namespace rowproof::usecases {

struct DesignFile {
  std::string_view content;  // outlives the call
  images::ImportSettings settings;
};

struct DesignSource {
  chart::Design design;            // without cells if there is a file
  bool ends_unspecified = false;   // as technique, facing and form have them (chart::UsualEnds)
  std::optional<DesignFile> file;  // read into the cells
};

struct ReadDesign {
  chart::Design design;
  bool swap_colours_offered = false;
  // Set if the design came from a file.
  std::optional<images::ImportReport> report;
};

// Pixels that the pictures of one request may have together: two of the largest, or a hundred of
// the usual size.
inline constexpr int64_t kMostPixelsTogether = 2 * images::kMostPixels;

// Of the picture that it was read from; 0 without one.
int64_t PixelsOf(const ReadDesign& read);

// Reads the file, if there is one, and validates the design. A facing that technique and form leave
// no choice of is set as it is worked. INVALID_ARGUMENT with the field below "design".
// The stop's status if the work has to stop.
absl::StatusOr<ReadDesign> Read(const DesignSource& source, const Stop& stop);

// Reads a file alone. INVALID_ARGUMENT with the field below "file"; the stop's status.
absl::StatusOr<images::ImportedChart> ReadFile(const DesignFile& file, const Stop& stop);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CHARTS_READ_DESIGN_H_
