// The bounded pool of connections, and what hangs up on a server that does not answer.
#include <pqxx/pqxx>
//
#include <sys/socket.h>
#include <unistd.h>

#include <csignal>
#include <optional>
#include <set>

#include "services/domain/errors.h"
#include "storage/database/watchdog.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

absl::Status Nothing(Transaction&, const Admission&) { return absl::OkStatus(); }

class Pool : public StorageTest {
 protected:
  void Open(int size, std::chrono::milliseconds longest_wait) {
    pooled_.emplace(DatabaseSettings{test_database_.connection(), size, longest_wait}, clock_,
                    sleeper_, observer_);
  }
  std::optional<Database> pooled_;
};

TEST_F(Pool, SaysWhenToComeAgainOnceItsConnectionsAreOutLongerThanTheLongestWait) {
  Open(1, std::chrono::milliseconds(20));
  absl::Status inner;
  EXPECT_TRUE(pooled_
                  ->Write("Outer", Later(), TransactionScope{},
                          [&](Transaction&, const Admission&) {
                            inner = pooled_->Read("Inner", Later(), TransactionScope{}, Nothing);
                            return absl::OkStatus();
                          })
                  .ok());
  EXPECT_EQ(inner.code(), absl::StatusCode::kResourceExhausted) << inner;
  EXPECT_EQ(DetailOf(inner).reason, "NO_CAPACITY");
  EXPECT_GT(DetailOf(inner).retry_after.count(), 0);
}

TEST_F(Pool, SaysThatTimeIsUpWhereTheDeadlineIsSoonerThanTheLongestWait) {
  Open(1, std::chrono::seconds(20));
  absl::Status inner;
  EXPECT_TRUE(pooled_
                  ->Write("Outer", Later(), TransactionScope{},
                          [&](Transaction&, const Admission&) {
                            inner = pooled_->Read("Inner", In(std::chrono::milliseconds(20)),
                                                  TransactionScope{}, Nothing);
                            return absl::OkStatus();
                          })
                  .ok());
  EXPECT_EQ(inner.code(), absl::StatusCode::kDeadlineExceeded) << inner;
}

TEST_F(Pool, LetsNothingWaitBeyondItsEnd) {
  Open(1, std::chrono::seconds(20));
  const absl::Status begun_before = pooled_->Write(
      "Sleeps", Later(), TransactionScope{}, [&](Transaction& transaction, const Admission&) {
        pooled_->EndAt(In(std::chrono::milliseconds(30)));
        transaction.work().exec("select pg_sleep(60)");
        return absl::OkStatus();
      });
  EXPECT_EQ(begun_before.code(), absl::StatusCode::kDeadlineExceeded) << begun_before;
  const absl::Status after = pooled_->Read("After", Later(), TransactionScope{}, Nothing);
  EXPECT_EQ(after.code(), absl::StatusCode::kDeadlineExceeded) << after;
}

TEST_F(Pool, LendsAConnectionAgainOnceItIsBackAndReplacesABrokenOne) {
  Open(1, std::chrono::milliseconds(500));
  std::set<std::string> backends;
  const Database::Body look = [&](Transaction& transaction, const Admission&) {
    backends.insert(transaction.work().exec("select pg_backend_pid()")[0][0].c_str());
    return absl::OkStatus();
  };
  for (int i = 0; i < 3; ++i)
    EXPECT_TRUE(pooled_->Read("Look", Later(), TransactionScope{}, look).ok());
  EXPECT_EQ(backends.size(), 1u);
  Execute("select pg_terminate_backend(" + *backends.begin() + ", 10000)");
  EXPECT_TRUE(pooled_->Read("Look", Later(), TransactionScope{}, look).ok());
  EXPECT_EQ(backends.size(), 2u);
}

TEST_F(Pool, LosesNoPlaceToFailures) {
  Open(1, std::chrono::milliseconds(500));
  for (int i = 0; i < 3; ++i) {
    EXPECT_FALSE(pooled_
                     ->Write("Fail", Later(), TransactionScope{},
                             [](Transaction& transaction, const Admission&) {
                               transaction.work().exec("select 1 / 0");
                               return absl::OkStatus();
                             })
                     .ok());
  }
  EXPECT_TRUE(pooled_->Ping().ok());
}

