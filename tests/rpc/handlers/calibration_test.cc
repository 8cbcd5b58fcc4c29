// CalibrationService: calibrations that designers keep, and their revisions.
#include <gmock/gmock.h>

#include "rowproof/v1/calibration_service.pb.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;

constexpr char kName[] = R"(name: "calibrations/c1")";
constexpr char kParent[] = R"(parent: "calibrations/c1")";
constexpr char kOther[] = R"(parent: "calibrations/another")";
constexpr char kScope[] = R"( scope { technique: TECHNIQUE_SPIKE weight_class: 4 })";
constexpr char kSwatch[] = R"(
    measurements {
      swatch {
        stitches { stitch: STITCH_KIND_SC count: 400 }
        gauge { stitches_per_decimetre: 20 rows_per_decimetre: 25 }
        yarn { wraps_per_inch: 12.7 }
        length_mm: 16000
      }
    })";

std::vector<MethodRow> RowsOfRevisions() {
  return {
      {.method = "CreateCalibrationRevision",
       .request = std::string(kParent) + kSwatch + " left_out: 1",
       .names = {"parent"},
       .other = R"(note: "another swatch")",
       .etag = "etag",
       .read_by = "GetCalibration",
       .read_request = kName},
      {.method = "GetCalibrationRevision",
       .request = R"(name: "calibrations/c1/revisions/1")",
       .names = {"name"}},
      {.method = "ListCalibrationRevisions",
       .request = kParent,
       .names = {"parent"},
       .four_more = FourMore("calibration_revision", "number = 1", "'number', n"),
       .elsewhere = kOther},
  };
}

ServiceRows CalibrationRows() {
  ServiceRows all{"CalibrationService", RowsOfRevisions()};
  const std::vector<MethodRow> rows = {
      {.method = "CreateCalibration",
       .request = std::string(R"(title: "My hook")") + kScope + kSwatch,
       .other = R"(title: "Another")"},
      {.method = "GetCalibration", .request = kName, .names = {"name"}},
      {.method = "ListCalibrations",
       .four_more = FourMore("calibration", "calibration_id = 'c1'", "'calibration_id', 'm' || n") +
                    FourMore("calibration_revision", "calibration_id = 'c1' and number = 1",
                             "'calibration_id', 'm' || n"),
       .elsewhere = "technique: TECHNIQUE_INSET"},
      {.method = "UpdateCalibration",
       .request = R"(calibration { name: "calibrations/c1" title: "My new hook" })",
       .names = {"calibration.name"},
       .etag = "calibration.etag",
       .read_by = "GetCalibration",
       .read_request = kName,
       .resource = "calibration",
       .changeable = {"title"}},
      {.method = "DeleteCalibration",
       .request = kName,
       .names = {"name"},
       .other = R"(name: "calibrations/another")",
       .etag = "etag",
       .read_by = "GetCalibration",
       .read_request = kName},
  };
  all.rows.insert(all.rows.end(), rows.begin(), rows.end());
  return all;
}

INSTANTIATE_TEST_SUITE_P(Calibration, EveryService, ::testing::Values(CalibrationRows()));

class CalibrationHandlers : public HandlerTest {
 protected:
  v1::Calibration Get() {
    v1::GetCalibrationRequest get;
    Merge(kName, get);
    return Call<v1::Calibration>("CalibrationService.GetCalibration", get);
  }
  static v1::CreateCalibrationRequest Wanted(const std::string& more = "") {
    v1::CreateCalibrationRequest create;
    Merge(std::string(R"(title: "My hook")") + kScope + kSwatch, create);
    Merge(more, create);
    return create;
  }
  v1::CalibrationRevision Revise(const std::string& more) {
    v1::CreateCalibrationRevisionRequest create;
    Merge(kParent + more, create);
    return Call<v1::CalibrationRevision>("CalibrationService.CreateCalibrationRevision", create);
  }
  std::vector<std::string> WrongIn(const google::protobuf::Message& request) {
    const std::string method = request.GetDescriptor()->name();
    return FieldsOf(
        Refusal("CalibrationService." + method.substr(0, method.rfind("Request")), request));
  }
  std::vector<std::string> Listed(const std::string& filter, const std::string& caller) {
    v1::ListCalibrationsRequest list;
    Merge(filter, list);
    std::vector<std::string> names;
    const auto answer =
        Call<v1::ListCalibrationsResponse>("CalibrationService.ListCalibrations", list, caller);
    for (const auto& calibration : answer.calibrations()) {
      EXPECT_FALSE(calibration.has_newest_revision());
      names.push_back(calibration.name());
    }
    return names;
  }
};

TEST_F(CalibrationHandlers, ChangesTheTitleAndNothingElse) {
  for (const char* mask :
       {"", R"(update_mask { paths: "title" })", R"(update_mask { paths: "*" })"}) {
    v1::Calibration expected = Get();
    v1::UpdateCalibrationRequest update;
    Merge(R"(calibration { name: "calibrations/c1" revision_count: 9 scope { weight_class: 1 } })",
          update);
    Merge(mask, update);
    update.mutable_calibration()->set_title("My hook " + std::string(mask).substr(0, 30));
    const auto changed = Call<v1::Calibration>("CalibrationService.UpdateCalibration", update);
    EXPECT_NE(changed.etag(), expected.etag());
    expected.set_title(update.calibration().title());
    expected.set_etag(changed.etag());
    EXPECT_EQ(changed.DebugString(), expected.DebugString()) << mask;
    EXPECT_EQ(Get().DebugString(), expected.DebugString()) << mask;
  }
}

