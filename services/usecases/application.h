// The parts of the application, which every use case is given.
#ifndef ROWPROOF_SERVICES_USECASES_APPLICATION_H_
#define ROWPROOF_SERVICES_USECASES_APPLICATION_H_

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "services/usecases/request_context.h"
#include "services/usecases/version_cache.h"

// Only the .cc files of this layer see what these are.
namespace rowproof::storage {
class Database;
class Transaction;
struct Admission;
}  // namespace rowproof::storage

namespace rowproof::usecases {

// Parts that live as long as the server. Thread-safe.
struct Application {
  storage::Database& database;
  IdentifierSource& identifiers;
  Clock& clock;
  VersionCache& versions;
};

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_APPLICATION_H_
