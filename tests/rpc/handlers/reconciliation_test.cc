// ReconciliationService: reconciliations of a test call, and what is set aside from them.
#include <gmock/gmock.h>

#include "rowproof/v1/reconciliation_service.pb.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;

constexpr char kSpring[] = R"(parent: "patterns/shawl/testCalls/spring")";
constexpr char kHeight[] = R"(
    parent: "patterns/shawl/testCalls/spring" seat: "patterns/shawl/testCalls/spring/seats/s1"
    quantity { kind: QUANTITY_KIND_HEIGHT } note: "before blocking")";
constexpr char kSetAside[] = R"(name: "patterns/shawl/testCalls/spring/setAsides/x1")";

ServiceRows ReconciliationRows() {
  const std::string autumn = R"(parent: "patterns/shawl/testCalls/autumn")";
  return {"ReconciliationService",
          {
              {.method = "CreateReconciliation",
               .request = kSpring,
               .names = {"parent"},
               .other = autumn},
              {.method = "GetReconciliation",
               .request = R"(name: "patterns/shawl/testCalls/spring/reconciliations/1")",
               .names = {"name"}},
              {.method = "ListReconciliations",
               .request = kSpring,
               .names = {"parent"},
               .four_more = FourMore("reconciliation", "number = 1", "'number', n"),
               .elsewhere = autumn},
              {.method = "CreateSetAside",
               .request = kHeight,
               .names = {"parent", "seat"},
               .other = R"(note: "another reason")"},
              {.method = "GetSetAside", .request = kSetAside, .names = {"name"}},
              {.method = "ListSetAsides",
               .request = kSpring,
               .names = {"parent"},
               .four_more = FourMore("set_aside", "set_aside_id = 'x1'",
                                     "'set_aside_id', 'm' || n, 'quantity', n + 3"),
               .elsewhere = autumn},
              {.method = "DeleteSetAside",
               .request = kSetAside,
               .names = {"name"},
               .other = R"(name: "patterns/shawl/testCalls/spring/setAsides/another")"},
          }};
}

INSTANTIATE_TEST_SUITE_P(Reconciliation, EveryService, ::testing::Values(ReconciliationRows()));

class ReconciliationHandlers : public HandlerTest {
 protected:
  grpc::Status Refused(const std::string& more) {
    v1::CreateSetAsideRequest request;
    Merge(kHeight, request);
    Merge(more, request);
    return Refusal("ReconciliationService.CreateSetAside", request);
  }
};

TEST_F(ReconciliationHandlers, TestersMayNotSeeThem) {
  v1::ListReconciliationsRequest list;
  Merge(kSpring, list);
  EXPECT_EQ(Refusal("ReconciliationService.ListReconciliations", list, kTester).error_code(),
            grpc::StatusCode::PERMISSION_DENIED);
  v1::GetSetAsideRequest get;
  Merge(kSetAside, get);
  EXPECT_EQ(Refusal("ReconciliationService.GetSetAside", get, kTester).error_code(),
            grpc::StatusCode::PERMISSION_DENIED);
}

TEST_F(ReconciliationHandlers, AMeasurementIsSetAsideOnce) {
  const grpc::Status refusal = Refused("quantity { kind: QUANTITY_KIND_WIDTH }");
  EXPECT_EQ(refusal.error_code(), grpc::StatusCode::ALREADY_EXISTS);
  EXPECT_EQ(ResourceOf(refusal).resource_name(), "patterns/shawl/testCalls/spring/setAsides/x1");
}

TEST_F(ReconciliationHandlers, ASetAsideNeedsAQuantityANoteAndASeatOfItsCall) {
  const std::string before = AllRecords();
  EXPECT_THAT(FieldsOf(Refused("quantity { kind: QUANTITY_KIND_UNSPECIFIED }")),
              ElementsAre("quantity.kind"));
  EXPECT_THAT(FieldsOf(Refused(R"(note: "")")), ElementsAre("note"));
  EXPECT_THAT(FieldsOf(Refused(R"(parent: "patterns/shawl/testCalls/autumn")")),
              ElementsAre("seat"));
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(ReconciliationHandlers, ListsThemWithoutTheirResultsNewestFirst) {
  v1::CreateReconciliationRequest create;
  Merge(kSpring, create);
  const auto second =
      Call<v1::Reconciliation>("ReconciliationService.CreateReconciliation", create);
  EXPECT_EQ(second.name(), "patterns/shawl/testCalls/spring/reconciliations/2");
  v1::ListReconciliationsRequest list;
  Merge(kSpring, list);
  const auto listed =
      Call<v1::ListReconciliationsResponse>("ReconciliationService.ListReconciliations", list);
  ASSERT_EQ(listed.reconciliations_size(), 2);
  EXPECT_EQ(listed.reconciliations(0).name(), second.name());
  EXPECT_EQ(listed.reconciliations(0).quantities_size(), 0);
}

}  // namespace
}  // namespace rowproof::rpc
