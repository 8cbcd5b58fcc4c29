// What the errata sheet says of each accepted fault. Thread-safe but for the readings.
#ifndef ROWPROOF_SERVICES_DOMAIN_SHEETS_ERRATA_ENTRIES_H_
#define ROWPROOF_SERVICES_DOMAIN_SHEETS_ERRATA_ENTRIES_H_

#include <map>
#include <string>
#include <vector>

#include "services/domain/faults/erratum.h"
#include "services/domain/patterns/readings.h"
#include "services/domain/sheets/errata_sheet.h"

namespace rowproof::sheets {

// One entry for each accepted fault, by cluster, version and row: reports of one fault in the same
// row of the same version are joined. `cluster_of` has every accepted erratum's identifier.
std::vector<ErrataEntry> AcceptedEntries(const std::vector<faults::ErratumRecord>& errata,
                                         const std::map<std::string, size_t>& cluster_of,
                                         patterns::Readings& readings);

}  // namespace rowproof::sheets

#endif  // ROWPROOF_SERVICES_DOMAIN_SHEETS_ERRATA_ENTRIES_H_
