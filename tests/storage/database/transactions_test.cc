// What a transaction survives: serialization failures, deadlocks, lost connections; and what it
// does not.
#include <gmock/gmock.h>

#include <pqxx/pqxx>
//
#include <atomic>
#include <barrier>
#include <optional>
#include <thread>

#include "services/domain/errors.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

using Entry = testing::RecordingObserver::Entry;

class Transactions : public StorageTest {
 protected:
  static void Mark(Transaction& transaction, const std::string& name) {
    transaction.work().exec("insert into mark values ('" + name + "')");
  }
  static void Raise(Transaction& transaction, const std::string& sqlstate) {
    transaction.work().exec("do $$ begin raise exception 'secret words' using errcode = '" +
                            sqlstate + "'; end $$");
  }
  static std::string BackendOf(Transaction& transaction) {
    return transaction.work().exec("select pg_backend_pid()")[0][0].c_str();
  }
};

TEST_F(Transactions, CommitWhatTheBodyWrote) {
  EXPECT_TRUE(Write([](Transaction& transaction, const Admission&) {
                Mark(transaction, "kept");
                return absl::OkStatus();
              }).ok());
  EXPECT_EQ(Marks("kept"), "1");
}

TEST_F(Transactions, LeaveNothingOfARefusedBody) {
  const absl::Status status = Write([](Transaction& transaction, const Admission&) {
    Mark(transaction, "refused");
    return StaleEtag("patterns/a");
  });
  EXPECT_EQ(DetailOf(status).reason, "STALE_ETAG");
  EXPECT_EQ(Marks("refused"), "0");
  EXPECT_TRUE(observer_.entries().empty());
}

TEST_F(Transactions, RunAgainAfterASerializationFailure) {
  int runs = 0;
  const absl::Status status = Write([&](Transaction& transaction, const Admission&) {
    Mark(transaction, "once");
    if (++runs < 3) Raise(transaction, "40001");
    return absl::OkStatus();
  });
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_EQ(runs, 3);
  EXPECT_EQ(Marks("once"), "1");
  EXPECT_EQ(sleeper_.count(), 2);
  const Entry again{"Test", "40001", "", true};
  EXPECT_EQ(observer_.entries(), (std::vector<Entry>{again, again}));
}

TEST_F(Transactions, RunAgainAfterADeadlock) {
  Execute("insert into mark values ('first'), ('second')");
  std::barrier both_hold_one(2);
  std::atomic<int> runs{0};
  const auto touch = [&](const std::string& first, const std::string& second) {
    int own_runs = 0;
    return Write([&, first, second](Transaction& transaction, const Admission&) {
      ++runs;
      transaction.work().exec("set local deadlock_timeout = '5ms'");
      transaction.work().exec("update mark set name = name where name = '" + first + "'");
      if (++own_runs == 1) both_hold_one.arrive_and_wait();
      transaction.work().exec("update mark set name = name where name = '" + second + "'");
      return absl::OkStatus();
    });
  };
  absl::Status other;
  std::thread rival([&] { other = touch("second", "first"); });
  const absl::Status status = touch("first", "second");
  rival.join();
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_TRUE(other.ok()) << other;
  EXPECT_EQ(runs, 3);
  EXPECT_EQ(observer_.entries(), (std::vector<Entry>{{"Test", "40P01", "", true}}));
}

TEST_F(Transactions, RunAgainAfterTheServersProcessWasEnded) {
  int runs = 0;
  std::string ended;
  std::string survivor;
  const absl::Status status = Write([&](Transaction& transaction, const Admission&) {
    (runs == 0 ? ended : survivor) = BackendOf(transaction);
    Mark(transaction, "once");
    // Waits for the end, so that the next statement is the first to notice.
    if (++runs == 1) Execute("select pg_terminate_backend(" + ended + ", 10000)");
    Mark(transaction, "twice");
    return absl::OkStatus();
  });
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_EQ(runs, 2);
  EXPECT_NE(ended, survivor);
  EXPECT_EQ(Marks("once"), "1");
  EXPECT_EQ(Marks("twice"), "1");
}

TEST_F(Transactions, RunAgainWhereTheServersProcessEndsBetweenBodyAndCommit) {
  int runs = 0;
  const absl::Status status = Write([&](Transaction& transaction, const Admission&) {
    Mark(transaction, "once");
    if (++runs == 1) Execute("select pg_terminate_backend(" + BackendOf(transaction) + ", 10000)");
    return absl::OkStatus();
  });
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_EQ(runs, 2);
  EXPECT_EQ(Marks("once"), "1");
}

TEST_F(Transactions, RunAgainWhereTheServersProcessEndsWithinTheCommit) {
  // A deferred trigger runs in the commit; a sequence keeps its count through the failure.
  Execute(
      "create sequence commits; create function end_once() returns trigger language plpgsql as "
      "$$ begin if nextval('commits') = 1 then perform pg_terminate_backend(pg_backend_pid()); "
      "perform pg_sleep(10); end if; return null; end $$; "
      "create constraint trigger at_commit after insert on mark deferrable initially deferred "
      "for each row execute function end_once()");
  int runs = 0;
  const absl::Status status = Write([&](Transaction& transaction, const Admission&) {
    ++runs;
    Mark(transaction, "once");
    return absl::OkStatus();
  });
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_EQ(runs, 2);
  EXPECT_EQ(Marks("once"), "1");
}

