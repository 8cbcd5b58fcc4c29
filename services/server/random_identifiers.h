// Identifiers and secrets that nobody can foresee.
#ifndef ROWPROOF_SERVICES_SERVER_RANDOM_IDENTIFIERS_H_
#define ROWPROOF_SERVICES_SERVER_RANDOM_IDENTIFIERS_H_

#include <string>

#include "services/domain/identifiers.h"

namespace rowproof::server {

// Random numbers by OpenSSL, seeded by the system. Thread-safe.
class RandomIdentifiers : public IdentifierSource {
 public:
  std::string NewIdentifier() override;
  std::string NewSecret() override;
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_RANDOM_IDENTIFIERS_H_
