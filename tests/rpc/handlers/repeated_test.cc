// A write that is sent again under its request_id is carried out once.

#include <gmock/gmock.h>

#include <set>

#include "fmt/format.h"
#include "rowproof/v1/pattern_service.pb.h"
#include "tests/rpc/handlers/message_fields.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::Message;
using ::testing::ElementsAre;

}  // namespace

void EveryService::ExpectRepeatable(const MethodRow& row) {
  const std::string id = fmt::format("6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e{:02x}", used_ids_++);
  const AnyMessage request = Prepared(row);
  const auto send = [&](const Message& sent, const std::string& caller, AnyMessage* answer) {
    *answer = NewMessage(*MethodCalled(Called(row)).output_type());
    return Send(Called(row), sent, answer->get(), caller);
  };
  AnyMessage first, second;
  SetText(*request, "request_id", "not-a-uuid");
  EXPECT_THAT(FieldsOf(send(*request, row.caller, &first)), ElementsAre("request_id"));

  SetText(*request, "request_id", id);
  const std::string before = RecordCounts();
  const grpc::Status done = send(*request, row.caller, &first);
  EXPECT_TRUE(done.ok()) << done.error_message();
  EXPECT_NE(RecordCounts(), before);  // the claim at least
  const std::string counts = RecordCounts();
  const std::string records = AllRecords();
  const grpc::Status repeated = send(*request, row.caller, &second);
  EXPECT_TRUE(repeated.ok()) << repeated.error_message();
  std::set<std::string> secrets, replaced;
  Take(*first, {"secret", "invitation"}, &secrets);
  Take(*second, {"secret", "invitation"}, &replaced);
  EXPECT_EQ(secrets.empty(), !row.gives_secret);
  EXPECT_EQ(secrets.size(), replaced.size());
  for (const std::string& secret : secrets) EXPECT_FALSE(replaced.contains(secret));
  EXPECT_EQ(Shown(*second), Shown(*first));
  EXPECT_EQ(RecordCounts(), counts);
  if (!row.gives_secret) {
    EXPECT_EQ(AllRecords(), records);
  }

  AnyMessage other = NewMessage(*request->GetDescriptor());
  other->CopyFrom(*request);
  if (row.form_of.empty()) {
    Merge(row.other, *other);
  } else {
    SetText(*other, "form_text", TextAt(*request, "form_text") + "\n");
  }
  EXPECT_NE(Shown(*other), Shown(*request)) << "the row needs another request";
  const std::string after = AllRecords();
  const grpc::Status reused = send(*other, row.caller, &second);
  EXPECT_EQ(reused.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << reused.error_message();
  EXPECT_EQ(InfoOf(reused).reason(), "REQUEST_ID_REUSED");
  EXPECT_EQ(AllRecords(), after);

  // The id is another account's own to use, and gives it no answer that is not its own.
  v1::CreatePatternRequest own;
  own.set_title("Invented rug");
  own.set_request_id(id);
  Call<v1::Pattern>("PatternService.CreatePattern", own, kStranger);
  const grpc::Status others = send(*request, kStranger, &second);
  EXPECT_THAT(InfoOf(others).reason(), ::testing::AnyOf("NOT_FOUND", "REQUEST_ID_REUSED"));
}

TEST_P(EveryService, DoesARepeatedRequestOnce) {
  for (const MethodRow& row : GetParam().rows) {
    SCOPED_TRACE(row.method);
    if (Has(RequestOf(row), "request_id")) ExpectRepeatable(row);
  }
}

}  // namespace rowproof::rpc
