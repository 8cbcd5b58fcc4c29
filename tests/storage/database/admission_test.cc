// Who asks: what a token, an account and a membership make of a caller.
#include <pqxx/pqxx>
//
#include "services/domain/errors.h"
#include "storage/accounts.h"
#include "storage/editors.h"
#include "storage/patterns.h"
#include "storage/seats.h"
#include "storage/test_calls.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

class AdmissionTest : public StorageTest {
 protected:
  // Pattern "shawl" of ada with editor edi and call "spring", in which tea holds seat "s1".
  AdmissionTest() {
    AddAccount("ada");
    AddAccount("edi", false);
    AddAccount("tea", false);
    AddAccount("strange");
    AddPattern("shawl", "ada");
    patterns::VersionRecord version;
    version.pattern = {"shawl"};
    version.number = 1;
    version.author = {"ada"};
    const absl::Status submitted =
        WriteByStatement("ada", {"shawl"}, [&](Transaction& transaction, const Admission&) {
          InsertVersion(transaction, version);
          return absl::OkStatus();
        });
    EXPECT_TRUE(submitted.ok()) << submitted;
    const absl::Status status = Write([&](Transaction& transaction, const Admission&) {
      access::EditorRecord editor;
      editor.pattern = {"shawl"};
      editor.id = {"e1"};
      editor.account = {"edi"};
      editor.created_at = editor.expires_at = clock_.Now();
      editor.accepted_at = clock_.Now();
      InsertEditor(transaction, editor, Sha256Of("invitation"));
      AcceptEditor(transaction, editor);
      for (const char* call : {"spring", "autumn"}) {
        InsertTestCall(transaction, {{"shawl"},
                                     {call},
                                     testcalls::CallState::kOpen,
                                     1,
                                     1,
                                     clock_.Now(),
                                     testcalls::CallSettings{}});
      }
      testcalls::SeatRecord seat;
      seat.pattern = {"shawl"};
      seat.call = {"spring"};
      seat.id = {"s1"};
      seat.size = "one size";
      seat.created_at = clock_.Now();
      InsertSeat(transaction, seat, Sha256Of("invitation"));
      seat.state = testcalls::SeatState::kTaken;
      seat.account = {"tea"};
      seat.taken_at = clock_.Now();
      TakeSeat(transaction, seat);
      return absl::OkStatus();
    });
    EXPECT_TRUE(status.ok()) << status;
  }

  absl::StatusOr<Admission> Ask(const TransactionScope& scope) {
    Admission met;
    const absl::Status status =
        database_.Read("Ask", Later(), scope, [&](Transaction&, const Admission& admission) {
          met = admission;
          return absl::OkStatus();
        });
    if (!status.ok()) return status;
    return met;
  }
  absl::StatusOr<Admission> Ask(const std::string& account, const std::string& call = "spring") {
    TransactionScope scope = ScopeFor(account);
    scope.pattern = {"shawl"};
    scope.call = {call};
    return Ask(scope);
  }
  // Whether another session finds the row locked while a transaction of `scope` runs.
  std::string LockedThrough(const TransactionScope& scope, const std::string& table) {
    std::string free_rows;
    const absl::Status status =
        database_.Write("Lock", Later(), scope, [&](Transaction&, const Admission&) {
          free_rows = Execute("select count(*) from (select from " + table +
                              " for no key update skip locked) as free");
          return absl::OkStatus();
        });
    EXPECT_TRUE(status.ok()) << status;
    return free_rows;
  }
};

TEST_F(AdmissionTest, KnowsEachByHisMembership) {
  struct Case {
    std::string account;
    std::string call;
    bool designs, edits, tests;
    std::string seat;
  };
  const std::vector<Case> cases = {
      {"ada", "spring", true, false, false, ""},   {"edi", "spring", false, true, false, ""},
      {"tea", "spring", false, false, true, "s1"}, {"tea", "autumn", false, false, true, ""},
      {"tea", "", false, false, true, ""},         {"strange", "spring", false, false, false, ""},
  };
  for (const Case& expected : cases) {
    const auto met = Ask(expected.account, expected.call);
    ASSERT_TRUE(met.ok()) << met.status();
    const access::Standing& standing = met->standing;
    EXPECT_EQ(standing.account.value, expected.account);
    EXPECT_EQ(standing.designs_pattern, expected.designs) << expected.account;
    EXPECT_EQ(standing.edits_pattern, expected.edits) << expected.account;
    EXPECT_EQ(standing.tests_pattern, expected.tests) << expected.account;
    EXPECT_EQ(standing.seat.value, expected.seat) << expected.account << expected.call;
  }
  EXPECT_TRUE(Ask("ada")->standing.creates_patterns);
  EXPECT_FALSE(Ask("tea")->standing.creates_patterns);
  EXPECT_FALSE(Ask("edi")->standing.creates_patterns);
}

