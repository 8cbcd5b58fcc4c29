// A version of a pattern, submitted. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_SUBMIT_VERSION_H_
#define ROWPROOF_SERVICES_USECASES_SUBMIT_VERSION_H_

#include <optional>
#include <string>

#include "absl/status/statusor.h"
#include "services/domain/patterns/version_content.h"
#include "services/usecases/application.h"
#include "services/usecases/charts/read_design.h"
#include "services/usecases/charts/sent_materials.h"
#include "services/usecases/read_version.h"

namespace rowproof::usecases {

inline constexpr size_t kLongestVersionNote = 2000;

struct VersionSubmission {
  PatternId pattern;
  patterns::VersionContent content;  // its design without cells if `source` has a file
  DesignSource source;
  std::optional<CalibrationChoice> calibration;  // that the content's materials is to use
  std::string note;
  int parent_number = 0;  // 0: the newest
  bool validate_only = false;
};

// Checks and estimates the content and stores it as the pattern's next version; a version with
// errors is a draft. Also returns whether an exchange of the colours is offered.
struct SubmittedVersion {
  ReadVersion version;
  bool swap_colours_offered = false;
};
absl::StatusOr<SubmittedVersion> SubmitVersion(Application& application, RequestContext& context,
                                               VersionSubmission submission);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_SUBMIT_VERSION_H_
