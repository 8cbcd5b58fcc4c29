#include "services/client/failure.h"

#include <gtest/gtest.h>

#include "google/rpc/error_details.pb.h"
#include "google/rpc/status.pb.h"

namespace rowproof::client {
namespace {

using grpc::StatusCode;

template <typename... Details>
grpc::Status Status(StatusCode code, const std::string& message, const Details&... details) {
  google::rpc::Status all;
  all.set_code(code);
  all.set_message(message);
  (all.add_details()->PackFrom(details), ...);
  return {code, message, all.SerializeAsString()};
}

TEST(ExitCode, TellsRefusalAbsenceOutageAndFaultApart) {
  EXPECT_EQ(ExitCodeOf(grpc::Status::OK), ExitCode::kDone);
  for (const auto code :
       {StatusCode::INVALID_ARGUMENT, StatusCode::FAILED_PRECONDITION, StatusCode::UNIMPLEMENTED,
        StatusCode::ABORTED, StatusCode::ALREADY_EXISTS, StatusCode::PERMISSION_DENIED,
        StatusCode::UNAUTHENTICATED, StatusCode::OUT_OF_RANGE, StatusCode::RESOURCE_EXHAUSTED}) {
    EXPECT_EQ(ExitCodeOf({code, "x"}), ExitCode::kRefused) << code;
  }
  EXPECT_EQ(ExitCodeOf({StatusCode::NOT_FOUND, "x"}), ExitCode::kNotFound);
  EXPECT_EQ(ExitCodeOf({StatusCode::UNAVAILABLE, "x"}), ExitCode::kUnavailable);
  EXPECT_EQ(ExitCodeOf({StatusCode::DEADLINE_EXCEEDED, "x"}), ExitCode::kUnavailable);
  for (const auto code :
       {StatusCode::INTERNAL, StatusCode::UNKNOWN, StatusCode::DATA_LOSS, StatusCode::CANCELLED}) {
    EXPECT_EQ(ExitCodeOf({code, "x"}), ExitCode::kInternalError) << code;
  }
}

TEST(ExitCode, IsAnOutageWhereAnExhaustedServerSaysWhenToComeBack) {
  google::rpc::RetryInfo retry;
  retry.mutable_retry_delay()->set_seconds(1);
  EXPECT_EQ(ExitCodeOf(Status(StatusCode::RESOURCE_EXHAUSTED, "busy", retry)),
            ExitCode::kUnavailable);
  EXPECT_EQ(ExitCodeOf(Status(StatusCode::RESOURCE_EXHAUSTED, "over the limit")),
            ExitCode::kRefused);
}

TEST(Line, NamesFieldOptionAndWhatItMustBe) {
  google::rpc::BadRequest bad;
  auto* violation = bad.add_field_violations();
  violation->set_field("design.file.tolerance");
  violation->set_description("must be between 0 and 255 (got \"300\")");
  EXPECT_EQ(LineOf(Status(StatusCode::INVALID_ARGUMENT, "message", bad)),
            "--tolerance must be between 0 and 255 (got \"300\")");
  violation->set_description("The picture is empty.");
  EXPECT_EQ(LineOf(Status(StatusCode::INVALID_ARGUMENT, "message", bad)),
            "--tolerance: The picture is empty.");
}

TEST(Line, CallsFieldsWhatTheCommandCallsThem) {
  google::rpc::BadRequest bad;
  auto* violation = bad.add_field_violations();
  violation->set_field("size");
  violation->set_description("must be one of the call's sizes (got \"tiny\")");
  const auto status = Status(StatusCode::INVALID_ARGUMENT, "message", bad);
  EXPECT_EQ(LineOf(status, {{"size", "SIZE"}}),
            "SIZE must be one of the call's sizes (got \"tiny\")");
  EXPECT_EQ(LineOf(status), "--size-name must be one of the call's sizes (got \"tiny\")");
}

TEST(Line, AddsEveryUnmetCondition) {
  google::rpc::PreconditionFailure unmet;
  unmet.add_violations()->set_description("errata are open");
  unmet.add_violations()->set_description("a size is not tested");
  EXPECT_EQ(LineOf(Status(StatusCode::FAILED_PRECONDITION, "gates are open", unmet)),
            "gates are open: errata are open; a size is not tested");
  EXPECT_EQ(LineOf(Status(StatusCode::FAILED_PRECONDITION, "1 gate: errata are open", unmet)),
            "1 gate: errata are open; a size is not tested");
}

TEST(Line, JoinsConditionsThatAreSentences) {
  google::rpc::PreconditionFailure unmet;
  unmet.add_violations()->set_description("Row 2 clashes.");
  unmet.add_violations()->set_description("Row 5 clashes.");
  EXPECT_EQ(LineOf(Status(StatusCode::FAILED_PRECONDITION, "locked: Row 2 clashes.", unmet)),
            "locked: Row 2 clashes; Row 5 clashes");
  for (int i = 0; i < 8; ++i) unmet.add_violations()->set_description("More.");
  EXPECT_EQ(LineOf(Status(StatusCode::FAILED_PRECONDITION, "locked: Row 2 clashes.", unmet)),
            "locked: Row 2 clashes; Row 5 clashes; More; More; More; More; More; and 3 more");
}

TEST(Line, StaysOneLineWithoutControlCharacters) {
  EXPECT_EQ(LineOf({StatusCode::NOT_FOUND, "two\nlines\x1b[31m"}), "two lines [31m");
  EXPECT_EQ(LineOf({StatusCode::UNKNOWN, "x", "these bytes are no details"}), "x");
}

}  // namespace
}  // namespace rowproof::client
