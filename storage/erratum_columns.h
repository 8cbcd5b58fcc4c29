// The columns of erratum_as_reported.
#ifndef ROWPROOF_STORAGE_ERRATUM_COLUMNS_H_
#define ROWPROOF_STORAGE_ERRATUM_COLUMNS_H_

#include "storage/errata.h"

namespace pqxx {
class row;
}  // namespace pqxx

namespace rowproof::storage {

inline constexpr int kErratumColumns = 25;

// From the view's columns in their order; columns that a query adds come after them.
faults::ErratumRecord ErratumFrom(const pqxx::row& row);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ERRATUM_COLUMNS_H_
