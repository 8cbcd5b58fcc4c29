// Reports are written by one statement, which looks whether the seat is as the report was judged.
#include "storage/reports.h"

#include <pqxx/pqxx>

#include "storage/patterns.h"
#include "storage/seats.h"
#include "storage/test_calls.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

class Reports : public StorageTest {
 protected:
  // tea holds seat "s1" of the open call "spring", to which version 1 was sent.
  Reports() {
    AddAccount("ada");
    AddAccount("tea", false);
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
    const absl::Status made = Write([&](Transaction& transaction, const Admission&) {
      const testcalls::TestCallRecord call{{"shawl"}, {"spring"},   testcalls::CallState::kOpen, 1,
                                           1,         clock_.Now(), testcalls::CallSettings{}};
      InsertTestCall(transaction, call);
      InsertSentVersion(transaction, call, clock_.Now());
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
    EXPECT_TRUE(made.ok()) << made;
  }

  static TransactionScope SeatScope(const std::string& seat, int version) {
    TransactionScope scope = ScopeFor("tea");
    scope.pattern = {"shawl"};
    scope.call = {"spring"};
    scope.lock = RootLock::kByStatement;
    scope.report = TransactionScope::Report{{seat}, version};
    return scope;
  }
  std::optional<ReportBasis> Basis(const std::string& seat = "s1", int version = 0) {
    std::optional<ReportBasis> basis;
    const absl::Status status = database_.Read("Basis", Later(), SeatScope(seat, version),
                                               [&](Transaction&, const Admission& admission) {
                                                 basis = admission.basis;
                                                 return absl::OkStatus();
                                               });
    EXPECT_TRUE(status.ok()) << status;
    return basis;
  }

  // One report with the errata at these rows, each new; `before` runs once between judging and
  // writing. Returns how often the body was run.
  int Submit(const std::vector<int>& rows, const ErrataChanges& changes = {},
             const std::function<void()>& before = nullptr) {
    TransactionScope scope = SeatScope("s1", 0);
    scope.request = RequestIdentity{"report-" + std::to_string(++requests_), "Test", {}};
    int runs = 0;
    const absl::Status status = database_.Write(
        "Submit", Later(), scope, [&](Transaction& transaction, const Admission& admission) {
          testcalls::ReportRecord row{{"shawl"},
                                      {"spring"},
                                      {"s1"},
                                      admission.basis->report_count + 1,
                                      {"tea"},
                                      false,
                                      transaction.now(),
                                      testcalls::Report{},
                                      {}};
          row.report.version = 1;
          row.report.size = "one size";
          std::vector<PlacedErratum> placed;
          for (const int at : rows) {
            faults::Erratum erratum;
            erratum.row = at;
            erratum.was = "59 sts";
            erratum.should_be = "\"60\" sts";
            row.report.errata.push_back(erratum);
            placed.push_back({{"e" + std::to_string(at)}, true, at, {2, 5}});
          }
          if (++runs == 1 && before != nullptr) before();
          InsertReport(
              transaction, row, placed, changes,
              {admission.basis->seat_state, testcalls::SeatState::kTaken, admission.call->state});
          return absl::OkStatus();
        });
    EXPECT_TRUE(status.ok()) << status;
    return runs;
  }
};

TEST_F(Reports, AreJudgedByTheirSeatAndTheVersionsThatWereSent) {
  const auto basis = Basis();
  ASSERT_TRUE(basis.has_value());
  EXPECT_EQ(basis->seat_state, testcalls::SeatState::kTaken);
  EXPECT_EQ(basis->size, "one size");
  EXPECT_EQ(basis->report_count, 0);
  EXPECT_TRUE(basis->version_was_sent);
  EXPECT_TRUE(basis->errata.empty());
  EXPECT_TRUE(Basis("s1", 1)->version_was_sent);
  EXPECT_FALSE(Basis("s1", 2)->version_was_sent);
  EXPECT_FALSE(Basis("s2").has_value());
}

TEST_F(Reports, FindWhatTheSeatReportedBefore) {
  EXPECT_EQ(Submit({7, 9}), 1);
  EXPECT_EQ(Submit({}, {{{"e7"}}, {}}), 1);
  const auto basis = Basis();
  ASSERT_TRUE(basis.has_value());
  EXPECT_EQ(basis->report_count, 2);
  ASSERT_EQ(basis->errata.size(), 2u);
  const bool seven_first = basis->errata[0].id.value == "e7";
  const KnownErratum& seven = basis->errata[seven_first ? 0 : 1];
  const KnownErratum& nine = basis->errata[seven_first ? 1 : 0];
  EXPECT_EQ(seven.row, 7);
  EXPECT_EQ(seven.stitches, (faults::StitchRange{2, 5}));
  EXPECT_EQ(seven.was, "59 sts");
  EXPECT_EQ(seven.should_be, "\"60\" sts");
  EXPECT_TRUE(seven.withdrawn);
  EXPECT_EQ(nine.row, 9);
  EXPECT_FALSE(nine.withdrawn);
  EXPECT_EQ(Submit({}, {{}, {{"e7"}}}), 1);
  const auto after = Basis();
  for (const KnownErratum& erratum : after->errata) EXPECT_FALSE(erratum.withdrawn);
}

TEST_F(Reports, AreJudgedAgainWhereAnotherOfTheSeatCameFirst) {
  EXPECT_EQ(Submit({9}, {}, [&] { EXPECT_EQ(Submit({7}), 1); }), 2);
  EXPECT_EQ(Execute("select string_agg(number || ':' || array_to_string(erratum_id, ' '), ', '"
                    " order by number) from report"),
            "1:e7, 2:e9");
  EXPECT_EQ(Execute("select string_agg(erratum_id || first_report, ' ' order by erratum_id)"
                    " from erratum"),
            "e71 e92");
  EXPECT_EQ(Execute("select string_agg(result, ' ' order by created_at, result)"
                    " from request_claim where request_id like 'report-%'"),
            "1 2");
}

TEST_F(Reports, AreJudgedAgainWhereSeatOrCallChangedMeanwhile) {
  for (const std::string change : {"update seat set state = 3", "update test_call set state = 3"}) {
    EXPECT_EQ(Submit({}, {}, [&] { Execute(change); }), 2) << change;
  }
  EXPECT_EQ(Execute("select string_agg(number::text, ' ' order by number) from report"), "1 2");
}

}  // namespace
}  // namespace rowproof::storage
