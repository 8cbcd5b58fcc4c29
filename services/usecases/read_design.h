// A design as a caller sends it: its cells themselves, or a file to read them from. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_READ_DESIGN_H_
#define ROWPROOF_SERVICES_USECASES_READ_DESIGN_H_

#include <optional>
#include <string_view>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/images/chart_file.h"

namespace rowproof::usecases {

struct DesignFile {
  std::string_view content;  // outlives the call
  images::ImportSettings settings;
};

struct DesignSource {
  chart::Design design;            // without cells where there is a file
  std::optional<DesignFile> file;  // read into the cells
};

struct ReadDesign {
  chart::Design design;
  bool swap_colours_offered = false;
};

// Reads the file, if there is one, and validates the design. INVALID_ARGUMENT with the field below
// "design"; UNIMPLEMENTED for a technique, facing, form or way of treating the ends that this build
// does not have.
absl::StatusOr<ReadDesign> Read(const DesignSource& source);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_READ_DESIGN_H_
