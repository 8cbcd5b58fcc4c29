#include "storage/database/database.h"

#include <algorithm>
#include <climits>
#include <condition_variable>
#include <mutex>
#include <pqxx/pqxx>
#include <random>
#include <utility>
#include <vector>

#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "storage/database/begin_and_commit.h"
#include "storage/database/connection.h"
#include "storage/database/failure.h"
#include "storage/database/transaction.h"
#include "storage/database/watchdog.h"
#include "storage/stored_text.h"
#include "storage/unreadable_value.h"

namespace rowproof::storage {
namespace {

// After the deadline, for the server's own statement_timeout to be heard.
constexpr std::chrono::milliseconds kGrace{300};
constexpr std::chrono::microseconds kFirstBackoff{2000};
constexpr std::chrono::microseconds kLongestBackoff{250'000};

std::chrono::milliseconds Left(Deadline deadline) {
  return std::chrono::duration_cast<std::chrono::milliseconds>(deadline -
                                                               std::chrono::steady_clock::now());
}

// Doubled each time, then a random half to whole of it, so that rivals do not meet again.
class Backoff {
 public:
  std::chrono::microseconds Next() {
    const auto ceiling = current_;
    current_ = std::min(current_ * 2, kLongestBackoff);
    // Asked for here, since most transactions never wait.
    std::random_device random;
    std::uniform_int_distribution<int64_t> pick(ceiling.count() / 2, ceiling.count());
    return std::chrono::microseconds(pick(random));
  }

 private:
  std::chrono::microseconds current_ = kFirstBackoff;
};

}  // namespace

Connection::Connection(const std::string& connection_string) : session(connection_string) {
  // A silent reconnect would lose the transaction and the prepared statements. Version 7 has none,
  // which is why 6.4 calls the switch deprecated.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"
  session.inhibit_reactivation(true);
#pragma GCC diagnostic pop
  pqxx::nontransaction setup(session);
  // A plan is kept as long as the connection. One that was made while a table was small would read
  // the whole table ever after; every statement of ours finds its rows by a key, whatever its
  // parameters, so that planning it again for each would only cost time.
  setup.exec(
      "set client_encoding = 'UTF8'; set timezone = 'UTC'; set jit = off; "
      "set enable_seqscan = off; set plan_cache_mode = force_generic_plan; " +
      PrepareAdmission());
}

int Admission::earlier_number() const {
  return ReadRecord(
      "request_claim", [&] { return ToString(AccountName{standing.account}); },
      [&] { return IntegerOf(earlier_result.value_or(""), "result", 1, INT_MAX); });
}

void Connection::Prepare(const Statement& statement) {
  if (prepared.insert(statement.name).second) session.prepare(statement.name, statement.sql);
}

void Transaction::Prepare(const Statement& statement) { connection_.Prepare(statement); }

// Connections at rest, and how many exist. Thread-safe.
class Database::Pool {
 public:
  explicit Pool(DatabaseSettings settings) : settings_(std::move(settings)) {}

  // Null after `longest_wait` or the deadline without a free connection. Throws pqxx's exceptions
  // if a new one cannot be made.
  std::unique_ptr<Connection> Take(Deadline deadline) {
    std::unique_lock lock(mutex_);
    const auto until =
        std::min(deadline, std::chrono::steady_clock::now() + settings_.longest_wait);
    if (!free_.wait_until(lock, until,
                          [this] { return !resting_.empty() || made_ < settings_.pool_size; })) {
      return nullptr;
    }
    if (!resting_.empty()) {
      std::unique_ptr<Connection> connection = std::move(resting_.back());
      resting_.pop_back();
      return connection;
    }
    ++made_;
    lock.unlock();
    try {
      return std::make_unique<Connection>(settings_.connection);
    } catch (...) {
      Dropped();
      throw;
    }
  }

  void Return(std::unique_ptr<Connection> connection) {
    const std::lock_guard lock(mutex_);
    resting_.push_back(std::move(connection));
    free_.notify_one();
  }

  void Dropped() {
    const std::lock_guard lock(mutex_);
    --made_;
    free_.notify_one();
  }

  std::chrono::milliseconds longest_wait() const { return settings_.longest_wait; }
  Watchdog& watchdog() { return watchdog_; }

 private:
  const DatabaseSettings settings_;
  Watchdog watchdog_;
  std::mutex mutex_;
  std::condition_variable free_;
  std::vector<std::unique_ptr<Connection>> resting_;
  int made_ = 0;
};

namespace {

// A connection for one run. Goes back to the pool only if the transaction ended cleanly.
template <typename AnyPool>
class Loan {
 public:
  Loan(AnyPool& pool, std::unique_ptr<Connection> connection)
      : pool_(pool), connection_(std::move(connection)) {}
  ~Loan() {
    if (connection_ == nullptr) return;
    if (clean_) {
      pool_.Return(std::move(connection_));
    } else {
      connection_.reset();
      pool_.Dropped();
    }
  }
  Loan(const Loan&) = delete;
  Loan& operator=(const Loan&) = delete;
  Connection& operator*() { return *connection_; }
  void Clean() { clean_ = true; }

