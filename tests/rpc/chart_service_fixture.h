// ChartService as any client calls it, inside this process and without storage; and small charts.
#ifndef ROWPROOF_TESTS_RPC_CHART_SERVICE_FIXTURE_H_
#define ROWPROOF_TESTS_RPC_CHART_SERVICE_FIXTURE_H_

#include <gmock/gmock.h>
#include <google/rpc/error_details.pb.h>
#include <google/rpc/status.pb.h>
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "rowproof/v1/chart_service.grpc.pb.h"
#include "services/rpc/local_charts.h"

namespace rowproof::rpc {

using Lines = std::vector<std::string>;

// Lines from the top; 'x' and 'B' are set cells, stitch 1 is the last letter.
inline v1::Chart ChartOf(const Lines& lines, v1::Convention convention) {
  v1::Chart chart;
  chart.set_row_count(static_cast<int>(lines.size()));
  chart.set_stitch_count(static_cast<int>(lines.front().size()));
  chart.set_convention(convention);
  const size_t width = (lines.front().size() + 7) / 8;
  std::string& cells = *chart.mutable_cells();
  for (auto line = lines.rbegin(); line != lines.rend(); ++line) {
    std::string row(width, '\0');
    for (size_t i = 0; i < line->size(); ++i) {
      const char c = (*line)[line->size() - 1 - i];
      if (c == 'x' || c == 'B') row[i / 8] = static_cast<char>(row[i / 8] | 1 << i % 8);
    }
    cells += row;
  }
  return chart;
}

// A picture that names its cells' colours; the letters of `rows` from the bottom.
inline v1::Chart NamedChart(const Lines& lines, const std::string& rows) {
  v1::Chart chart = ChartOf(lines, v1::CONVENTION_PICTURE);
  chart.clear_cells();
  for (const char letter : rows) chart.add_row_colours(static_cast<v1::Colour>(letter - 'A' + 1));
  for (auto line = lines.rbegin(); line != lines.rend(); ++line) {
    for (auto cell = line->rbegin(); cell != line->rend(); ++cell) {
      *chart.mutable_picture_colours() += static_cast<char>(*cell - 'A' + 1);
    }
  }
  return chart;
}

inline v1::Design Picture(const Lines& lines) {
  v1::Design design;
  *design.mutable_chart() = ChartOf(lines, v1::CONVENTION_PICTURE);
  return design;
}
inline v1::Design Working(const Lines& lines) {
  v1::Design design;
  *design.mutable_chart() = ChartOf(lines, v1::CONVENTION_WORKING);
  return design;
}

// A motif that every technique can work: one off-colour cell in rows 2 and 4.
inline const Lines kMotif = {"AAAAA", "BBABB", "AAAAA", "BBABB", "AAAAA"};

class ChartServiceTest : public testing::Test {
 protected:
  ChartServiceTest() : stub_(v1::ChartService::NewStub(charts_.channel())) {}

  template <typename Request, typename Answer>
  using Method = grpc::Status (v1::ChartService::StubInterface::*)(grpc::ClientContext*,
                                                                   const Request&, Answer*);
  template <typename Request, typename Answer>
  Answer Ask(Method<Request, Answer> method, const Request& request) {
    grpc::ClientContext context;
    Answer answer;
    const grpc::Status status = (stub_.get()->*method)(&context, request, &answer);
    EXPECT_TRUE(status.ok()) << status.error_code() << ": " << status.error_message();
    return answer;
  }
  template <typename Request, typename Answer>
  grpc::Status Refusal(Method<Request, Answer> method, const Request& request) {
    grpc::ClientContext context;
    Answer answer;
    return (stub_.get()->*method)(&context, request, &answer);
  }
  // INVALID_ARGUMENT that names this field, and says what was met and what is accepted.
  template <typename Request, typename Answer>
  void ExpectWrongField(Method<Request, Answer> method, const Request& request,
                        const std::string& field, const std::string& met,
                        const std::string& accepted) {
    const grpc::Status status = Refusal(method, request);
    EXPECT_EQ(status.error_code(), grpc::INVALID_ARGUMENT) << field << status.error_message();
    google::rpc::Status sent;
    ASSERT_TRUE(sent.ParseFromString(status.error_details()));
    google::rpc::BadRequest bad;
    for (const auto& detail : sent.details()) detail.UnpackTo(&bad);
    ASSERT_EQ(bad.field_violations_size(), 1) << field << ": " << status.error_message();
    EXPECT_EQ(bad.field_violations(0).field(), field);
    EXPECT_THAT(bad.field_violations(0).description(), testing::HasSubstr(met));
    EXPECT_THAT(bad.field_violations(0).description(), testing::HasSubstr(accepted));
  }
  template <typename Request, typename Answer>
  void ExpectUnmet(Method<Request, Answer> method, const Request& request, const std::string& type,
                   const std::string& subject) {
    const grpc::Status status = Refusal(method, request);
    EXPECT_EQ(status.error_code(), grpc::FAILED_PRECONDITION) << status.error_message();
    google::rpc::Status sent;
    ASSERT_TRUE(sent.ParseFromString(status.error_details()));
    google::rpc::PreconditionFailure failure;
    for (const auto& detail : sent.details()) detail.UnpackTo(&failure);
    ASSERT_GE(failure.violations_size(), 1) << status.error_message();
    EXPECT_EQ(failure.violations(0).type(), type);
    EXPECT_EQ(failure.violations(0).subject(), subject);
  }

  v1::CheckResult Check(const v1::Design& design) {
    v1::CheckChartRequest request;
    *request.mutable_design() = design;
    return Ask(&Stub::CheckChart, request);
  }
  // As the service read it.
  v1::Design ReadBack(const v1::Design& design) {
    v1::ConvertChartRequest request;
    *request.mutable_design() = design;
    return Ask(&Stub::ConvertChart, request).design();
  }

  using Stub = v1::ChartService::StubInterface;
  LocalCharts charts_;
  std::unique_ptr<v1::ChartService::Stub> stub_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_TESTS_RPC_CHART_SERVICE_FIXTURE_H_
