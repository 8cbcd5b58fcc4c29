// The differences of two versions' materials. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_MATERIALS_DIFFERENCES_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_MATERIALS_DIFFERENCES_H_

#include "services/domain/estimate/materials.h"
#include "services/domain/patterns/field_list.h"

namespace rowproof::patterns {

// In the order of the structure.
void AddMaterialsDifferences(const estimate::Materials& was, const estimate::Materials& now,
                             FieldList& fields);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_MATERIALS_DIFFERENCES_H_
