// A caller of the service's API for the benchmarks. Every method throws std::runtime_error with
// code and message where the answer is not OK.
#ifndef ROWPROOF_TESTS_BENCH_API_CLIENT_H_
#define ROWPROOF_TESTS_BENCH_API_CLIENT_H_

#include <memory>
#include <string>

#include "rowproof/v1/pattern_service.grpc.pb.h"
#include "rowproof/v1/report_service.grpc.pb.h"
#include "rowproof/v1/test_call_service.grpc.pb.h"
#include "services/domain/chart/design.h"

namespace rowproof::bench {

// The content of a version: the design's cells as bits, its sizes, and SampleMaterials().
v1::VersionContent ContentOf(const chart::Design& design);
// A random UUID, as clients send with what creates.
std::string NewRequestId();

// One account's view, over a connection of its own. Safe from one thread at a time.
class ApiClient {
 public:
  // `token`: empty where nobody is signed in.
  ApiClient(const std::string& address, const std::string& token);

  v1::Pattern CreatePattern(const v1::CreatePatternRequest& request);
  v1::Version CreateVersion(const v1::CreateVersionRequest& request);
  v1::EstimateResult EstimateVersion(const v1::EstimateVersionRequest& request);
  v1::TestCall CreateTestCall(const v1::CreateTestCallRequest& request);
  v1::TestCall OpenTestCall(const v1::OpenTestCallRequest& request);
  v1::Seat CreateSeat(const v1::CreateSeatRequest& request);
  v1::TakeSeatResponse TakeSeat(const v1::TakeSeatRequest& request);
  v1::Report CreateReport(const v1::CreateReportRequest& request);
  // That grpc.health.v1 says SERVING.
  void CheckHealth();

 private:
  const std::shared_ptr<grpc::Channel> channel_;
  const std::string token_;
  const std::unique_ptr<v1::PatternService::Stub> patterns_;
  const std::unique_ptr<v1::TestCallService::Stub> calls_;
  const std::unique_ptr<v1::ReportService::Stub> reports_;
};

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_API_CLIENT_H_
