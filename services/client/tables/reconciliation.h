// A reconciliation for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_RECONCILIATION_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_RECONCILIATION_H_

#include <string>

#include "rowproof/v1/reconciliation.pb.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

// "yarn-a", "width".
std::string WordOf(const v1::Quantity& quantity);

// What to print, what is off, errata in clusters; with details also measurements, gauge, coverage.
std::string TextOf(const v1::Reconciliation& reconciliation, const Style& style);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_RECONCILIATION_H_
