#include "services/server/configuration.h"

#include <sys/un.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <string_view>
#include <system_error>

#include "services/addresses/loopback.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::server {
namespace {

constexpr std::string_view kLogLevels[] = {"trace", "debug", "info", "warn", "error", "off"};

absl::Status Between(const char* option, int value, int least, int most) {
  if (value >= least && value <= most) return absl::OkStatus();
  return InvalidField(option, std::to_string(value),
                      "between " + std::to_string(least) + " and " + std::to_string(most));
}

absl::Status CheckSocketPath(const std::string& listen, const std::string& path) {
  if (path.empty()) return absl::OkStatus();
  if (path.size() >= sizeof(sockaddr_un::sun_path)) {
    return InvalidField("--listen", listen, "a path of at most 107 bytes");
  }
  const auto folder = std::filesystem::absolute(path).parent_path();
  std::error_code unknown;
  if (std::filesystem::is_directory(folder, unknown)) return absl::OkStatus();
  return InvalidField("--listen", listen, "a path in a folder that exists");
}

}  // namespace

absl::StatusOr<ListenAddress> ParseListenAddress(const std::string& listen) {
  constexpr std::string_view kUnix = "unix:";
  ListenAddress address;
  if (listen.starts_with(kUnix) && listen.size() > kUnix.size()) {
    address.path = listen.substr(kUnix.size());
    return address;
  }
  const size_t colon = listen.rfind(':');
  std::string host = listen.substr(0, colon);
  const bool bracketed = host.size() > 2 && host.front() == '[' && host.back() == ']';
  if (bracketed) host = host.substr(1, host.size() - 2);
  const bool is_host = colon != std::string::npos && !host.empty() &&
                       (bracketed || host.find(':') == std::string::npos);
  const std::string port = is_host ? listen.substr(colon + 1) : "";
  const bool is_port = !port.empty() && port.size() <= 5 &&
                       port.find_first_not_of("0123456789") == std::string::npos &&
                       std::stoi(port) <= 65535;
  if (!is_port) {
    return InvalidField("--listen", listen,
                        "ADDRESS:PORT with a port from 0 to 65535, such as 127.0.0.1:7420 or "
                        "[::1]:7420, or unix:PATH");
  }
  address.host = host;
  address.port = std::stoi(port);
  return address;
}

std::string OwnMigrations() { return ROWPROOF_MIGRATIONS_DIR; }

absl::Status Validate(const Configuration& configuration) {
  if (configuration.tls_certificate_file.empty() != configuration.tls_key_file.empty()) {
    return configuration.tls_key_file.empty()
               ? InvalidField("--tls-certificate", configuration.tls_certificate_file,
                              "given together with --tls-key, or not at all")
               : InvalidField("--tls-key", configuration.tls_key_file,
                              "given together with --tls-certificate, or not at all");
  }
  ASSIGN_OR_RETURN(const auto address, ParseListenAddress(configuration.listen));
  RETURN_IF_ERROR(CheckSocketPath(configuration.listen, address.path));
  if (const std::string& level = configuration.log_level;
      std::find(std::begin(kLogLevels), std::end(kLogLevels), level) == std::end(kLogLevels)) {
    return InvalidField("--log-level", level, "trace, debug, info, warn, error or off");
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
  if (configuration.memory_mib != 0) {
    RETURN_IF_ERROR(Between("--memory-mib", configuration.memory_mib, 256, 1 << 20));
  }
  return Between("--shutdown-seconds", configuration.shutdown_seconds, 0, 3600);
}

}  // namespace rowproof::server
