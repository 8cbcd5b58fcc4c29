// The server: database, services, health, and the order in which they start and stop.
#ifndef ROWPROOF_SERVICES_SERVER_SERVER_H_
#define ROWPROOF_SERVICES_SERVER_SERVER_H_

#include <memory>
#include <string>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/server/configuration.h"

namespace rowproof::server {

// One thread at a time.
class Server {
 public:
  // Starts the database (a private cluster is migrated, any other only checked) and the services.
  // Files of keys and certificates are read before root is left.
  static absl::StatusOr<std::unique_ptr<Server>> Start(const Configuration& configuration);
  // Refuses new requests, lets those in flight finish within `shutdown_seconds`, stops the private
  // cluster.
  ~Server();

  // Where it listens, with the port that was chosen for 0.
  std::string address() const;

 private:
  struct Parts;
  explicit Server(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

// One run of an operator's command against the configured database; starts a private cluster that
// does not run, and stops it again.
absl::StatusOr<int> MigrateOnly(const Configuration& configuration);
// Prints nothing; returns the account's name and its token.
struct NewDesigner {
  std::string account;
  std::string secret;
};
absl::StatusOr<NewDesigner> CreateDesigner(const Configuration& configuration,
                                           const std::string& display_name,
                                           const std::string& mail_address);
// Gives an account, accounts/{account}, the right to create patterns.
absl::StatusOr<int> AllowPatterns(const Configuration& configuration, const std::string& account);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_SERVER_H_
