// Releases of a pattern: gates, publishing, and what was published.
#ifndef ROWPROOF_SERVICES_USECASES_RELEASES_H_
#define ROWPROOF_SERVICES_USECASES_RELEASES_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/technique.h"
#include "services/domain/names/names.h"
#include "services/domain/releases/gates.h"
#include "services/domain/releases/release.h"
#include "services/domain/sheets/pattern_sheet.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

struct ReleasePage {
  std::vector<releases::ReleaseRecord> releases;
  bool more = false;
};

// `id` empty: no call's tests count.
absl::StatusOr<std::vector<releases::Gate>> GetGates(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, int version,
                                                     const CallId& id);

struct ReleaseOrder {
  PatternId pattern;
  int version = 0;
  CallId call;  // empty: no call's tests count
  std::vector<releases::Waiver> waivers;
  sheets::SheetStyle style;
  bool validate_only = false;  // nothing is stored, and no open gate is an error
};

// FAILED_PRECONDITION with a condition for each open gate; INVALID_ARGUMENT "waivers[i].code" for a
// gate waived twice or the chart's own, "waivers[i].reason", "sheet.terms" for terms that the
// version's own text does not have.
absl::StatusOr<releases::ReleaseRecord> CreateRelease(Application& application,
                                                      RequestContext& context,
                                                      const ReleaseOrder& order);
absl::StatusOr<releases::ReleaseRecord> GetRelease(Application& application,
                                                   RequestContext& context,
                                                   const PatternId& pattern, const ReleaseId& id);
absl::StatusOr<ReleasePage> ListReleases(Application& application, RequestContext& context,
                                         const PatternId& pattern, std::optional<Moment> before,
                                         const ReleaseId& before_id, int limit);
// INVALID_ARGUMENT "reason"; FAILED_PRECONDITION RELEASE_STATE.
absl::StatusOr<releases::ReleaseRecord> WithdrawRelease(Application& application,
                                                        RequestContext& context,
                                                        const PatternId& pattern,
                                                        const ReleaseId& id,
                                                        const std::string& reason);
struct PublishedFile {
  releases::ReleaseFile file;
  bool withdrawn = false;
  int version_number = 0;
};
absl::StatusOr<PublishedFile> GetReleaseFile(Application& application, RequestContext& context,
                                             const PatternId& pattern, const ReleaseId& id,
                                             releases::ReleaseFileKind kind);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_RELEASES_H_
