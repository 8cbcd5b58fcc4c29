// Each way in which an operation cannot be done, as gRPC tells it.
#include "services/rpc/status.h"

#include <gtest/gtest.h>

#include <optional>

#include "google/rpc/error_details.pb.h"
#include "google/rpc/status.pb.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

// The details of a status, each at most once.
struct Details {
  google::rpc::ErrorInfo info;
  std::optional<google::rpc::BadRequest> bad;
  std::optional<google::rpc::PreconditionFailure> failure;
  std::optional<google::rpc::ResourceInfo> resource;
  std::optional<google::rpc::RetryInfo> retry;
};

template <typename T>
void Take(const google::protobuf::Any& any, std::optional<T>* taken) {
  T message;
  if (!any.UnpackTo(&message)) return;
  EXPECT_FALSE(taken->has_value());
  *taken = message;
}

Details DetailsOf(const grpc::Status& status) {
  google::rpc::Status sent;
  EXPECT_TRUE(sent.ParseFromString(status.error_details()));
  EXPECT_EQ(sent.code(), static_cast<int>(status.error_code()));
  EXPECT_EQ(sent.message(), status.error_message());
  Details details;
  std::optional<google::rpc::ErrorInfo> info;
  for (const auto& any : sent.details()) {
    Take(any, &info);
    Take(any, &details.bad);
    Take(any, &details.failure);
    Take(any, &details.resource);
    Take(any, &details.retry);
  }
  EXPECT_TRUE(info.has_value());
  if (info.has_value()) details.info = *info;
  return details;
}

struct Case {
  absl::Status status;
  grpc::StatusCode code;
  std::string reason;
  bool bad = false, failure = false, resource = false, retry = false;
};

// One of each function of domain/errors.h.
std::vector<Case> Cases() {
  using std::chrono::milliseconds;
  return {
      {InvalidField("f", "v", "w"), grpc::INVALID_ARGUMENT, "INVALID_FIELD", true},
      {InvalidFields({{"f", "d"}, {"g", "e"}}), grpc::INVALID_ARGUMENT, "INVALID_FIELD", true},
      {MissingField("f", "w"), grpc::INVALID_ARGUMENT, "INVALID_FIELD", true},
      {RequestIdReused(), grpc::INVALID_ARGUMENT, "REQUEST_ID_REUSED", true},
      {NotFound("pattern", "patterns/a"), grpc::NOT_FOUND, "NOT_FOUND", false, false, true},
      {NotSignedIn(), grpc::UNAUTHENTICATED, "NOT_SIGNED_IN"},
      {NotAllowed("do it", "she"), grpc::PERMISSION_DENIED, "NOT_ALLOWED"},
      {WrongState("CALL_STATE", "calls/a", "s"), grpc::FAILED_PRECONDITION, "CALL_STATE", false,
       true},
      {UnmetConditions("s", {{"GATE", "a", "b"}, {"OTHER", "c", "d"}}), grpc::FAILED_PRECONDITION,
       "GATE", false, true},
      {StaleEtag("patterns/a"), grpc::ABORTED, "STALE_ETAG", false, false, true},
      {NoCapacity("it", milliseconds(1250)), grpc::RESOURCE_EXHAUSTED, "NO_CAPACITY", false, false,
       false, true},
      {OverLimit("it", "3"), grpc::RESOURCE_EXHAUSTED, "OVER_LIMIT"},
      {DatabaseAway(), grpc::UNAVAILABLE, "DATABASE_AWAY", false, false, false, true},
      {TimeUp(), grpc::DEADLINE_EXCEEDED, "TIME_UP"},
      {Internal("abc"), grpc::INTERNAL, "INTERNAL"},
  };
}

TEST(Status, CarriesTheDetailsThatItsKindOfNoHas) {
  for (const Case& expected : Cases()) {
    const grpc::Status met = ToGrpc(expected.status);
    EXPECT_EQ(met.error_code(), expected.code) << expected.reason;
    EXPECT_EQ(met.error_message(), std::string(expected.status.message()));
    const Details details = DetailsOf(met);
    EXPECT_EQ(details.info.reason(), expected.reason);
    EXPECT_EQ(details.info.domain(), kErrorDomain);
    EXPECT_EQ(details.bad.has_value(), expected.bad) << expected.reason;
    EXPECT_EQ(details.failure.has_value(), expected.failure) << expected.reason;
    EXPECT_EQ(details.resource.has_value(), expected.resource) << expected.reason;
    EXPECT_EQ(details.retry.has_value(), expected.retry) << expected.reason;
  }
}

TEST(Status, NamesEveryFieldAndEveryCondition) {
  const Details bad = DetailsOf(ToGrpc(InvalidFields({{"f", "d"}, {"g[1].h", "e"}})));
  ASSERT_EQ(bad.bad->field_violations_size(), 2);
  EXPECT_EQ(bad.bad->field_violations(1).field(), "g[1].h");
  EXPECT_EQ(bad.bad->field_violations(1).description(), "e");
  const Details unmet = DetailsOf(ToGrpc(UnmetConditions("s", {{"A", "b", "c"}, {"D", "e", "f"}})));
  ASSERT_EQ(unmet.failure->violations_size(), 2);
  EXPECT_EQ(unmet.failure->violations(1).type(), "D");
  EXPECT_EQ(unmet.failure->violations(1).subject(), "e");
  EXPECT_EQ(unmet.failure->violations(1).description(), "f");
}

TEST(Status, NamesTheResource) {
  const Details details = DetailsOf(ToGrpc(NotFound("pattern", "patterns/a")));
  EXPECT_EQ(details.resource->resource_type(), "pattern");
  EXPECT_EQ(details.resource->resource_name(), "patterns/a");
}

TEST(Status, SaysWhenToComeAgain) {
  const Details details = DetailsOf(ToGrpc(NoCapacity("it", std::chrono::milliseconds(1250))));
  EXPECT_EQ(details.retry->retry_delay().seconds(), 1);
  EXPECT_EQ(details.retry->retry_delay().nanos(), 250'000'000);
}

TEST(Status, TellsTheIncidentOfAFault) {
  EXPECT_EQ(DetailsOf(ToGrpc(Internal("abc"))).info.metadata().at("incident"), "abc");
}

TEST(Status, OfAnotherMakerHasNoReasonOfOurs) {
  EXPECT_EQ(DetailsOf(ToGrpc(absl::DataLossError("words"))).info.reason(), "UNKNOWN");
  EXPECT_TRUE(ToGrpc(absl::OkStatus()).ok());
}

}  // namespace
}  // namespace rowproof::rpc
