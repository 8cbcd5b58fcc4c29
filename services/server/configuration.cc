#include "services/server/configuration.h"

#include "services/addresses/loopback.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::server {
namespace {

absl::Status Between(const char* option, int value, int least, int most) {
  if (value >= least && value <= most) return absl::OkStatus();
  return InvalidField(option, std::to_string(value),
                      "between " + std::to_string(least) + " and " + std::to_string(most));
}

}  // namespace

std::string OwnMigrations() { return ROWPROOF_MIGRATIONS_DIR; }

absl::Status Validate(const Configuration& configuration) {
  if (configuration.tls_certificate_file.empty() != configuration.tls_key_file.empty()) {
    return InvalidField("--tls-certificate", configuration.tls_certificate_file,
                        "given together with --tls-key, or not at all");
  }
  const bool tls = !configuration.tls_certificate_file.empty();
  if (!configuration.client_certificates_file.empty() && !tls) {
    return InvalidField("--client-certificates", configuration.client_certificates_file,
                        "given together with --tls-certificate and --tls-key");
  }
  if (!tls && !addresses::IsLoopback(configuration.listen)) {
    return InvalidField("--listen", configuration.listen,
                        "a loopback address unless --tls-certificate and --tls-key are given: "
                        "tokens must not cross a network in plain text");
  }
  RETURN_IF_ERROR(Between("--pool", configuration.pool_size, 1, 200));
  RETURN_IF_ERROR(Between("--threads", configuration.threads, 2, 1000));
  return Between("--shutdown-seconds", configuration.shutdown_seconds, 0, 3600);
}

}  // namespace rowproof::server
