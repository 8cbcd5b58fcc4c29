// Writes are only made over the state that their caller knows, and to the fields that may change.

#include <gmock/gmock.h>
#include <google/protobuf/field_mask.pb.h>

#include <algorithm>

#include "tests/rpc/handlers/message_fields.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::Descriptor;
using ::testing::ElementsAre;

}  // namespace

void EveryService::ExpectEtagChecked(const MethodRow& row) {
  const AnyMessage request = Prepared(row);
  const std::string before = AllRecords();
  for (const std::string none : {"r0", "r-1", "r01", "R1", "r1 ", "1", "r99999999999", "latest"}) {
    SetText(*request, row.etag, none);
    const grpc::Status refusal = Refusal(Called(row), *request, row.caller);
    EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << none;
    EXPECT_THAT(FieldsOf(refusal), ElementsAre(row.etag)) << none;
  }
  SetText(*request, row.etag, "r987");
  const grpc::Status stale = Refusal(Called(row), *request, row.caller);
  EXPECT_EQ(stale.error_code(), grpc::StatusCode::ABORTED) << stale.error_message();
  EXPECT_EQ(InfoOf(stale).reason(), "STALE_ETAG");
  EXPECT_EQ(AllRecords(), before);
  const std::string reader = GetParam().service + "." + row.read_by;
  const AnyMessage read_request = NewMessage(*MethodCalled(reader).input_type());
  Merge(row.read_request, *read_request);
  const AnyMessage read = NewMessage(*MethodCalled(reader).output_type());
  ASSERT_TRUE(Send(reader, *read_request, read.get(), row.caller).ok());
  SetText(*request, row.etag, TextAt(*read, "etag"));
  const grpc::Status current = Refusal(Called(row), *request, row.caller);
  EXPECT_TRUE(current.ok()) << current.error_message();
  EXPECT_NE(AllRecords(), before);
}

void EveryService::ExpectMaskChecked(const MethodRow& row) {
  const AnyMessage request = Prepared(row);
  const Descriptor& resource =
      *request->GetDescriptor()->FindFieldByName(row.resource)->message_type();
  std::vector<std::string> refused = {"nothing", ".", "", row.resource};
  for (int i = 0; i < resource.field_count(); ++i) {
    const std::string field = resource.field(i)->name();
    const bool may_change = std::count(row.changeable.begin(), row.changeable.end(), field) > 0;
    if (!may_change) refused.push_back(field);
    for (const char* wrong : {".", ".nothing", "..title", " "}) refused.push_back(field + wrong);
  }
  const std::string before = AllRecords();
  const auto mask = [&](const std::vector<std::string>& paths) {
    google::protobuf::FieldMask read;
    for (const std::string& path : paths) read.add_paths(path);
    const auto [at, field] = FieldAt(*request, "update_mask");
    at->GetReflection()->MutableMessage(at, field)->CopyFrom(read);
    return Refusal(Called(row), *request, row.caller);
  };
  for (const std::string& path : refused) {
    for (const std::vector<std::string>& paths :
         {std::vector<std::string>{path}, std::vector<std::string>{row.changeable[0], path}}) {
      const grpc::Status refusal = mask(paths);
      EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << path;
      EXPECT_THAT(FieldsOf(refusal), ElementsAre("update_mask")) << path;
    }
  }
  EXPECT_THAT(FieldsOf(mask({row.changeable[0], "*"})), ElementsAre("update_mask"));
  EXPECT_EQ(AllRecords(), before);
  const grpc::Status changed = mask({row.changeable[0]});
  EXPECT_TRUE(changed.ok()) << changed.error_message();
}

TEST_P(EveryService, WritesOnlyOverTheStateThatItsCallerKnows) {
  for (const MethodRow& row : GetParam().rows) {
    SCOPED_TRACE(row.method);
    if (!row.etag.empty()) ExpectEtagChecked(row);
  }
}

TEST_P(EveryService, ChangesNoFieldThatAMaskMayNotName) {
  for (const MethodRow& row : GetParam().rows) {
    SCOPED_TRACE(row.method);
    if (!row.resource.empty()) ExpectMaskChecked(row);
  }
}

}  // namespace rowproof::rpc