// A stopped process answers nothing, and ends no statement either.
class Stopped {
 public:
  explicit Stopped(pid_t process) : process_(process) { kill(process_, SIGSTOP); }
  ~Stopped() { kill(process_, SIGCONT); }
  Stopped(const Stopped&) = delete;
  Stopped& operator=(const Stopped&) = delete;

 private:
  const pid_t process_;
};

TEST_F(Pool, HangsUpOnAServerThatOutlivesTheDeadline) {
  std::optional<Stopped> stopped;
  const absl::Status status = database_.Write(
      "Stopped", In(std::chrono::milliseconds(500)), TransactionScope{},
      [&](Transaction& transaction, const Admission&) {
        stopped.emplace(transaction.work().exec("select pg_backend_pid()")[0][0].as<pid_t>());
        transaction.work().exec("select 1");
        return absl::OkStatus();
      });
  stopped.reset();
  EXPECT_EQ(status.code(), absl::StatusCode::kDeadlineExceeded) << status;
  ASSERT_EQ(observer_.entries().size(), 1u);
  EXPECT_EQ(observer_.entries()[0].sqlstate, "");
  EXPECT_FALSE(observer_.entries()[0].again);
  EXPECT_TRUE(database_.Ping().ok());
}

class SocketPair {
 public:
  SocketPair() { EXPECT_EQ(socketpair(AF_UNIX, SOCK_STREAM, 0, ends_), 0); }
  ~SocketPair() {
    close(ends_[0]);
    close(ends_[1]);
  }
  SocketPair(const SocketPair&) = delete;
  SocketPair& operator=(const SocketPair&) = delete;
  int near() const { return ends_[0]; }
  int far() const { return ends_[1]; }
  // Waits for the other end to be shut down.
  bool Ends() const {
    char byte = 0;
    return recv(near(), &byte, 1, 0) == 0;
  }
  bool IsOpen() const {
    char byte = 0;
    return recv(near(), &byte, 1, MSG_DONTWAIT) < 0;
  }

 private:
  int ends_[2] = {-1, -1};
};

TEST(Watchdog, CutsEachSocketInTurnAndLeavesThoseWhoseWatchIsOver) {
  const auto now = std::chrono::steady_clock::now();
  SocketPair later;
  SocketPair first;
  SocketPair over;
  SocketPair far_off;
  Watchdog watchdog;
  const Watchdog::Watch watch_far_off(watchdog, far_off.near(), now + std::chrono::hours(1));
  const Watchdog::Watch watch_later(watchdog, later.near(), now + std::chrono::milliseconds(30));
  { const Watchdog::Watch watch_over(watchdog, over.near(), now + std::chrono::milliseconds(5)); }
  const Watchdog::Watch watch_first(watchdog, first.near(), now + std::chrono::milliseconds(10));
  EXPECT_TRUE(first.Ends());
  EXPECT_TRUE(later.Ends());
  EXPECT_TRUE(far_off.IsOpen());
  EXPECT_TRUE(over.IsOpen());
}

TEST(Watchdog, CutsEverySocketAtItsEnd) {
  SocketPair before;
  SocketPair after;
  const auto now = std::chrono::steady_clock::now();
  Watchdog watchdog;
  const Watchdog::Watch watch_before(watchdog, before.near(), now + std::chrono::hours(1));
  EXPECT_EQ(watchdog.end(), Watchdog::Time::max());
  watchdog.CutAllAt(now + std::chrono::milliseconds(10));
  watchdog.CutAllAt(now + std::chrono::hours(2));  // the first end holds
  EXPECT_EQ(watchdog.end(), now + std::chrono::milliseconds(10));
  EXPECT_TRUE(before.Ends());
  const Watchdog::Watch watch_after(watchdog, after.near(), now + std::chrono::hours(1));
  EXPECT_TRUE(after.Ends());
}

TEST(Watchdog, CutsASocketWhoseTimeHasPassedAlready) {
  SocketPair sockets;
  Watchdog watchdog;
  const Watchdog::Watch watch(watchdog, sockets.near(), std::chrono::steady_clock::now());
  EXPECT_TRUE(sockets.Ends());
}

}  // namespace
}  // namespace rowproof::storage
