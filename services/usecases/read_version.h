// Versions of a pattern, read, compared and estimated. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_READ_VERSION_H_
#define ROWPROOF_SERVICES_USECASES_READ_VERSION_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/access/permissions.h"
#include "services/domain/estimate/another_maker.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/version.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/rows/writing/writer.h"
#include "services/usecases/application.h"
#include "services/usecases/charts/sent_materials.h"

namespace rowproof::usecases {

struct VersionPage {
  std::vector<patterns::VersionRecord> versions;
  bool more = false;
};

// A version with its content decoded.
struct ReadVersion {
  patterns::VersionRecord row;
  patterns::VersionContent content;
};

absl::StatusOr<ReadVersion> GetVersion(Application& application, RequestContext& context,
                                       const PatternId& pattern, int number);
absl::StatusOr<VersionPage> ListVersions(Application& application, RequestContext& context,
                                         const PatternId& pattern, int before_number, int limit);
absl::StatusOr<rows::WrittenPattern> WriteVersionRows(Application& application,
                                                      RequestContext& context,
                                                      const PatternId& pattern, int number,
                                                      const rows::RowStyle& asked);
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

#endif  // ROWPROOF_SERVICES_USECASES_READ_VERSION_H_
