// The files of keys and certificates, read and judged before anything is started with them.
#ifndef ROWPROOF_SERVICES_SERVER_TLS_FILES_H_
#define ROWPROOF_SERVICES_SERVER_TLS_FILES_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/server/configuration.h"

namespace rowproof::server {

// Whole PEM files; all empty without TLS.
struct TlsFiles {
  std::string certificate;
  std::string key;
  std::string authorities;  // empty: clients need no certificate
};

// INVALID_ARGUMENT with the option's name: a file that cannot be read, holds no certificate or no
// private key that can be used without a password, or a key that is another certificate's. gRPC
// would only say that it cannot listen.
absl::StatusOr<TlsFiles> ReadTlsFiles(const Configuration& configuration);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_TLS_FILES_H_
