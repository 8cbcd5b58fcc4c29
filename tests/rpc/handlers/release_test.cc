// ReleaseService: gates and releases of a pattern.
#include <gmock/gmock.h>

#include "rowproof/v1/release_service.pb.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;

constexpr char kRelease[] = R"(name: "patterns/shawl/releases/r1")";
constexpr char kUnwaived[] = R"(parent: "patterns/shawl" version: "patterns/shawl/versions/1")";
constexpr char kWaived[] = R"(
    parent: "patterns/shawl" version: "patterns/shawl/versions/1"
    waivers { code: GATE_CODE_ERRATA_DECIDED reason: "an invented reason" }
    waivers { code: GATE_CODE_SIZES_TESTED reason: "an invented reason" }
    waivers { code: GATE_CODE_PREDICTIONS_RECONCILED reason: "an invented reason" })";

ServiceRows ReleaseRows() {
  const std::string kind = " kind: RELEASE_FILE_KIND_ERRATA_SHEET_TEXT";
  return {"ReleaseService",
          {
              {.method = "GetGates",
               .request = R"(version: "patterns/shawl/versions/1")",
               .names = {"version"}},
              {.method = "CreateRelease",
               .request = kWaived,
               .names = {"parent", "version"},
               .other = "sheet { terms: TERMS_UK }"},
              {.method = "GetRelease", .request = kRelease, .names = {"name"}},
              {.method = "ListReleases",
               .request = R"(parent: "patterns/shawl")",
               .names = {"parent"},
               .four_more = FourMore("release", "release_id = 'r1'", "'release_id', 'm' || n") +
                            FourMore("release_file", "release_id = 'r1'", "'release_id', 'm' || n"),
               .elsewhere = R"(parent: "patterns/mat")"},
              {.method = "GetReleaseFile", .request = kRelease + kind, .names = {"name"}},
              {.method = "WithdrawRelease",
               .request = std::string(kRelease) + R"( reason: "an invented reason")",
               .names = {"name"},
               .other = R"(reason: "another invented reason")"},
          }};
}

INSTANTIATE_TEST_SUITE_P(Release, EveryService, ::testing::Values(ReleaseRows()));

class ReleaseHandlers : public HandlerTest {
 protected:
  grpc::Status Refused(const std::string& more) {
    v1::CreateReleaseRequest request;
    Merge(kUnwaived, request);
    Merge(more, request);
    return Refusal("ReleaseService.CreateRelease", request);
  }
};

TEST_F(ReleaseHandlers, ATestCallIsOneOfTheVersionsPattern) {
  for (const char* method : {"ReleaseService.GetGates", "ReleaseService.CreateRelease"}) {
    const AnyMessage request = NewMessage(*MethodCalled(method).input_type());
    for (const char* wrong : {"spring", "patterns/mat/testCalls/spring", "patterns/shawl"}) {
      Merge(std::string(method) == "ReleaseService.GetGates"
                ? R"(version: "patterns/shawl/versions/1")"
                : kUnwaived,
            *request);
      Merge("test_call: \"" + std::string(wrong) + "\"", *request);
      EXPECT_THAT(FieldsOf(Refusal(method, *request)), ElementsAre("test_call")) << wrong;
    }
    Merge(R"(test_call: "patterns/shawl/testCalls/absent")", *request);
    EXPECT_EQ(Refusal(method, *request).error_code(), grpc::StatusCode::NOT_FOUND);
  }
}

TEST_F(ReleaseHandlers, AVersionIsOneOfThePatternThatIsReleased) {
  EXPECT_THAT(FieldsOf(Refused(R"(parent: "patterns/mat")")), ElementsAre("version"));
}

TEST_F(ReleaseHandlers, EveryOpenGateIsNamedAtOnce) {
  const std::string before = AllRecords();
  const grpc::Status refusal = Refused("");
  EXPECT_EQ(refusal.error_code(), grpc::StatusCode::FAILED_PRECONDITION);
  EXPECT_THAT(ConditionsOf(refusal),
              ElementsAre("ERRATA_DECIDED", "SIZES_TESTED", "PREDICTIONS_RECONCILED"));
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(ReleaseHandlers, AWaiverNamesAnOpenGateOnceWithAReason) {
  const std::string chart = "waivers { code: GATE_CODE_CHART_WORKABLE reason: \"it is lovely\" }";
  const std::string sizes = "waivers { code: GATE_CODE_SIZES_TESTED reason: \"a small piece\" }";
  EXPECT_THAT(FieldsOf(Refused(chart)), ElementsAre("waivers[0].code"));
  EXPECT_THAT(FieldsOf(Refused("waivers { reason: \"an invented reason\" }")),
              ElementsAre("waivers[0].code"));
  EXPECT_THAT(FieldsOf(Refused("waivers { code: GATE_CODE_SIZES_TESTED reason: \"short\" }")),
              ElementsAre("waivers[0].reason"));
  EXPECT_EQ(Refused(sizes + sizes).error_code(), grpc::StatusCode::INVALID_ARGUMENT);
}

TEST_F(ReleaseHandlers, AFileIsOfAKindThatTheApiDeclares) {
  v1::GetReleaseFileRequest get;
  Merge(kRelease, get);
  EXPECT_THAT(FieldsOf(Refusal("ReleaseService.GetReleaseFile", get)), ElementsAre("kind"));
  get.set_kind(static_cast<v1::ReleaseFileKind>(77));
  EXPECT_THAT(FieldsOf(Refusal("ReleaseService.GetReleaseFile", get)), ElementsAre("kind"));
  get.set_kind(v1::RELEASE_FILE_KIND_ERRATA_SHEET_TEXT);
  EXPECT_EQ(Call<v1::ReleaseFile>("ReleaseService.GetReleaseFile", get, kTester).content(),
            "invented");
}

TEST_F(ReleaseHandlers, WithdrawingNeedsAReasonAndIsDoneOnce) {
  v1::WithdrawReleaseRequest withdraw;
  Merge(kRelease, withdraw);
  withdraw.set_reason("too short");
  EXPECT_THAT(FieldsOf(Refusal("ReleaseService.WithdrawRelease", withdraw)), ElementsAre("reason"));
  withdraw.set_reason("an invented reason");
  const auto withdrawn = Call<v1::Release>("ReleaseService.WithdrawRelease", withdraw);
  EXPECT_EQ(withdrawn.state(), v1::RELEASE_STATE_WITHDRAWN);
  EXPECT_THAT(ConditionsOf(Refusal("ReleaseService.WithdrawRelease", withdraw)),
              ElementsAre("RELEASE_STATE"));
}

}  // namespace
}  // namespace rowproof::rpc
