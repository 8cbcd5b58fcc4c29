// Patterns. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_PATTERNS_H_
#define ROWPROOF_SERVICES_USECASES_PATTERNS_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/patterns/pattern.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

struct PatternPage {
  std::vector<patterns::PatternRecord> patterns;
  bool more = false;
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

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_PATTERNS_H_
