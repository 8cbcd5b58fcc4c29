// Watches the database, says so by grpc.health.v1, restarts the private cluster if it has stopped,
// asks for the end of its processes, and forgets old request ids.
#ifndef ROWPROOF_SERVICES_SERVER_HEALTH_H_
#define ROWPROOF_SERVICES_SERVER_HEALTH_H_

#include <grpcpp/health_check_service_interface.h>

#include <condition_variable>
#include <functional>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "storage/database/database.h"

namespace rowproof::server {

// Runs in its own thread from construction to destruction.
class HealthWatch {
 public:
  // `services` are the full names to report on, besides the health service's and the empty name.
  // `tend` is called once a second, `revive` at most once a second while the database does not
  // answer.
  HealthWatch(storage::Database& database, grpc::HealthCheckServiceInterface& health,
              const std::vector<std::string>& services, std::function<void()> tend,
              std::function<void()> revive);
  ~HealthWatch();
  HealthWatch(const HealthWatch&) = delete;
  HealthWatch& operator=(const HealthWatch&) = delete;

 private:
  void Watch();

  storage::Database& database_;
  grpc::HealthCheckServiceInterface& health_;
  const std::function<void()> tend_;
  const std::function<void()> revive_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool ending_ = false;
  std::thread thread_;
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_HEALTH_H_
