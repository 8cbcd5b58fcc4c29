// TestCallService: test calls and their seats.
#include <gmock/gmock.h>

#include "rowproof/v1/test_call_service.pb.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;

constexpr char kSpringName[] = R"(name: "patterns/shawl/testCalls/spring")";
constexpr char kAutumnName[] = R"(name: "patterns/shawl/testCalls/autumn")";
constexpr char kSpringParent[] = R"(parent: "patterns/shawl/testCalls/spring")";
constexpr char kAutumnParent[] = R"(parent: "patterns/shawl/testCalls/autumn")";
constexpr char kSeatName[] = R"(name: "patterns/shawl/testCalls/spring/seats/s1")";
constexpr char kOtherSeat[] = R"(name: "patterns/shawl/testCalls/spring/seats/s9")";
constexpr char kWanted[] =
    R"( settings { title: "Winter" sizes { size: "one size" seat_count: 2 required_count: 1 } })";
// Seat s1 as it was when tea had taken it.
constexpr char kTaken[] = "update seat set state = 2, ended_at = null where seat_id = 's1'";

std::string Put(const std::string& call, int state) {
  return "update test_call set state = " + std::to_string(state) + " where call_id = '" + call +
         "'";
}

std::vector<MethodRow> RowsOfCalls() {
  const std::string version = R"( version: "patterns/shawl/versions/1")";
  return {
      {.method = "CreateTestCall",
       .request = R"(parent: "patterns/shawl")" + version + kWanted,
       .names = {"parent", "version"},
       .other = R"(settings { title: "Another" })"},
      {.method = "GetTestCall", .request = kSpringName, .names = {"name"}},
      {.method = "ListTestCalls",
       .request = R"(parent: "patterns/shawl")",
       .names = {"parent"},
       .four_more = FourMore("test_call", "call_id = 'spring'", "'call_id', 'm' || n"),
       .elsewhere = R"(parent: "patterns/mat")"},
      {.method = "UpdateTestCall",
       .request = R"(test_call { name: "patterns/shawl/testCalls/spring"
                                 settings { title: "Summer"
                                            sizes { size: "one size" seat_count: 3 } } })",
       .names = {"test_call.name"},
       .other = R"(test_call { settings { title: "Another" } })",
       .etag = "test_call.etag",
       .read_by = "GetTestCall",
       .read_request = kSpringName,
       .resource = "test_call",
       .changeable = {"settings"}},
      {.method = "CloseTestCall", .request = kSpringName, .names = {"name"}, .other = kAutumnName},
      {.method = "ReopenTestCall",
       .request = kSpringName,
       .before = Put("spring", 3),
       .names = {"name"},
       .other = kAutumnName},
      {.method = "SendVersion",
       .request = R"(name: "patterns/shawl/testCalls/spring" version: "patterns/shawl/versions/7")",
       .before = "insert into version select (jsonb_populate_record(v, '{\"number\": 7}')).* "
                 "from version v where pattern_id = 'shawl' and number = 1",
       .names = {"name", "version"},
       .other = version},
      {.method = "OpenTestCall",
       .request = kAutumnName,
       .before = Put("autumn", 1),
       .names = {"name"},
       .other = kSpringName},
      {.method = "DeleteTestCall",
       .request = kAutumnName,
       .before = Put("autumn", 1),
       .names = {"name"},
       .other = kSpringName},
  };
}

std::vector<MethodRow> RowsOfSeats() {
  const std::string offer =
      "insert into seat select (jsonb_populate_record(s, jsonb_build_object('seat_id', 'invited', "
      "'state', 1, 'account_id', null, 'taken_at', null, 'report_count', 0, 'invitation_sha256', "
      "sha256('invited')))).* from seat s where seat_id = 's1';";
  const std::string size = R"( size: "one size")";
  return {
      {.method = "CreateSeat",
       .request = kSpringParent + size,
       .names = {"parent"},
       .other = kAutumnParent,
       .gives_secret = true},
      {.method = "BatchCreateSeats",
       .request = kSpringParent + std::string(" requests {") + size + "} requests {" + size + "}",
       .names = {"parent"},
       .other = kAutumnParent,
       .gives_secret = true},
      {.method = "ListSeats",
       .request = kSpringParent,
       .names = {"parent"},
       .four_more = FourMore("seat", "seat_id = 's1'",
                             "'seat_id', 'm' || n, 'invitation_sha256', sha256(n::text::bytea)"),
       .elsewhere = kAutumnParent},
      {.method = "ListMySeats",
       .caller = kTester,
       .four_more =
           FourMore("seat", "seat_id = 's1'",
                    "'seat_id', 'o' || n, 'invitation_sha256', sha256(('o' || n)::bytea)")},
      {.method = "GetSeat", .request = kSeatName, .names = {"name"}},
      {.method = "TakeSeat",
       .request = R"(invitation: "invited")",
       .caller = kNewcomer,
       .before = offer,
       .other = R"(invitation: "another")",
       .is_open = true},
      {.method = "GetSeatForm", .request = kSeatName, .caller = kTester, .names = {"name"}},
      {.method = "GetSeatChanges", .request = kSeatName, .caller = kTester, .names = {"name"}},
      {.method = "GiveUpSeat",
       .request = kSeatName,
       .caller = kTester,
       .before = kTaken,
       .names = {"name"},
       .other = kOtherSeat},
      {.method = "CancelSeat",
       .request = kSeatName,
       .before = kTaken,
       .names = {"name"},
       .other = kOtherSeat},
  };
}

ServiceRows TestCallRows() {
  ServiceRows all{"TestCallService", RowsOfSeats()};
  const std::vector<MethodRow> calls = RowsOfCalls();
  all.rows.insert(all.rows.end(), calls.begin(), calls.end());
  return all;
}

