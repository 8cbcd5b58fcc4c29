// Patterns and their versions.
#ifndef ROWPROOF_SERVICES_USECASES_PATTERNS_H_
#define ROWPROOF_SERVICES_USECASES_PATTERNS_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/access/permissions.h"
#include "services/domain/estimate/another_maker.h"
#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/pattern.h"
#include "services/domain/patterns/version.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/rows/writing/writer.h"
#include "services/usecases/application.h"
#include "services/usecases/calibrations.h"
#include "services/usecases/charts/read_design.h"

namespace rowproof::usecases {

inline constexpr size_t kLongestVersionNote = 2000;

struct PatternPage {
  std::vector<patterns::PatternRecord> patterns;
  bool more = false;
};

struct VersionPage {
  std::vector<patterns::VersionRecord> versions;
  bool more = false;
};

// A version with its content decoded.
struct ReadVersion {
  patterns::VersionRecord row;
  patterns::VersionContent content;
};

struct VersionSubmission {
  PatternId pattern;
  patterns::VersionContent content;  // its design without cells if `source` has a file
  DesignSource source;
  std::optional<CalibrationChoice> calibration;  // that the content's materials is to use
  std::string note;
  int parent_number = 0;  // 0: the newest
  bool validate_only = false;
};

absl::StatusOr<patterns::PatternRecord> CreatePattern(Application& application,
                                                      RequestContext& context,
                                                      const std::string& title);
absl::StatusOr<patterns::PatternRecord> GetPattern(Application& application,
                                                   RequestContext& context,
                                                   const PatternId& pattern);
absl::StatusOr<PatternPage> ListPatterns(Application& application, RequestContext& context,
                                         bool archived_too, std::optional<Moment> before,
                                         const PatternId& before_id, int limit);
// `revision`: the one last read, from the etag; absent: any.
absl::StatusOr<patterns::PatternRecord> UpdatePattern(Application& application,
                                                      RequestContext& context,
                                                      const PatternId& pattern,
                                                      const std::string& title,
                                                      std::optional<int> revision);

// Archives a pattern, or unarchives it if `archived` is false. `revision` as above.
absl::StatusOr<patterns::PatternRecord> ArchivePattern(Application& application,
                                                       RequestContext& context,
                                                       const PatternId& pattern, bool archived,
                                                       std::optional<int> revision);
// FAILED_PRECONDITION PATTERN_ARCHIVED.
absl::Status RequireNotArchived(const patterns::PatternRecord& pattern);

// Checks and estimates the content and stores it as the pattern's next version; a version with
// errors is a draft. Also returns whether an exchange of the colours is offered.
struct SubmittedVersion {
  ReadVersion version;
  bool swap_colours_offered = false;
};
absl::StatusOr<SubmittedVersion> SubmitVersion(Application& application, RequestContext& context,
                                               VersionSubmission submission);

absl::StatusOr<ReadVersion> GetVersion(Application& application, RequestContext& context,
                                       const PatternId& pattern, int number);
absl::StatusOr<VersionPage> ListVersions(Application& application, RequestContext& context,
                                         const PatternId& pattern, int before_number, int limit);
absl::StatusOr<rows::WrittenPattern> WriteVersionRows(Application& application,
                                                      RequestContext& context,
                                                      const PatternId& pattern, int number,
                                                      rows::WriterSettings settings);
// Compares the designer's text of a version with its chart by the present rules.
// FAILED_PRECONDITION if there is no such text (NO_DESIGNER_TEXT) or the chart cannot be written as
// rows.
absl::StatusOr<rows::Comparison> CompareVersionRows(Application& application,
                                                    RequestContext& context,
                                                    const PatternId& pattern, int number);
absl::StatusOr<patterns::VersionDifference> CompareVersions(Application& application,
                                                            RequestContext& context,
                                                            const PatternId& pattern, int from,
                                                            int to);
// `materials` absent: the version's own; `size` empty: all sizes. Everyone who may see the version
// may estimate with its calibration.
struct EstimateQuestion {
  std::optional<SentMaterials> materials;
  estimate::AnotherMaker another_maker;          // how another maker differs from the materials
  std::optional<CalibrationChoice> calibration;  // in place of the materials'
  std::string size;
};
absl::StatusOr<std::vector<estimate::SizeEstimate>> EstimateVersion(
    Application& application, RequestContext& context, const PatternId& pattern, int number,
    const EstimateQuestion& question);

// Inside a transaction: a version that the caller may see. NOT_FOUND if it is absent, or was
// never sent to a caller who is only a tester.
absl::StatusOr<ReadVersion> LoadVisibleVersion(storage::Transaction& transaction,
                                               const access::Standing& standing,
                                               const PatternId& pattern, int number);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_PATTERNS_H_
