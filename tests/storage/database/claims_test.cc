// A request that is sent again makes nothing twice.
#include "storage/database/claims.h"

#include <pqxx/pqxx>
//
#include <barrier>
#include <thread>

#include "services/domain/errors.h"
#include "tests/storage/storage_fixture.h"
#include "tests/support/cutting_proxy.h"

namespace rowproof::storage {
namespace {

class Claims : public StorageTest {
 protected:
  static constexpr char kId[] = "6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e35";

  static TransactionScope Requesting(TransactionScope scope, const std::string& content = "content",
                                     const std::string& method = "PatternService.CreatePattern") {
    scope.request = RequestIdentity{kId, method, Sha256Of(content)};
    return scope;
  }
  // Makes a mark of this name, or reads what was made before.
  absl::Status Make(const TransactionScope& scope, const std::string& name, std::string* answer) {
    return Make(database_, scope, name, answer);
  }
  absl::Status Make(Database& database, const TransactionScope& scope, const std::string& name,
                    std::string* answer) {
    return database.Write("Make", Later(), scope,
                          [&](Transaction& transaction, const Admission& admission) {
                            if (admission.earlier_result.has_value()) {
                              *answer = "again " + *admission.earlier_result;
                              return absl::OkStatus();
                            }
                            transaction.work().exec("insert into mark values ('" + name + "')");
                            transaction.SetResult(name);
                            *answer = name;
                            return absl::OkStatus();
                          });
  }
  std::string Claimed() { return Execute("select count(*) from request_claim"); }
};

TEST_F(Claims, GiveTheSameRequestItsEarlierResult) {
  std::string answer;
  EXPECT_TRUE(Make(Requesting({}), "one", &answer).ok());
  EXPECT_EQ(answer, "one");
  EXPECT_TRUE(Make(Requesting({}), "two", &answer).ok());
  EXPECT_EQ(answer, "again one");
  EXPECT_EQ(Marks("one"), "1");
  EXPECT_EQ(Marks("two"), "0");
}

// A body that is refused because the first run has already done it answers as the first did.
TEST_F(Claims, AnswerARepeatThatOverlappedTheFirst) {
  AddAccount("ada");
  AddPattern("shawl", "ada");
  TransactionScope scope = Requesting(ScopeFor("ada"));
  scope.pattern = {"shawl"};
  scope.lock = RootLock::kPattern;
  constexpr int kAtOnce = 8;
  for (int round = 0; round < 25; ++round) {
    scope.request->request_id = "round-" + std::to_string(round);
    const std::string mark = "mark" + std::to_string(round);
    std::barrier start(kAtOnce);
    std::vector<std::thread> threads;
    std::vector<std::string> answers(kAtOnce);
    for (std::string& answer : answers) {
      threads.emplace_back([&] {
        start.arrive_and_wait();
        const absl::Status status = database_.Write(
            "Once", Later(), scope,
            [&](Transaction& transaction, const Admission& admission) -> absl::Status {
              if (admission.earlier_result.has_value()) {
                answer = *admission.earlier_result;
                return absl::OkStatus();
              }
              const auto made =
                  transaction.work().exec("select from mark where name = '" + mark + "'");
              if (!made.empty()) return NotFound("mark", mark);
              transaction.work().exec("insert into mark values ('" + mark + "')");
              transaction.SetResult(mark);
              answer = mark;
              return absl::OkStatus();
            });
        if (!status.ok()) answer = status.ToString();
      });
    }
    for (std::thread& thread : threads) thread.join();
    for (const std::string& answer : answers) EXPECT_EQ(answer, mark);
    EXPECT_EQ(Marks(mark), "1");
  }
}

TEST_F(Claims, RefuseAnIdThatWasUsedWithAnotherContentOrMethod) {
  std::string answer;
  ASSERT_TRUE(Make(Requesting({}), "one", &answer).ok());
  for (const TransactionScope& scope :
       {Requesting({}, "other content"), Requesting({}, "content", "PatternService.Other")}) {
    const absl::Status status = Make(scope, "two", &answer);
    EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
    EXPECT_EQ(DetailOf(status).reason, "REQUEST_ID_REUSED");
    ASSERT_EQ(DetailOf(status).fields.size(), 1u);
    EXPECT_EQ(DetailOf(status).fields[0].field, "request_id");
  }
  EXPECT_EQ(answer, "one");
  EXPECT_EQ(Marks("two"), "0");
}

TEST_F(Claims, BelongToTheirAccount) {
  AddAccount("ada");
  AddAccount("bea");
  std::string answer;
  EXPECT_TRUE(Make(Requesting(ScopeFor("ada")), "hers", &answer).ok());
  EXPECT_TRUE(Make(Requesting(ScopeFor("bea"), "other content"), "his", &answer).ok());
  EXPECT_EQ(answer, "his");
  EXPECT_TRUE(Make(Requesting(ScopeFor("ada")), "third", &answer).ok());
  EXPECT_EQ(answer, "again hers");
}

TEST_F(Claims, AreNotMadeByARefusedBody) {
  const absl::Status refused =
      database_.Write("Make", Later(), Requesting({}),
                      [](Transaction&, const Admission&) { return StaleEtag("patterns/a"); });
  EXPECT_EQ(refused.code(), absl::StatusCode::kAborted);
  EXPECT_EQ(Claimed(), "0");
  std::string answer;
  EXPECT_TRUE(Make(Requesting({}), "now", &answer).ok());
  EXPECT_EQ(answer, "now");
}

TEST_F(Claims, LetOnlyOneOfTwoEqualRequestsAtTheSameTimeMakeSomething) {
  std::barrier both_began(2);
  const auto make = [&](const std::string& name, std::string* answer) {
    int runs = 0;
    return database_.Write("Make", Later(), Requesting({}),
                           [&, name, answer](Transaction& transaction, const Admission& admission) {
                             if (++runs == 1) both_began.arrive_and_wait();
                             if (admission.earlier_result.has_value()) {
                               *answer = *admission.earlier_result;
                               return absl::OkStatus();
                             }
                             transaction.work().exec("insert into mark values ('made')");
                             transaction.SetResult(name);
                             *answer = name;
                             return absl::OkStatus();
                           });
  };
  std::string first;
  std::string second;
  absl::Status other;
  std::thread rival([&] { other = make("of the rival", &second); });
  const absl::Status status = make("of the first", &first);
  rival.join();
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_TRUE(other.ok()) << other;
  EXPECT_EQ(first, second);
  EXPECT_EQ(Marks("made"), "1");
  EXPECT_EQ(Claimed(), "1");
  const std::vector<testing::RecordingObserver::Entry> again{
      {"Make", "23505", "request_claim_pkey", true}};
  EXPECT_EQ(observer_.entries(), again);
}

TEST_F(Claims, FindWhatACommitMadeWhoseAnswerWasLost) {
  testing::CuttingProxy proxy(testing::TestCluster::Get().socket_folder());
  Database database({test_database_.connection() + " host='" + proxy.folder() + "'", 8,
                     std::chrono::milliseconds(2000)},
                    clock_, sleeper_, observer_);
  std::string answer;
  const absl::Status status = Make(database, Requesting({}), "one", &answer);
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_TRUE(proxy.has_cut());
  EXPECT_EQ(answer, "again one");
  EXPECT_EQ(Marks("one"), "1");
  EXPECT_EQ(observer_.entries().size(), 1u);
}

TEST_F(Claims, KeepARepeatOnlyWhereTheBodySaysSo) {
  std::string answer;
  ASSERT_TRUE(Make(Requesting({}), "one", &answer).ok());
  for (const bool keep : {false, true}) {
    EXPECT_TRUE(database_
                    .Write("Make", Later(), Requesting({}),
                           [&](Transaction& transaction, const Admission& admission) {
                             EXPECT_EQ(admission.earlier_result, "one");
                             transaction.work().exec("insert into mark values ('repeat')");
                             if (keep) transaction.CommitWhenRepeated();
                             return absl::OkStatus();
                           })
                    .ok());
    EXPECT_EQ(Marks("repeat"), keep ? "1" : "0");
  }
  EXPECT_EQ(Claimed(), "1");
}

TEST_F(Claims, AreForgottenAfterThirtyDaysAndNotBefore) {
  std::string answer;
  ASSERT_TRUE(Make(Requesting({}), "one", &answer).ok());
  clock_.Advance(kClaimsKept);
  ASSERT_TRUE(PruneClaims(database_).ok());
  EXPECT_EQ(Claimed(), "1");
  clock_.Advance(std::chrono::microseconds(1));
  ASSERT_TRUE(PruneClaims(database_).ok());
  EXPECT_EQ(Claimed(), "0");
}

TEST_F(Claims, TakeAnyTextInTheirNames) {
  const std::string hostile = "x'); drop table mark; -- \\ \" \xC3\xA9";
  TransactionScope scope = Requesting({}, "content", hostile);
  scope.request->request_id = hostile;
  std::string answer;
  for (int i = 0; i < 2; ++i) {
    EXPECT_TRUE(database_
                    .Write("Make", Later(), scope,
                           [&](Transaction& transaction, const Admission& admission) {
                             answer = admission.earlier_result.value_or("none");
                             transaction.SetResult(hostile);
                             return absl::OkStatus();
                           })
                    .ok());
  }
  EXPECT_EQ(answer, hostile);
}

}  // namespace
}  // namespace rowproof::storage
