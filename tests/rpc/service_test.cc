// A service's table has every method that the API declares, with its messages.
#include "services/rpc/service.h"

#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include "rowproof/v1/reconciliation_service.grpc.pb.h"
#include "services/rpc/charts/chart_service.h"

namespace rowproof::rpc {
namespace {

class NoObserver : public RequestObserver {
 public:
  void Served(const ServedRequest&) override {}
};

// Of no service of ours: the tables below leave methods out, or have wrong ones.
absl::StatusOr<v1::Reconciliation> Get(const v1::GetReconciliationRequest&, const Stop&) {
  return v1::Reconciliation();
}
absl::StatusOr<v1::ListReconciliationsResponse> List(const v1::ListReconciliationsRequest&,
                                                     const Stop&) {
  return v1::ListReconciliationsResponse();
}

TEST(Service, HasEveryMethodOfChartService) {
  NoObserver observer;
  const Dispatcher dispatcher(observer);
  const usecases::CalibrationLookup lookup;
  const auto charts = MakeChartService(dispatcher, lookup);
  EXPECT_EQ(charts->full_name(), "rowproof.v1.ChartService");
}

TEST(ServiceDeathTest, RefusesATableThatLeavesMethodsOut) {
  NoObserver observer;
  const Dispatcher dispatcher(observer);
  EXPECT_DEATH(Service(dispatcher, "ReconciliationService", {MethodOf("GetReconciliation", Get)}),
               "method_count");
}

TEST(ServiceDeathTest, RefusesAMethodWithAnothersMessages) {
  NoObserver observer;
  const Dispatcher dispatcher(observer);
  const auto* declared = google::protobuf::DescriptorPool::generated_pool()->FindServiceByName(
      "rowproof.v1.ReconciliationService");
  std::vector<Method> methods;
  for (int i = 0; i < declared->method_count(); ++i) {
    methods.push_back(MethodOf(declared->method(i)->name(), List));
  }
  EXPECT_DEATH(Service(dispatcher, "ReconciliationService", methods), "input_type");
}

TEST(ServiceDeathTest, RefusesAServiceThatIsNotDeclared) {
  NoObserver observer;
  const Dispatcher dispatcher(observer);
  EXPECT_DEATH(Service(dispatcher, "TelegraphService", {}), "declared");
}

}  // namespace
}  // namespace rowproof::rpc
