// A reconciliation for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_RECONCILIATION_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_RECONCILIATION_H_

#include <string>

#include "rowproof/v1/reconciliation.pb.h"

namespace rowproof::client {

// What to print, what is off, flagged measurements, gauge, errata in clusters, coverage.
std::string TextOf(const v1::Reconciliation& reconciliation);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_RECONCILIATION_H_
