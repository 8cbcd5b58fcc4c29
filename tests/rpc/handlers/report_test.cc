// ReportService: reports and errata of test calls.
#include <gmock/gmock.h>

#include "rowproof/v1/report_service.pb.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;

constexpr char kTestersSeat[] = "patterns/shawl/testCalls/spring/seats/s1";
constexpr char kSeatParent[] = R"(parent: "patterns/shawl/testCalls/spring/seats/s1")";
constexpr char kCallParent[] = R"(parent: "patterns/shawl/testCalls/spring")";
constexpr char kErratum[] = R"(name: "patterns/shawl/testCalls/spring/errata/e1")";

// kim has a seat, has reported as tea has, and found no fault.
std::string SecondTester() {
  const auto copy = [](const std::string& table, const std::string& columns) {
    return "insert into " + table + " select (jsonb_populate_record(r, jsonb_build_object(" +
           columns + "))).* from " + table + " r where seat_id = 's1'; ";
  };
  return copy("seat", "'seat_id', 's2', 'account_id', 'kim', 'invitation_sha256', null") +
         copy("membership", "'seat_id', 's2', 'account_id', 'kim'") +
         copy("report",
              "'seat_id', 's2', 'entered_by', 'kim', 'erratum_id', '[]'::jsonb, "
              "'erratum_first', '[]'::jsonb, 'erratum_last', '[]'::jsonb, "
              "'erratum_counted_from', '[]'::jsonb, 'erratum_seen_in', '[]'::jsonb, "
              "'erratum_remark', '[]'::jsonb");
}

// Four errata like e1, all in the newest report.
std::string FourMoreErrata() {
  return FourMore("erratum", "erratum_id = 'e1'", "'erratum_id', 'm' || n") +
         "update report set erratum_id = array['e1', 'm2', 'm3', 'm4', 'm5'], "
         "erratum_first = array_fill(0, array[5]), erratum_last = array_fill(0, array[5]), "
         "erratum_counted_from = array_fill(0::smallint, array[5]), "
         "erratum_seen_in = array_fill(0::smallint, array[5]), "
         "erratum_remark = array_fill(''::text, array[5])";
}

std::vector<MethodRow> RowsOfReports() {
  const std::string more_seats =
      FourMore("seat", "seat_id = 's1'",
               "'seat_id', 'm' || n, 'report_count', 1, 'invitation_sha256', null") +
      FourMore("report", "seat_id = 's1' and number = 1", "'seat_id', 'm' || n");
  return {
      {.method = "CreateReport",
       .request = std::string(kSeatParent) + " content { last_row: 14 }",
       .caller = kTester,
       .names = {"parent"},
       .other = "content { last_row: 15 }"},
      {.method = "CreateReportFromForm",
       .request = kSeatParent,
       .caller = kTester,
       .names = {"parent"},
       .form_of = kTestersSeat},
      {.method = "GetReport",
       .request = R"(name: "patterns/shawl/testCalls/spring/seats/s1/reports/1")",
       .names = {"name"}},
      {.method = "ListReports",
       .request = kSeatParent,
       .names = {"parent"},
       .four_more = FourMore("report", "seat_id = 's1' and number = 1", "'number', n"),
       .elsewhere = kCallParent},
      {.method = "ListReports",
       .request = kCallParent,
       .names = {"parent"},
       .four_more = more_seats,
       .elsewhere = R"(parent: "patterns/shawl/testCalls/autumn")"},
  };
}

std::vector<MethodRow> RowsOfErrata() {
  return {
      {.method = "GetErratum", .request = kErratum, .names = {"name"}},
      {.method = "ListErrata",
       .request = kCallParent,
       .names = {"parent"},
       .four_more = FourMoreErrata(),
       .elsewhere = "show_withdrawn: true"},
      {.method = "DecideErratum",
       .request = std::string(kErratum) + " state: ERRATUM_STATE_ACCEPTED",
       .names = {"name"},
       .other = R"(note: "quite right")"},
      {.method = "ConfirmErratum",
       .request = std::string(kErratum) + " confirmation: CONFIRMATION_MET_IT_TOO",
       .caller = kNewcomer,
       .before = SecondTester(),
       .names = {"name"},
       .other = "confirmation: CONFIRMATION_WORKED_IT_RIGHT"},
  };
}

ServiceRows ReportRows() {
  ServiceRows all{"ReportService", RowsOfErrata()};
  const std::vector<MethodRow> reports = RowsOfReports();
  all.rows.insert(all.rows.end(), reports.begin(), reports.end());
  return all;
}

INSTANTIATE_TEST_SUITE_P(Report, EveryService, ::testing::Values(ReportRows()));

class ReportHandlers : public HandlerTest {
 protected:
  v1::Report Create(const std::string& content) {
    v1::CreateReportRequest create;
    Merge(std::string(kSeatParent) + " content {" + content + "}", create);
    return Call<v1::Report>("ReportService.CreateReport", create, kTester);
  }
};

