// A migrated database of its own for each test, with the seams that a test sets, and SQL outside of
// the transactions under test. Included after <pqxx/pqxx>.
#ifndef ROWPROOF_TESTS_STORAGE_STORAGE_FIXTURE_H_
#define ROWPROOF_TESTS_STORAGE_STORAGE_FIXTURE_H_

#include <gtest/gtest.h>

#include <chrono>
#include <string>

#include "storage/accounts.h"
#include "storage/database/database.h"
#include "storage/database/transaction.h"
#include "storage/patterns.h"
#include "tests/support/test_cluster.h"
#include "tests/support/test_seams.h"

namespace rowproof::storage {

class StorageTest : public ::testing::Test {
 protected:
  StorageTest() { Execute("create table mark (name text)"); }

  static Deadline In(std::chrono::milliseconds time) {
    return std::chrono::steady_clock::now() + time;
  }
  static Deadline Later() { return In(std::chrono::seconds(20)); }

  // A statement in a session and transaction of its own; its first value, or "".
  std::string Execute(const std::string& sql) {
    pqxx::connection session(test_database_.connection());
    const pqxx::result result = pqxx::nontransaction(session).exec(sql);
    return result.empty() || result.columns() == 0 ? "" : result[0][0].c_str();
  }
  // How many marks of this name were committed.
  std::string Marks(const std::string& name) {
    return Execute("select count(*) from mark where name = '" + name + "'");
  }

  // A write that nobody signed in for, without a claim.
  absl::Status Write(const Database::Body& body) {
    return database_.Write("Test", Later(), TransactionScope{}, body);
  }

  // An account with one token, whose secret is the account's identifier.
  void AddAccount(const std::string& id, bool may_create_patterns = true) {
    const Moment now = clock_.Now();
    const absl::Status added = Write([&](Transaction& transaction, const Admission&) {
      InsertAccount(transaction,
                    {{id}, may_create_patterns, "Name of " + id, id + "@invented.test", now});
      InsertToken(transaction, {id},
                  {{"t" + id}, "laptop", now, now + std::chrono::hours(24), std::nullopt},
                  Sha256Of(id));
      return absl::OkStatus();
    });
    ASSERT_TRUE(added.ok()) << added;
  }
  void AddPattern(const std::string& id, const std::string& designer) {
    const absl::Status added = Write([&](Transaction& transaction, const Admission&) {
      InsertPattern(transaction, {{id}, "Pattern " + id, {designer}, 0, 1, clock_.Now()});
      return absl::OkStatus();
    });
    ASSERT_TRUE(added.ok()) << added;
  }
  // Of a request with the account's token.
  static TransactionScope ScopeFor(const std::string& account) {
    TransactionScope scope;
    scope.token_sha256 = Sha256Of(account);
    return scope;
  }

  // A write by one statement, of an account that has a token, under a request id of its own.
  absl::Status WriteByStatement(const std::string& account, const PatternId& pattern,
                                const Database::Body& body) {
    TransactionScope scope = ScopeFor(account);
    scope.pattern = pattern;
    scope.lock = RootLock::kByStatement;
    scope.request = RequestIdentity{"request-" + std::to_string(++requests_), "Test", {}};
    return database_.Write("Test", Later(), scope, body);
  }

  int requests_ = 0;
  testing::TestDatabase test_database_;
  testing::StillClock clock_;
  testing::CountingSleeper sleeper_;
  testing::RecordingObserver observer_;
  Database database_{{test_database_.connection(), 8, std::chrono::milliseconds(2000)},
                     clock_,
                     sleeper_,
                     observer_};
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_TESTS_STORAGE_STORAGE_FIXTURE_H_
