// The database: a bounded pool of connections, and transactions that are run again if that can
// help.
#ifndef ROWPROOF_STORAGE_DATABASE_DATABASE_H_
#define ROWPROOF_STORAGE_DATABASE_DATABASE_H_

#include <chrono>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "storage/database/admission.h"

namespace rowproof::storage {

class Transaction;  // storage/database/transaction.h: for the .cc files of this folder

using Deadline = std::chrono::steady_clock::time_point;

struct DatabaseSettings {
  // Any libpq connection string; several hosts allowed.
  std::string connection;
  int pool_size = 8;
  // Longest wait for a free connection; or the deadline if that is sooner.
  std::chrono::milliseconds longest_wait{2000};
};

// What became of a run-again, for logs and metrics. Thread-safe.
class DatabaseObserver {
 public:
  virtual ~DatabaseObserver() = default;
  // A transaction failed with this SQLSTATE ("" for a lost connection, "overtaken" if another
  // write came first); neither carries values.
  virtual void Failed(const char* transaction, const std::string& sqlstate,
                      const std::string& constraint, bool again) = 0;
  // A transaction found a stored value that this build cannot read. `field` is its place within the
  // column ("" for the whole column), `resource` the name of what it belongs to; neither contains
  // values.
  virtual void Unreadable(const char* transaction, const std::string& table,
                          const std::string& column, const std::string& field,
                          const std::string& resource) = 0;
};

// Thread-safe. Outlives every call on it.
class Database {
 public:
  // Connects lazily: an unreachable server shows at the first use (UNAVAILABLE).
  Database(DatabaseSettings settings, Clock& clock, Sleeper& sleeper, DatabaseObserver& observer);
  ~Database();
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  using Body = std::function<absl::Status(Transaction&, const Admission&)>;

  // Admits the caller, locks the scope's root row, runs `body` in one READ COMMITTED transaction
  // and commits if it returns OK. Three messages besides the body's own: begin with admission, the
  // claim of the request id with the commit. With RootLock::kByStatement there are two:
  // admission, and the body's one statement, which is the whole transaction. Run again with
  // jittered backoff on serialization failure, deadlock, a claim made meanwhile (also one that a
  // refused body could not see), an overtaken statement or a lost connection, while the deadline
  // allows, so `body` changes nothing but the transaction and its locals. If scope.request was
  // carried out before, `body` runs with admission.earlier_result set and must only read.
  // UNAUTHENTICATED without a valid token if the scope asks for one; INVALID_ARGUMENT for a request
  // id used with another content; UNAVAILABLE, RESOURCE_EXHAUSTED, DEADLINE_EXCEEDED; DATA_LOSS if
  // the body, or the admission, meets a stored value that this build cannot read.
  absl::Status Write(const char* name, Deadline deadline, const TransactionScope& scope,
                     const Body& body);

  // The same in one read-only REPEATABLE READ snapshot; locks and claims nothing.
  absl::Status Read(const char* name, Deadline deadline, const TransactionScope& scope,
                    const Body& body);

  // Nothing waits for the database beyond `end`: what runs then fails as if its deadline had
  // passed, as does what comes after. For a server that shuts down.
  void EndAt(Deadline end);

  // One empty statement within a second: OK while the database answers.
  absl::Status Ping();

  Clock& clock() { return clock_; }

 private:
  class Pool;
  absl::Status Run(const char* name, Deadline deadline, const TransactionScope& scope,
                   const Body& body, bool write);

  Clock& clock_;
  Sleeper& sleeper_;
  DatabaseObserver& observer_;
  std::unique_ptr<Pool> pool_;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_DATABASE_H_
