// Revisions of a seat's report: their order, and when there is none.
#include <gmock/gmock.h>

#include <pqxx/pqxx>

#include "services/domain/testcalls/states.h"
#include "services/usecases/calls/seats.h"
#include "services/usecases/calls/test_calls.h"
#include "services/usecases/reports/create_report.h"
#include "services/usecases/reports/read_reports.h"
#include "tests/usecases/usecases_fixture.h"

namespace rowproof::usecases {
namespace {

using ::testing::UnorderedElementsAre;

class Reports : public UsecasesTest {
 protected:
  absl::StatusOr<ReadReport> Report(int last_row, const std::string& account = "tea",
                                    bool validate_only = false, int version = 0) {
    RequestContext context = From(account, "ReportService.CreateReport");
    testcalls::Report report;
    report.last_row = last_row;
    report.version = version;
    return CreateReport(application_, context,
                        {kPattern, kCall, kSeat, report, "content", validate_only});
  }
  int NumberOf(const absl::StatusOr<ReadReport>& report) {
    EXPECT_TRUE(report.ok()) << report.status();
    return report.ok() ? report->row.number : 0;
  }
  absl::Status Step(CallStep step, const std::string& method) {
    RequestContext context = From("ada", "TestCallService." + method);
    return StepTestCall(application_, context, kPattern, kCall, step).status();
  }
};

TEST_F(Reports, AreRevisedInTheOrderInWhichTheyCame) {
  EXPECT_EQ(NumberOf(Report(13)), 2);
  EXPECT_EQ(NumberOf(Report(14)), 3);
  RequestContext listing = From("tea", "ReportService.ListReports");
  const auto page = ListSeatReports(application_, listing, kPattern, kCall, kSeat, 0, 10);
  ASSERT_TRUE(page.ok()) << page.status();
  std::vector<int> rows;
  for (const auto& row : page->reports) rows.push_back(row.report.last_row);
  EXPECT_THAT(rows, ::testing::ElementsAre(14, 13, 12));
}

TEST_F(Reports, AreNumberedWithoutGapsWhenTesterAndDesignerReportAtOnce) {
  std::vector<int> testers;
  std::vector<int> designers;
  AtOnce(
      [&] {
        for (int i = 0; i < 3; ++i) testers.push_back(NumberOf(Report(13)));
      },
      [&] {
        for (int i = 0; i < 3; ++i) designers.push_back(NumberOf(Report(14, "ada")));
      });
  testers.insert(testers.end(), designers.begin(), designers.end());
  EXPECT_THAT(testers, UnorderedElementsAre(2, 3, 4, 5, 6, 7));
  EXPECT_EQ(Execute("select count(*) from report where on_behalf"), "3");
}

TEST_F(Reports, AreRefusedOnACallThatHasEnded) {
  ASSERT_TRUE(Step(testcalls::CloseCall, "CloseTestCall").ok());
  EXPECT_EQ(ReasonOf(Report(13).status()), "CALL_STATE");
  EXPECT_EQ(ReasonOf(Report(13, "ada").status()), "CALL_STATE");
  EXPECT_EQ(ReasonOf(Report(13, "tea", true).status()), "CALL_STATE");
  EXPECT_EQ(Count("report"), "1");
  ASSERT_TRUE(Step(testcalls::ReopenCall, "ReopenTestCall").ok());
  EXPECT_EQ(NumberOf(Report(13)), 2);
}

TEST_F(Reports, AreRefusedOnASeatThatWasGivenUpAndStayReadable) {
  RequestContext giving_up = From("tea", "TestCallService.GiveUpSeat");
  ASSERT_TRUE(GiveUpSeat(application_, giving_up, kPattern, kCall, kSeat).ok());
  EXPECT_EQ(ReasonOf(Report(13, "ada").status()), "SEAT_STATE");
  RequestContext reading = From("ada", "ReportService.GetReport");
  EXPECT_TRUE(GetReport(application_, reading, kPattern, kCall, kSeat, 1).ok());
}

TEST_F(Reports, AreNotStoredWhereTheyAreOnlyChecked) {
  const auto checked = Report(13, "tea", true);
  EXPECT_EQ(NumberOf(checked), 0);
  EXPECT_EQ(Count("report"), "1");
  EXPECT_EQ(NumberOf(Report(13)), 2);
}

TEST_F(Reports, AreOfAVersionThatWasSent) {
  const auto unsent = Report(13, "tea", false, 2);
  EXPECT_EQ(unsent.status().code(), absl::StatusCode::kInvalidArgument) << unsent.status();
  EXPECT_EQ(FieldOf(unsent.status()), "content.version");
  EXPECT_EQ(Report(13)->row.report.version, 1);
}

TEST_F(Reports, WithdrawTheErrataThatTheyNoLongerHold) {
  EXPECT_EQ(Execute("select last_report is not null from erratum where erratum_id = 'e1'"), "f");
  EXPECT_EQ(NumberOf(Report(13)), 2);
  EXPECT_EQ(Execute("select last_report is not null from erratum where erratum_id = 'e1'"), "t");
}

TEST_F(Reports, DoNotReachBeyondTheLastRow) {
  EXPECT_EQ(FieldOf(Report(21).status()), "content.last_row");
  EXPECT_EQ(FieldOf(Report(-1).status()), "content.last_row");
  EXPECT_EQ(NumberOf(Report(20)), 2);
}

}  // namespace
}  // namespace rowproof::usecases