INSTANTIATE_TEST_SUITE_P(TestCall, EveryService, ::testing::Values(TestCallRows()));

class TestCallHandlers : public HandlerTest {
 protected:
  v1::TestCall Get() {
    v1::GetTestCallRequest get;
    Merge(kSpringName, get);
    return Call<v1::TestCall>("TestCallService.GetTestCall", get);
  }
  v1::UpdateTestCallRequest Update(const std::string& settings, const std::string& path) {
    v1::UpdateTestCallRequest update;
    Merge("test_call {" + std::string(kSpringName) + " settings {" + settings + "} }", update);
    if (!path.empty()) update.mutable_update_mask()->add_paths(path);
    return update;
  }
};

TEST_F(TestCallHandlers, ChangesOnlyTheSettingThatTheMaskNames) {
  const std::string changes = R"(title: "Summer" reward: "a skein" deadline: "2026-04-01")";
  const v1::CallSettings before = Get().settings();
  for (const char* path : {"settings.title", "settings.deadline", "settings.reward"}) {
    const v1::UpdateTestCallRequest update = Update(changes, path);
    const v1::CallSettings had = Get().settings();
    const auto changed = Call<v1::TestCall>("TestCallService.UpdateTestCall", update);
    v1::CallSettings expected = had;
    const auto* field = expected.GetDescriptor()->FindFieldByName(std::string(path).substr(9));
    expected.GetReflection()->SetString(
        &expected, field,
        expected.GetReflection()->GetString(update.test_call().settings(), field));
    EXPECT_EQ(changed.settings().DebugString(), expected.DebugString()) << path;
    EXPECT_NE(expected.DebugString(), had.DebugString()) << path;
  }
  EXPECT_EQ(Get().settings().sizes_size(), before.sizes_size());
}

TEST_F(TestCallHandlers, WithoutAMaskChangesWhatIsSet) {
  v1::CallSettings expected = Get().settings();
  expected.set_title("Summer");
  const auto changed =
      Call<v1::TestCall>("TestCallService.UpdateTestCall", Update(R"(title: "Summer")", ""));
  EXPECT_EQ(changed.settings().DebugString(), expected.DebugString());
  EXPECT_EQ(changed.state(), v1::CALL_STATE_OPEN);
}

TEST_F(TestCallHandlers, WithTheWholeMaskClearsWhatIsNotSet) {
  const std::string sizes = R"(title: "Summer" sizes { size: "one size" seat_count: 1 })";
  const auto changed = Call<v1::TestCall>("TestCallService.UpdateTestCall", Update(sizes, "*"));
  EXPECT_EQ(changed.settings().title(), "Summer");
  EXPECT_EQ(changed.settings().deadline(), "");
  EXPECT_EQ(changed.settings().sizes(0).required_count(), 0);
  // A test call without a size is none.
  EXPECT_THAT(FieldsOf(Refusal("TestCallService.UpdateTestCall", Update("title: \"None\"", "*"))),
              ElementsAre("test_call.settings.sizes"));
}

TEST_F(TestCallHandlers, ABatchNamesTheSeatThatIsWrongAndMakesNone) {
  const std::string before = AllRecords();
  const auto refused = [&](const std::string& requests) {
    v1::BatchCreateSeatsRequest batch;
    Merge(kSpringParent + requests, batch);
    return FieldsOf(Refusal("TestCallService.BatchCreateSeats", batch));
  };
  const std::string good = R"( requests { size: "one size" })";
  EXPECT_THAT(refused(""), ElementsAre("requests"));
  EXPECT_THAT(refused(good + R"( requests { size: "XXL" })"), ElementsAre("requests[1].size"));
  EXPECT_THAT(refused(good + " requests {" + kAutumnParent + R"( size: "one size" })"),
              ElementsAre("requests[1].parent"));
  EXPECT_THAT(refused(R"( requests { size: "one size" request_id: "x" })"),
              ElementsAre("requests[0].request_id"));
  std::string many;
  for (int i = 0; i < 101; ++i) many += good;
  EXPECT_THAT(refused(many), ElementsAre("requests"));
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(TestCallHandlers, ForATesterOthersSeatsAreNotThere) {
  v1::CreateSeatRequest create;
  Merge(std::string(kSpringParent) + R"( size: "one size")", create);
  const auto made = Call<v1::Seat>("TestCallService.CreateSeat", create);
  v1::GetSeatRequest get;
  get.set_name(made.name());
  EXPECT_TRUE(Refusal("TestCallService.GetSeat", get).ok());
  const grpc::Status others = Refusal("TestCallService.GetSeat", get, kTester);
  get.set_name("patterns/shawl/testCalls/spring/seats/absent");
  const grpc::Status absent = Refusal("TestCallService.GetSeat", get, kTester);
  EXPECT_EQ(others.error_code(), grpc::StatusCode::NOT_FOUND);
  EXPECT_EQ(absent.error_code(), grpc::StatusCode::NOT_FOUND);
  EXPECT_EQ(InfoOf(others).reason(), InfoOf(absent).reason());
  EXPECT_EQ(others.error_message(), "Seat \"" + made.name() + "\" not found.");
  EXPECT_EQ(absent.error_message(), "Seat \"" + get.name() + "\" not found.");
}

TEST_F(TestCallHandlers, AVersionIsOneOfTheCallsPattern) {
  v1::SendVersionRequest send;
  Merge(kSpringName, send);
  send.set_version("patterns/mat/versions/1");
  EXPECT_THAT(FieldsOf(Refusal("TestCallService.SendVersion", send)), ElementsAre("version"));
}

}  // namespace
}  // namespace rowproof::rpc
