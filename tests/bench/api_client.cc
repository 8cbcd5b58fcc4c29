#include "tests/bench/api_client.h"

#include <google/protobuf/empty.pb.h>
#include <grpcpp/client_context.h>

#include <random>
#include <stdexcept>

#include "fmt/format.h"
#include "tests/bench/bare_insert.h"
#include "tests/bench/live_server.h"
#include "tests/bench/sample_charts.h"

namespace rowproof::bench {
namespace {

v1::Materials ToProto(const estimate::Materials& materials) {
  v1::Materials to;
  for (const auto role : {v1::YARN_ROLE_A, v1::YARN_ROLE_B}) {
    v1::ColourYarn* added = to.add_yarns();
    added->set_role(role);
    v1::Yarn* yarn = added->mutable_yarn();
    yarn->set_weight_class(*materials.yarn_a.weight_class);
    yarn->mutable_ball_band()->set_length_m(*materials.yarn_a.ball_length_m);
    yarn->mutable_ball_band()->set_mass_g(*materials.yarn_a.ball_mass_g);
  }
  to.mutable_gauge()->set_stitches_per_decimetre(materials.gauge.stitches_per_decimetre);
  to.mutable_gauge()->set_rows_per_decimetre(materials.gauge.rows_per_decimetre);
  return to;
}

template <typename Response, typename Stub, typename Request, typename Method>
Response Send(Stub& stub, Method method, const char* name, const std::string& token,
              const Request& request) {
  grpc::ClientContext context;
  context.set_deadline(std::chrono::system_clock::now() + std::chrono::seconds(30));
  // A channel's first connection can fail when the machine is busy; gRPC makes another.
  context.set_wait_for_ready(true);
  if (!token.empty()) context.AddMetadata("authorization", "Bearer " + token);
  Response response;
  const grpc::Status status = (stub.*method)(&context, request, &response);
  if (!status.ok()) {
    throw std::runtime_error(fmt::format(
        "{}: code {}, {}", name, static_cast<int>(status.error_code()), status.error_message()));
  }
  return response;
}

}  // namespace

v1::VersionContent ContentOf(const chart::Design& design) {
  v1::VersionContent content;
  content.set_title("Invented blanket");
  v1::Design* to = content.mutable_design();
  to->set_technique(v1::TECHNIQUE_SPIKE);
  to->set_facing(v1::FACING_TWO_FACE);
  to->set_ends(v1::ENDS_CUT);
  v1::Chart* chart = to->mutable_chart();
  chart->set_row_count(design.cells.rows());
  chart->set_stitch_count(design.cells.stitches());
  chart->set_convention(v1::CONVENTION_PICTURE);
  const size_t row_bytes = static_cast<size_t>(design.cells.stitches() + 7) / 8;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const auto* bytes = reinterpret_cast<const char*>(design.cells.row(row).data());
    chart->mutable_cells()->append(bytes, row_bytes);
  }
  for (const auto& size : design.sizes) to->add_sizes()->set_name(size.name);
  *content.mutable_materials() = ToProto(SampleMaterials());
  return content;
}

std::string NewRequestId() {
  static std::mt19937_64 random{std::random_device{}()};
  const uint64_t high = random();
  const uint64_t low = random();
  return fmt::format("{:08x}-{:04x}-4{:03x}-8{:03x}-{:012x}", high >> 32, high >> 16 & 0xffff,
                     high & 0xfff, low >> 52, low & 0xffffffffffff);
}

ApiClient::ApiClient(const std::string& address, const std::string& token)
    : channel_(OwnChannel(address)),
      token_(token),
      patterns_(v1::PatternService::NewStub(channel_)),
      calls_(v1::TestCallService::NewStub(channel_)),
      reports_(v1::ReportService::NewStub(channel_)) {}

v1::Pattern ApiClient::CreatePattern(const v1::CreatePatternRequest& request) {
  return Send<v1::Pattern>(*patterns_, &v1::PatternService::Stub::CreatePattern, "CreatePattern",
                           token_, request);
}

v1::Version ApiClient::CreateVersion(const v1::CreateVersionRequest& request) {
  return Send<v1::Version>(*patterns_, &v1::PatternService::Stub::CreateVersion, "CreateVersion",
                           token_, request);
}

v1::EstimateResult ApiClient::EstimateVersion(const v1::EstimateVersionRequest& request) {
  return Send<v1::EstimateResult>(*patterns_, &v1::PatternService::Stub::EstimateVersion,
                                  "EstimateVersion", token_, request);
}

v1::TestCall ApiClient::CreateTestCall(const v1::CreateTestCallRequest& request) {
  return Send<v1::TestCall>(*calls_, &v1::TestCallService::Stub::CreateTestCall, "CreateTestCall",
                            token_, request);
}

v1::TestCall ApiClient::OpenTestCall(const v1::OpenTestCallRequest& request) {
  return Send<v1::TestCall>(*calls_, &v1::TestCallService::Stub::OpenTestCall, "OpenTestCall",
                            token_, request);
}

v1::Seat ApiClient::CreateSeat(const v1::CreateSeatRequest& request) {
  return Send<v1::Seat>(*calls_, &v1::TestCallService::Stub::CreateSeat, "CreateSeat", token_,
                        request);
}

v1::TakeSeatResponse ApiClient::TakeSeat(const v1::TakeSeatRequest& request) {
  return Send<v1::TakeSeatResponse>(*calls_, &v1::TestCallService::Stub::TakeSeat, "TakeSeat",
                                    token_, request);
}

v1::Report ApiClient::CreateReport(const v1::CreateReportRequest& request) {
  return Send<v1::Report>(*reports_, &v1::ReportService::Stub::CreateReport, "CreateReport", token_,
                          request);
}

void ApiClient::CheckHealth() {
  // Of the published health.proto: an empty request asks for the server; field 1 of the answer is 1
  // for SERVING.
  constexpr char kServing[] = "\x08\x01";
  const google::protobuf::Empty request;
  google::protobuf::Empty response;
  CallMethod(*channel_, "/grpc.health.v1.Health/Check", request, &response);
  if (response.SerializeAsString() != kServing) throw std::runtime_error("the server is not well");
}

}  // namespace rowproof::bench