TEST_F(Transactions, AreNotRunAgainAfterAnyOtherError) {
  for (const std::string state : {"23505", "22003", "XX000", "42601"}) {
    int runs = 0;
    const absl::Status status = Write([&](Transaction& transaction, const Admission&) {
      ++runs;
      Raise(transaction, state);
      return absl::OkStatus();
    });
    EXPECT_EQ(status.code(), absl::StatusCode::kInternal) << state;
    EXPECT_EQ(DetailOf(status).metadata.at("incident"), "sqlstate-" + state);
    EXPECT_EQ(status.ToString().find("secret"), std::string::npos);
    EXPECT_EQ(runs, 1);
  }
}

TEST_F(Transactions, AreRunAgainOnlyWhileTheDeadlineAllows) {
  int runs = 0;
  const Deadline deadline = In(std::chrono::milliseconds(800));
  const absl::Status status = database_.Write("Test", deadline, TransactionScope{},
                                              [&](Transaction& transaction, const Admission&) {
                                                ++runs;
                                                Raise(transaction, "40001");
                                                return absl::OkStatus();
                                              });
  EXPECT_FALSE(status.ok());
  const std::vector<Entry> entries = observer_.entries();
  ASSERT_FALSE(entries.empty());
  EXPECT_EQ(sleeper_.count(), static_cast<int>(entries.size()) - 1);
  // The time may be up before the last run reaches the body.
  EXPECT_THAT(static_cast<int>(entries.size()) - runs, ::testing::AnyOf(0, 1));
  EXPECT_FALSE(entries.back().again);
  EXPECT_LT(sleeper_.latest_end(), deadline);
}

TEST_F(Transactions, DoNotBeginOnceTheDeadlineHasPassed) {
  int runs = 0;
  const Database::Body body = [&](Transaction&, const Admission&) {
    ++runs;
    return absl::OkStatus();
  };
  const Deadline past = In(std::chrono::milliseconds(-1));
  EXPECT_EQ(DetailOf(database_.Write("Test", past, TransactionScope{}, body)).reason, "TIME_UP");
  EXPECT_EQ(DetailOf(database_.Read("Test", past, TransactionScope{}, body)).reason, "TIME_UP");
  EXPECT_EQ(runs, 0);
}

TEST_F(Transactions, EndASlowStatementAtTheDeadline) {
  const absl::Status status =
      database_.Write("Test", In(std::chrono::milliseconds(100)), TransactionScope{},
                      [&](Transaction& transaction, const Admission&) {
                        transaction.work().exec("select pg_sleep(30)");
                        return absl::OkStatus();
                      });
  EXPECT_EQ(status.code(), absl::StatusCode::kDeadlineExceeded) << status;
  EXPECT_EQ(observer_.entries(), (std::vector<Entry>{{"Test", "57014", "", false}}));
}

TEST_F(Transactions, ReadOneSnapshotAndWriteNothing) {
  std::string before;
  std::string after;
  const absl::Status read = database_.Read(
      "Test", Later(), TransactionScope{}, [&](Transaction& transaction, const Admission&) {
        before = transaction.work().exec("select count(*) from mark")[0][0].c_str();
        Execute("insert into mark values ('meanwhile')");
        after = transaction.work().exec("select count(*) from mark")[0][0].c_str();
        return absl::OkStatus();
      });
  EXPECT_TRUE(read.ok()) << read;
  EXPECT_EQ(before, "0");
  EXPECT_EQ(after, "0");
  EXPECT_EQ(Marks("meanwhile"), "1");

  const absl::Status wrote =
      database_.Read("Test", In(std::chrono::milliseconds(300)), TransactionScope{},
                     [&](Transaction& transaction, const Admission&) {
                       Mark(transaction, "never");
                       return absl::OkStatus();
                     });
  EXPECT_FALSE(wrote.ok());
  EXPECT_EQ(Marks("never"), "0");
}

TEST_F(Transactions, TellTheBodyTheClocksTime) {
  clock_.Set(MomentOf(1'800'000'000'123'456));
  Moment now;
  EXPECT_TRUE(Write([&](Transaction& transaction, const Admission&) {
                now = transaction.now();
                return absl::OkStatus();
              }).ok());
  EXPECT_EQ(Micros(now), 1'800'000'000'123'456);
}

TEST_F(Transactions, LetABodysOwnExceptionThroughAndLeaveNothingBehind) {
  struct Surprise : std::runtime_error {
    using std::runtime_error::runtime_error;
  };
  EXPECT_THROW(
      static_cast<void>(Write([&](Transaction& transaction, const Admission&) -> absl::Status {
        Mark(transaction, "thrown");
        throw Surprise("words");
      })),
      Surprise);
  EXPECT_EQ(Marks("thrown"), "0");
  EXPECT_TRUE(database_.Ping().ok());
}

TEST_F(Transactions, SayUnavailableWhereNoServerAnswers) {
  Database nowhere({"host=/nowhere-invented user=rowproof", 8, std::chrono::milliseconds(20)},
                   clock_, sleeper_, observer_);
  const absl::Status status = nowhere.Ping();
  EXPECT_EQ(status.code(), absl::StatusCode::kUnavailable) << status;
  EXPECT_EQ(DetailOf(status).reason, "DATABASE_AWAY");
  EXPECT_EQ(status.ToString().find("nowhere-invented"), std::string::npos);
}

}  // namespace
}  // namespace rowproof::storage
