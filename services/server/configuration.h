// What the operator sets on the command line.
#ifndef ROWPROOF_SERVICES_SERVER_CONFIGURATION_H_
#define ROWPROOF_SERVICES_SERVER_CONFIGURATION_H_

#include <string>

#include "absl/status/status.h"
#include "absl/status/statusor.h"

namespace rowproof::server {

// The folder of the migrations in the sources that this program was built from.
std::string OwnMigrations();

struct Configuration {
  std::string var = "var";  // folder of the private cluster and of the address file
  std::string database;     // libpq connection string; empty: the private cluster
  std::string listen = "127.0.0.1:7420";
  std::string tls_certificate_file;
  std::string tls_key_file;
  std::string client_certificates_file;  // authorities that clients' certificates must come from
  std::string postgres_programs = "/usr/lib/postgresql/15/bin";
  std::string migrations = OwnMigrations();
  int pool_size = 8;
  int threads = 64;
  int memory_mib = 3072;      // the server starts again before it has that much; 0: no limit
  int shutdown_seconds = 30;  // granted to requests in flight
  std::string log_level = "info";
};

// Where to listen: a host and a port, or the path of a Unix socket.
struct ListenAddress {
  std::string host;  // without the brackets of IPv6; empty: a Unix socket
  int port = 0;      // 0: a free one
  std::string path;
};

// INVALID_ARGUMENT of --listen unless it is ADDRESS:PORT, [IPV6]:PORT or unix:PATH.
absl::StatusOr<ListenAddress> ParseListenAddress(const std::string& listen);

// INVALID_ARGUMENT with the option's name: a key without a certificate, plain text on an address
// that is not loopback, an address that is none, an unknown word, numbers out of range.
absl::Status Validate(const Configuration& configuration);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_CONFIGURATION_H_