TEST_F(ReportHandlers, ASeatsReportsAreItsRevisionsAndACallsTheNewestOfEachSeat) {
  const v1::Report second = Create("last_row: 14");
  EXPECT_EQ(second.name(), std::string(kTestersSeat) + "/reports/2");
  const auto names = [&](const std::string& parent) {
    v1::ListReportsRequest list;
    Merge(parent, list);
    std::vector<std::string> listed;
    const auto answer = Call<v1::ListReportsResponse>("ReportService.ListReports", list);
    for (const auto& report : answer.reports()) {
      listed.push_back(report.name());
    }
    return listed;
  };
  EXPECT_THAT(names(kSeatParent),
              ElementsAre(second.name(), std::string(kTestersSeat) + "/reports/1"));
  EXPECT_THAT(names(kCallParent), ElementsAre(second.name()));
}

TEST_F(ReportHandlers, ForATesterOthersReportsAreNotThere) {
  Execute(SecondTester());
  v1::GetReportRequest get;
  get.set_name(std::string(kTestersSeat) + "/reports/1");
  EXPECT_TRUE(Refusal("ReportService.GetReport", get, kTester).ok());
  const grpc::Status others = Refusal("ReportService.GetReport", get, kNewcomer);
  EXPECT_EQ(others.error_code(), grpc::StatusCode::NOT_FOUND);
  get.set_name("patterns/shawl/testCalls/spring/seats/absent/reports/1");
  const grpc::Status absent = Refusal("ReportService.GetReport", get, kNewcomer);
  EXPECT_EQ(absent.error_code(), others.error_code());
  EXPECT_EQ(ResourceOf(absent).resource_type(), ResourceOf(others).resource_type());
}

TEST_F(ReportHandlers, AReportNamesEveryFieldThatIsWrongByItsPath) {
  v1::CreateReportRequest create;
  Merge(std::string(kSeatParent) +
            " content { hook_mm: -1 errata { row: 999 } gauge_after { stitches: -3 } }",
        create);
  const grpc::Status refusal = Refusal("ReportService.CreateReport", create, kTester);
  EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
  EXPECT_THAT(FieldsOf(refusal), ::testing::IsSupersetOf({"content.hook_mm"}));
  for (const std::string& field : FieldsOf(refusal)) {
    EXPECT_TRUE(IsPathOf(*create.GetDescriptor(), field)) << field;
  }
  create.clear_content();
  create.mutable_content()->set_version("patterns/mat/versions/1");
  EXPECT_THAT(FieldsOf(Refusal("ReportService.CreateReport", create, kTester)),
              ElementsAre("content.version"));
}

TEST_F(ReportHandlers, CheckingAReportStoresNothing) {
  const std::string before = AllRecords();
  v1::CreateReportRequest create;
  Merge(std::string(kSeatParent) + " content { last_row: 14 } validate_only: true", create);
  EXPECT_EQ(Call<v1::Report>("ReportService.CreateReport", create, kTester).name(), "");
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(ReportHandlers, AFormIsThatOfTheSeatThatItIsSentTo) {
  v1::CreateReportFromFormRequest create;
  Merge(kSeatParent, create);
  create.set_form_text("A letter, and no form.");
  const grpc::Status refusal = Refusal("ReportService.CreateReportFromForm", create, kTester);
  EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
  for (const std::string& field : FieldsOf(refusal)) EXPECT_EQ(field, "form_text");
}

TEST_F(ReportHandlers, DecisionsAndConfirmationsAreOfTheApisValues) {
  v1::DecideErratumRequest decide;
  Merge(kErratum, decide);
  EXPECT_THAT(FieldsOf(Refusal("ReportService.DecideErratum", decide)), ElementsAre("state"));
  decide.set_state(static_cast<v1::ErratumState>(77));
  EXPECT_THAT(FieldsOf(Refusal("ReportService.DecideErratum", decide)), ElementsAre("state"));
  v1::ConfirmErratumRequest confirm;
  Merge(kErratum, confirm);
  EXPECT_THAT(FieldsOf(Refusal("ReportService.ConfirmErratum", confirm, kTester)),
              ElementsAre("confirmation"));
  v1::ListErrataRequest list;
  Merge(kCallParent, list);
  list.set_state(static_cast<v1::ErratumState>(77));
  EXPECT_THAT(FieldsOf(Refusal("ReportService.ListErrata", list)), ElementsAre("state"));
}

TEST_F(ReportHandlers, OnlyADesignerDecidesAndOnlyAnotherTesterConfirms) {
  v1::DecideErratumRequest decide;
  Merge(std::string(kErratum) + " state: ERRATUM_STATE_ACCEPTED", decide);
  EXPECT_EQ(Refusal("ReportService.DecideErratum", decide, kTester).error_code(),
            grpc::StatusCode::PERMISSION_DENIED);
  v1::ConfirmErratumRequest confirm;
  Merge(std::string(kErratum) + " confirmation: CONFIRMATION_MET_IT_TOO", confirm);
  EXPECT_EQ(Refusal("ReportService.ConfirmErratum", confirm).error_code(),
            grpc::StatusCode::PERMISSION_DENIED);
  EXPECT_THAT(ConditionsOf(Refusal("ReportService.ConfirmErratum", confirm, kTester)),
              ElementsAre("OWN_ERRATUM"));
}

}  // namespace
}  // namespace rowproof::rpc
