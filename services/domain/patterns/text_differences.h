// The differences of two texts, line by line. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_TEXT_DIFFERENCES_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_TEXT_DIFFERENCES_H_

#include <string>

#include "services/domain/patterns/field_list.h"

namespace rowproof::patterns {

// Line by line, aligned as rows are; `label` names the text ("introduction").
void AddTextDifferences(const std::string& field, const std::string& label, const std::string& was,
                        const std::string& now, FieldList& fields);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_TEXT_DIFFERENCES_H_
