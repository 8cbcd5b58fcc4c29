// Releases of a pattern: gates, publishing, and what was published.
#ifndef ROWPROOF_SERVICES_USECASES_RELEASES_H_
#define ROWPROOF_SERVICES_USECASES_RELEASES_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/releases/gates.h"
#include "services/usecases/application.h"
#include "services/usecases/call_evidence.h"
#include "services/usecases/patterns.h"
#include "storage/releases.h"
#include "storage/test_calls.h"

namespace rowproof::usecases {

struct ReleasePage {
  std::vector<storage::ReleaseRow> releases;
  bool more = false;
};

// `id` empty: no call's tests count.
absl::StatusOr<std::vector<releases::Gate>> GetGates(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, int version,
                                                     const CallId& id);
// How the rows of a pattern sheet are written.
struct SheetStyle {
  // None: those of the version's own text, else US.
  std::optional<chart::Terms> terms;
  rows::RepeatStyle repeat_style = rows::RepeatStyle::kBrackets;
};

struct ReleaseOrder {
  PatternId pattern;
  int version = 0;
  CallId call;  // empty: no call's tests count
  std::vector<releases::Waiver> waivers;
  SheetStyle style;
  bool validate_only = false;  // nothing is stored, and no open gate is an error
};

// FAILED_PRECONDITION with a condition for each open gate; INVALID_ARGUMENT "waivers[i].code" for a
// gate waived twice or the chart's own, "waivers[i].reason", "sheet.terms" for terms that the
// version's own text does not have.
absl::StatusOr<storage::ReleaseRow> CreateRelease(Application& application, RequestContext& context,
                                                  const ReleaseOrder& order);
absl::StatusOr<storage::ReleaseRow> GetRelease(Application& application, RequestContext& context,
                                               const PatternId& pattern, const ReleaseId& id);
absl::StatusOr<ReleasePage> ListReleases(Application& application, RequestContext& context,
                                         const PatternId& pattern, std::optional<Moment> before,
                                         const ReleaseId& before_id, int limit);
// INVALID_ARGUMENT "reason"; FAILED_PRECONDITION RELEASE_STATE.
absl::StatusOr<storage::ReleaseRow> WithdrawRelease(Application& application,
                                                    RequestContext& context,
                                                    const PatternId& pattern, const ReleaseId& id,
                                                    const std::string& reason);
struct PublishedFile {
  storage::ReleaseFileRow file;
  bool withdrawn = false;
  int version_number = 0;
};
absl::StatusOr<PublishedFile> GetReleaseFile(Application& application, RequestContext& context,
                                             const PatternId& pattern, const ReleaseId& id,
                                             storage::ReleaseFileKind kind);

// Everything that gates and sheets of one version are made from.
struct ReleaseBasis {
  ReadVersion version;
  std::string designer;  // display name
  int64_t errata_undecided = 0;
  // Of the call; absent without one.
  std::optional<storage::TestCallRow> call;
  std::optional<CallEvidence> evidence;
  std::optional<storage::ReconciliationRow> reconciliation;  // the newest
  // The version that the errata sheet compares with: the one published before, or the one the test
  // call began with; absent if there is no older one.
  std::optional<ReadVersion> before;
};
// Inside a transaction. NOT_FOUND if the version is absent.
absl::StatusOr<ReleaseBasis> LoadReleaseBasis(Application& application,
                                              storage::Transaction& transaction,
                                              const storage::Admission& who,
                                              const PatternId& pattern, int version,
                                              const CallId& id);

releases::GateFacts FactsOf(const ReleaseBasis& basis);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_RELEASES_H_
