// The only place that writes log lines: one for each request served, and one for each transaction
// that failed.
#ifndef ROWPROOF_SERVICES_SERVER_LOGS_H_
#define ROWPROOF_SERVICES_SERVER_LOGS_H_

#include <string>

#include "services/rpc/dispatcher.h"
#include "storage/database/database.h"

namespace rowproof::server {

// Sets the process's log, and gRPC's, to standard error: UTC time, level, then key=value pairs.
// Nobody waits for who reads it (LogWriter).
void StartLog(const std::string& level);
// Waits until all of it is written, a second at most.
void FlushLog();

// Thread-safe.
class RequestLog : public rpc::RequestObserver {
 public:
  void Served(const rpc::ServedRequest& request) override;
};

// Thread-safe.
class DatabaseLog : public storage::DatabaseObserver {
 public:
  void Failed(const char* transaction, const std::string& sqlstate, const std::string& constraint,
              bool again) override;
  void Unreadable(const char* transaction, const std::string& table, const std::string& column,
                  const std::string& field, const std::string& resource) override;
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_LOGS_H_