TEST_F(AdmissionTest, LetsAnEndedSeatNoFurtherThanItsCall) {
  const absl::Status ended = Write([&](Transaction& transaction, const Admission&) {
    testcalls::SeatRecord second;
    second.pattern = {"shawl"};
    second.call = {"autumn"};
    second.id = {"s2"};
    second.size = "one size";
    second.created_at = clock_.Now();
    InsertSeat(transaction, second, Sha256Of("another invitation"));
    second.state = testcalls::SeatState::kTaken;
    second.account = {"tea"};
    second.taken_at = clock_.Now();
    TakeSeat(transaction, second);
    testcalls::SeatRecord first = LoadSeat(transaction, {"shawl"}, {"spring"}, {"s1"}).value();
    first.state = testcalls::SeatState::kGivenUp;
    EndSeat(transaction, first);
    return absl::OkStatus();
  });
  ASSERT_TRUE(ended.ok()) << ended;
  const auto in_spring = Ask("tea", "spring");
  const auto in_autumn = Ask("tea", "autumn");
  ASSERT_TRUE(in_spring.ok() && in_autumn.ok());
  EXPECT_TRUE(in_spring->standing.tests_pattern);  // by the other seat
  EXPECT_EQ(in_spring->standing.seat.value, "s1");
  EXPECT_TRUE(in_spring->standing.seat_ended);
  EXPECT_FALSE(in_spring->standing.tests_in_call());
  EXPECT_EQ(in_autumn->standing.seat.value, "s2");
  EXPECT_FALSE(in_autumn->standing.seat_ended);
  EXPECT_TRUE(in_autumn->standing.tests_in_call());
  const absl::Status both = Write([&](Transaction& transaction, const Admission&) {
    EXPECT_TRUE(WasSentVersion(transaction, {"shawl"}, 1, {"tea"}));
    testcalls::SeatRecord second = LoadSeat(transaction, {"shawl"}, {"autumn"}, {"s2"}).value();
    second.state = testcalls::SeatState::kCancelled;
    EndSeat(transaction, second);
    EXPECT_FALSE(WasSentVersion(transaction, {"shawl"}, 1, {"tea"}));
    return absl::OkStatus();
  });
  ASSERT_TRUE(both.ok()) << both;
  EXPECT_FALSE(Ask("tea", "spring")->standing.tests_pattern);
  EXPECT_TRUE(Ask("tea", "spring")->standing.knows_call());
}

TEST_F(AdmissionTest, ReadsTheRootRowsThatTheRequestNames) {
  const auto met = Ask("ada");
  ASSERT_TRUE(met.ok() && met->pattern.has_value() && met->call.has_value());
  EXPECT_EQ(met->pattern->title, "Pattern shawl");
  EXPECT_EQ(met->pattern->designer.value, "ada");
  EXPECT_EQ(met->pattern->version_count, 1);
  EXPECT_EQ(met->pattern->created_at, clock_.Now());
  EXPECT_EQ(met->call->id.value, "spring");
  EXPECT_EQ(met->call->state, testcalls::CallState::kOpen);
  EXPECT_EQ(met->call->version_number, 1);
  EXPECT_FALSE(met->earlier_result.has_value());

  TransactionScope absent = ScopeFor("ada");
  absent.pattern = {"none"};
  absent.call = {"spring"};
  EXPECT_FALSE(Ask(absent)->pattern.has_value());
  EXPECT_FALSE(Ask(absent)->call.has_value());
  EXPECT_FALSE(Ask(absent)->standing.knows_pattern());
}

TEST_F(AdmissionTest, KnowsNobodyWhereNoTokenIsAskedFor) {
  TransactionScope scope;
  scope.pattern = {"shawl"};
  const auto met = Ask(scope);
  ASSERT_TRUE(met.ok()) << met.status();
  EXPECT_FALSE(met->standing.signed_in());
  EXPECT_FALSE(met->standing.knows_pattern());
}

TEST_F(AdmissionTest, TurnsAnUnknownTokenAway) {
  EXPECT_EQ(DetailOf(Ask("unknown").status()).reason, "NOT_SIGNED_IN");
}

TEST_F(AdmissionTest, TurnsATokenAwayFromTheMomentItExpires) {
  clock_.Advance(std::chrono::hours(24) - std::chrono::microseconds(1));
  EXPECT_TRUE(Ask("ada").ok());
  clock_.Advance(std::chrono::microseconds(1));
  EXPECT_EQ(Ask("ada").status().code(), absl::StatusCode::kUnauthenticated);
}

TEST_F(AdmissionTest, TurnsARevokedTokenAndAnErasedAccountAway) {
  ASSERT_TRUE(Write([&](Transaction& transaction, const Admission&) {
                RevokeToken(transaction, {"ada"}, {"tada"}, clock_.Now());
                EraseAccount(transaction, {"edi"}, clock_.Now());
                return absl::OkStatus();
              }).ok());
  EXPECT_EQ(Ask("ada").status().code(), absl::StatusCode::kUnauthenticated);
  EXPECT_EQ(Ask("edi").status().code(), absl::StatusCode::kUnauthenticated);
  EXPECT_TRUE(Ask("tea").ok());
}

TEST_F(AdmissionTest, LocksTheRowThatAWriteNames) {
  TransactionScope scope = ScopeFor("ada");
  scope.pattern = {"shawl"};
  scope.call = {"spring"};
  EXPECT_EQ(LockedThrough(scope, "pattern"), "1");
  scope.lock = RootLock::kPattern;
  EXPECT_EQ(LockedThrough(scope, "pattern"), "0");
  EXPECT_EQ(LockedThrough(scope, "test_call"), "2");
  scope.lock = RootLock::kCall;
  EXPECT_EQ(LockedThrough(scope, "test_call"), "1");
  EXPECT_EQ(LockedThrough(scope, "pattern"), "1");
  scope.lock = RootLock::kAccount;
  EXPECT_EQ(LockedThrough(scope, "account"), "3");
}

TEST_F(AdmissionTest, LocksNothingForNobody) {
  TransactionScope scope;
  scope.pattern = {"shawl"};
  scope.lock = RootLock::kPattern;
  EXPECT_EQ(LockedThrough(scope, "pattern"), "1");
}

TEST_F(AdmissionTest, TakesAnyTextForIdentifiers) {
  TransactionScope scope = ScopeFor("ada");
  scope.pattern = {"x'; drop table pattern; --\\"};
  scope.call = {"'"};
  const auto met = Ask(scope);
  ASSERT_TRUE(met.ok()) << met.status();
  EXPECT_FALSE(met->pattern.has_value());
}

}  // namespace
}  // namespace rowproof::storage