TEST_F(CalibrationHandlers, ClearsNoTitle) {
  v1::UpdateCalibrationRequest update;
  Merge(R"(calibration { name: "calibrations/c1" } update_mask { paths: "*" })", update);
  EXPECT_THAT(WrongIn(update), ElementsAre("calibration.title"));
}

TEST_F(CalibrationHandlers, ACalibrationNeedsATitleAScopeAndMeasurements) {
  const std::string before = AllRecords();
  v1::CreateCalibrationRequest wrong = Wanted();
  wrong.clear_title();
  EXPECT_THAT(WrongIn(wrong), ElementsAre("title"));
  wrong = Wanted();
  wrong.mutable_scope()->clear_technique();
  EXPECT_THAT(WrongIn(wrong), ElementsAre("scope.technique"));
  wrong = Wanted();
  wrong.mutable_scope()->set_weight_class(8);
  EXPECT_THAT(WrongIn(wrong), ElementsAre("scope.weight_class"));
  wrong = Wanted();
  wrong.clear_measurements();
  EXPECT_THAT(WrongIn(wrong), ElementsAre("measurements"));
  EXPECT_THAT(WrongIn(Wanted(kSwatch + std::string("measurements { note: \"nothing\" }"))),
              ElementsAre("measurements[2].swatch"));
  wrong = Wanted(kSwatch);
  wrong.mutable_measurements(1)->mutable_swatch()->mutable_stitches(0)->set_count(-1);
  EXPECT_THAT(WrongIn(wrong), ElementsAre("measurements[1].swatch.stitches[0].count"));
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(CalibrationHandlers, ListsTheCallersOwnThatFitTheFilter) {
  const std::string made =
      Call<v1::Calibration>("CalibrationService.CreateCalibration", Wanted()).name();
  EXPECT_THAT(Listed("", kDesigner), ::testing::UnorderedElementsAre("calibrations/c1", made));
  EXPECT_THAT(Listed("technique: TECHNIQUE_SPIKE", kDesigner), ElementsAre(made));
  EXPECT_THAT(Listed("technique: TECHNIQUE_INSET", kDesigner), ElementsAre("calibrations/c1"));
  EXPECT_THAT(Listed("weight_class: 0", kDesigner), ElementsAre());
  EXPECT_THAT(Listed("", kStranger), ElementsAre());
  v1::ListCalibrationsRequest wrong;
  wrong.set_weight_class(8);
  EXPECT_THAT(WrongIn(wrong), ElementsAre("weight_class"));
}

TEST_F(CalibrationHandlers, ATesterKeepsNone) {
  EXPECT_EQ(Refusal("CalibrationService.CreateCalibration", Wanted(), kTester).error_code(),
            grpc::StatusCode::PERMISSION_DENIED);
}

TEST_F(CalibrationHandlers, ARevisionNamesTheMeasurementThatItMayNotLeaveOut) {
  const std::string before = AllRecords();
  const auto refused = [&](const std::string& more) {
    v1::CreateCalibrationRevisionRequest create;
    Merge(kParent + more, create);
    return WrongIn(create);
  };
  EXPECT_THAT(refused(""), ElementsAre("measurements"));
  EXPECT_THAT(refused(" left_out: 1"), ElementsAre("measurements"));
  EXPECT_THAT(refused(" left_out: 1 left_out: 7"), ElementsAre("left_out[1]"));
  EXPECT_THAT(refused(std::string(kSwatch) + " left_out: 1 left_out: 1"),
              ElementsAre("left_out[1]"));
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(CalibrationHandlers, AnEarlierRevisionStaysAsItWas) {
  v1::GetCalibrationRevisionRequest get;
  get.set_name("calibrations/c1/revisions/1");
  const char* method = "CalibrationService.GetCalibrationRevision";
  const auto first = Call<v1::CalibrationRevision>(method, get);
  const v1::CalibrationRevision second = Revise(std::string(kSwatch) + " left_out: 1");
  EXPECT_EQ(second.name(), "calibrations/c1/revisions/2");
  ASSERT_EQ(second.measurements_size(), 1);
  EXPECT_EQ(second.measurements(0).number(), 2);
  EXPECT_EQ(Call<v1::CalibrationRevision>(method, get).DebugString(), first.DebugString());
  EXPECT_EQ(Get().newest_revision().DebugString(), second.DebugString());
  v1::ListCalibrationRevisionsRequest list;
  Merge(kParent, list);
  const auto listed = Call<v1::ListCalibrationRevisionsResponse>(
      "CalibrationService.ListCalibrationRevisions", list);
  ASSERT_EQ(listed.revisions_size(), 2);
  EXPECT_EQ(listed.revisions(0).name(), second.name());
  EXPECT_EQ(listed.revisions(1).name(), first.name());
  for (const auto& revision : listed.revisions()) {
    EXPECT_FALSE(revision.has_yarn_calibration());
    EXPECT_EQ(revision.measurements_size(), 0);
  }
}

}  // namespace
}  // namespace rowproof::rpc
