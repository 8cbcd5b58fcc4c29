// A pattern as it is kept.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_PATTERN_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_PATTERN_H_

#include <optional>
#include <string>

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"

namespace rowproof::patterns {

struct PatternRecord {
  PatternId id;
  std::string title;
  AccountId designer;
  int version_count = 0;
  int revision = 0;
  Moment created_at;
  std::optional<Moment> archived_at = std::nullopt;
};

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_PATTERN_H_