 private:
  AnyPool& pool_;
  std::unique_ptr<Connection> connection_;
  bool clean_ = false;
};

absl::Status CheckClaim(const TransactionScope& scope, const Admission& admission,
                        const std::string& method, const Sha256& digest) {
  if (!scope.request.has_value() || !admission.earlier_result.has_value()) return absl::OkStatus();
  const bool same = method == scope.request->method && digest == scope.request->digest;
  return same ? absl::OkStatus() : RequestIdReused();
}

// Whether the request id was claimed after admission looked for it: by a first run for whose lock
// this one waited, and which made what the body now refused.
bool IsClaimedMeanwhile(Connection& connection, pqxx::nontransaction& work, const Claim& claim) {
  constexpr Statement kIsClaimed{
      "is_claimed", "select from request_claim where account_id = $1 and request_id = $2"};
  connection.Prepare(kIsClaimed);
  return !work.exec_prepared(kIsClaimed.name, claim.account, claim.request_id).empty();
}

// One run. OK or the body's own refusal; throws pqxx's exceptions, and Overtaken if the refusal is
// no answer because the same request has been carried out meanwhile.
absl::Status RunOnce(Connection& connection, Deadline deadline, const TransactionScope& scope,
                     const Database::Body& body, bool write, Moment now, bool* clean) {
  pqxx::nontransaction work(connection.session);
  std::string claimed_method;
  Sha256 claimed_digest{};
  Admission admission = BeginAdmitted(connection, work, scope, write, Left(deadline), now,
                                      &claimed_method, &claimed_digest);
  if (!scope.request.has_value()) admission.earlier_result.reset();
  absl::Status status = CheckClaim(scope, admission, claimed_method, claimed_digest);
  if (status.ok() && scope.token_sha256.has_value() && !admission.standing.signed_in()) {
    status = NotSignedIn();
  }
  std::optional<Claim> claim;
  if (write && scope.request.has_value()) {
    claim = {admission.standing.account.value, scope.request->request_id, scope.request->method,
             scope.request->digest, scope.pattern};
  }
  const std::optional<Claim> asked =
      claim.has_value() && !scope.request->is_made ? claim : std::nullopt;
  Transaction transaction(connection, work, now, std::move(claim));
  if (status.ok()) status = body(transaction, admission);
  const bool repeated = admission.earlier_result.has_value();
  if (write && scope.lock == RootLock::kByStatement) {
    ROWPROOF_CHECK(!status.ok() || repeated || transaction.is_written());
  } else if (status.ok() && write && !repeated && transaction.claim().has_value()) {
    CommitWithClaim(work, *transaction.claim(), transaction.result(), now);
  } else if (status.ok() && write && (!repeated || transaction.commits_when_repeated())) {
    work.exec("commit");
  } else {
    work.exec("rollback");
  }
  if (!status.ok() && !repeated && asked.has_value() &&
      IsClaimedMeanwhile(connection, work, *asked)) {
    throw Overtaken();
  }
  *clean = true;
  return status;
}

}  // namespace

Database::Database(DatabaseSettings settings, Clock& clock, Sleeper& sleeper,
                   DatabaseObserver& observer)
    : clock_(clock),
      sleeper_(sleeper),
      observer_(observer),
      pool_(std::make_unique<Pool>(std::move(settings))) {}

Database::~Database() = default;

absl::Status Database::Run(const char* name, Deadline deadline, const TransactionScope& scope,
                           const Body& body, bool write) {
  const Deadline given = deadline;
  Backoff backoff;
  // A database that is away is waited for shortly only: the caller knows better what to do.
  const auto give_up = std::chrono::steady_clock::now() + pool_->longest_wait();
  while (true) {
    deadline = std::min(given, pool_->watchdog().end());
    if (Left(deadline).count() <= 0) return TimeUp();
    Failure failure;
    try {
      std::unique_ptr<Connection> connection = pool_->Take(deadline);
      if (connection == nullptr) {
        return Left(deadline).count() <= 0
                   ? TimeUp()
                   : NoCapacity("the database", std::chrono::milliseconds(200));
      }
      Loan<Pool> loan(*pool_, std::move(connection));
      const Watchdog::Watch watch(pool_->watchdog(), (*loan).session.sock(), deadline + kGrace);
      bool clean = false;
      absl::Status status;
      try {
        status = RunOnce(*loan, deadline, scope, body, write, clock_.Now(), &clean);
      } catch (const Overtaken&) {
        loan.Clean();
        throw;
      } catch (const UnreadableValue& value) {
        if (!write || scope.lock != RootLock::kByStatement) {
          pqxx::nontransaction((*loan).session).exec("rollback");
        }
        loan.Clean();
        observer_.Unreadable(name, value.table(), value.column(), value.field(), value.resource());
        return StoredValueUnreadable(value.table(), value.column(), value.resource());
      }
      if (clean) loan.Clean();
      return status;
    } catch (const std::exception&) {
      failure = FailureOf(std::current_exception());
    }
    deadline = std::min(given, pool_->watchdog().end());
    const auto wait = backoff.Next();
    const auto resumed = std::chrono::steady_clock::now() + wait;
    const bool again =
        failure.again && resumed < deadline && (!failure.connection_lost || resumed < give_up);
    observer_.Failed(name, failure.sqlstate, failure.constraint, again);
    if (!again) return Left(deadline).count() <= 0 ? TimeUp() : failure.status;
    sleeper_.SleepUntil(resumed);
  }
}

absl::Status Database::Write(const char* name, Deadline deadline, const TransactionScope& scope,
                             const Body& body) {
  return Run(name, deadline, scope, body, true);
}

absl::Status Database::Read(const char* name, Deadline deadline, const TransactionScope& scope,
                            const Body& body) {
  return Run(name, deadline, scope, body, false);
}

void Database::EndAt(Deadline end) { pool_->watchdog().CutAllAt(end); }

absl::Status Database::Ping() {
  const Deadline deadline = std::chrono::steady_clock::now() + std::chrono::seconds(1);
  return Read("ping", deadline, TransactionScope{},
              [](Transaction&, const Admission&) { return absl::OkStatus(); });
}

}  // namespace rowproof::storage
