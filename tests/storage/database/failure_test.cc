// What each failure of PostgreSQL means to a caller. The codes are of PostgreSQL 15, appendix A
// (from memory).
#include "storage/database/failure.h"

#include <pqxx/pqxx>

#include "services/domain/errors.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

class FailureTest : public StorageTest {
 protected:
  // What the server's own error of that code becomes.
  Failure Raised(const std::string& sqlstate) {
    return Of("do $$ begin raise exception 'words' using errcode = '" + sqlstate + "'; end $$");
  }
  Failure Of(const std::string& sql) {
    try {
      Execute(sql);
    } catch (...) {
      return FailureOf(std::current_exception());
    }
    ADD_FAILURE() << "nothing failed";
    return {};
  }
};

TEST_F(FailureTest, SaysByItsCodeWhatHelps) {
  struct Case {
    std::string sqlstate;
    absl::StatusCode code;
    bool again;
    bool lost;
  };
  const std::vector<Case> cases = {
      {"40001", absl::StatusCode::kResourceExhausted, true, false},   // serialization_failure
      {"40P01", absl::StatusCode::kResourceExhausted, true, false},   // deadlock_detected
      {"0A000", absl::StatusCode::kResourceExhausted, true, true},    // cached plan changed
      {"57014", absl::StatusCode::kDeadlineExceeded, false, false},   // query_canceled
      {"57P01", absl::StatusCode::kUnavailable, true, true},          // admin_shutdown
      {"57P03", absl::StatusCode::kUnavailable, true, true},          // cannot_connect_now
      {"25006", absl::StatusCode::kUnavailable, true, true},          // read_only_sql_transaction
      {"53100", absl::StatusCode::kResourceExhausted, false, false},  // disk_full
      {"23505", absl::StatusCode::kInternal, false, false},           // unique_violation
      {"42P01", absl::StatusCode::kInternal, false, false},           // undefined_table
      {"22012", absl::StatusCode::kInternal, false, false},           // division_by_zero
  };
  for (const Case& expected : cases) {
    const Failure met = Raised(expected.sqlstate);
    EXPECT_EQ(met.sqlstate, expected.sqlstate);
    EXPECT_EQ(met.status.code(), expected.code) << expected.sqlstate;
    EXPECT_EQ(met.again, expected.again) << expected.sqlstate;
    EXPECT_EQ(met.connection_lost, expected.lost) << expected.sqlstate;
    if (expected.code == absl::StatusCode::kResourceExhausted) {
      EXPECT_GT(DetailOf(met.status).retry_after.count(), 0) << expected.sqlstate;
    }
  }
}

TEST_F(FailureTest, TakesALostOrRefusedConnectionForADatabaseThatIsAway) {
  // connection_failure, too_many_connections: libpqxx drops their codes.
  for (const char* sqlstate : {"08006", "53300"}) {
    const Failure met = Raised(sqlstate);
    EXPECT_EQ(met.sqlstate, "");
    EXPECT_EQ(DetailOf(met.status).reason, "DATABASE_AWAY");
    EXPECT_TRUE(met.again);
    EXPECT_TRUE(met.connection_lost);
  }
}

TEST_F(FailureTest, NamesTheConstraintButNoValue) {
  Execute("create table thing (name text constraint thing_name_key unique)");
  Execute("insert into thing values ('private words')");
  const Failure failure = Of("insert into thing values ('private words')");
  EXPECT_EQ(failure.sqlstate, "23505");
  EXPECT_EQ(failure.constraint, "thing_name_key");
  EXPECT_EQ(failure.status.ToString().find("private"), std::string::npos);
  EXPECT_FALSE(failure.again);
}

TEST_F(FailureTest, IsWorthAnotherRunForAClaimMadeMeanwhile) {
  const std::string claim = "insert into request_claim values ('a', 'b', 'c', '\\x', 'd', now())";
  Execute(claim);
  const Failure failure = Of(claim);
  EXPECT_EQ(failure.constraint, "request_claim_pkey");
  EXPECT_TRUE(failure.again);
}

TEST_F(FailureTest, KnowsARealSerializationFailure) {
  Execute("insert into mark values ('a')");
  pqxx::connection session(test_database_.connection());
  pqxx::transaction<pqxx::repeatable_read> work(session);
  work.exec("select * from mark");
  Execute("update mark set name = 'b'");
  Failure failure;
  try {
    work.exec("update mark set name = 'c'");
  } catch (...) {
    failure = FailureOf(std::current_exception());
  }
  EXPECT_EQ(failure.sqlstate, "40001");
  EXPECT_TRUE(failure.again);
}

TEST_F(FailureTest, RethrowsWhatIsNotOfTheDatabase) {
  const auto exception = std::make_exception_ptr(std::out_of_range("words"));
  EXPECT_THROW(FailureOf(exception), std::out_of_range);
}

}  // namespace
}  // namespace rowproof::storage
