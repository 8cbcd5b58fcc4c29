// A version of a pattern as it is kept.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_VERSION_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_VERSION_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/chart/check/findings.h"
#include "services/domain/clock.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/identifiers.h"
#include "services/domain/rows/comparing/comparison.h"

namespace rowproof::patterns {

// Lists leave `content`, findings and estimates out.
struct VersionRecord {
  PatternId pattern;
  int number = 0;
  int parent_number = 0;
  AccountId author;
  Moment created_at;
  std::string note;
  Sha256 content_hash{};
  std::string content;  // canonical encoding
  int rules_version = 0;
  chart::CheckResult check;
  int model_version = 0;
  std::vector<estimate::SizeEstimate> estimates;
  // The comparison of the designer's text with the chart, without what storage leaves out
  // and without the sizes' names; none if it was not compared.
  int comparison_version = 0;
  std::optional<rows::Comparison> comparison;
};

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_VERSION_H_
