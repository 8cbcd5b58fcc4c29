#include "tests/rpc/handlers/handler_fixture.h"

#include <google/protobuf/text_format.h>
#include <grpcpp/impl/codegen/client_unary_call.h>

#include "fmt/format.h"
#include "google/rpc/status.pb.h"
#include "services/rpc/handlers/services.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::DescriptorPool;
using google::protobuf::Message;
using google::protobuf::MessageFactory;
using google::protobuf::MessageLite;
using google::protobuf::MethodDescriptor;

template <typename Detail>
Detail DetailIn(const grpc::Status& status) {
  google::rpc::Status whole;
  Detail detail;
  if (!whole.ParseFromString(status.error_details())) return detail;
  for (const auto& any : whole.details()) {
    if (any.UnpackTo(&detail)) return detail;
  }
  return detail;
}

}  // namespace

google::rpc::ErrorInfo InfoOf(const grpc::Status& status) {
  return DetailIn<google::rpc::ErrorInfo>(status);
}

google::rpc::ResourceInfo ResourceOf(const grpc::Status& status) {
  return DetailIn<google::rpc::ResourceInfo>(status);
}

std::vector<std::string> FieldsOf(const grpc::Status& status) {
  std::vector<std::string> fields;
  const auto wrong = DetailIn<google::rpc::BadRequest>(status);
  for (const auto& violation : wrong.field_violations()) {
    fields.push_back(violation.field());
  }
  return fields;
}

std::vector<std::string> ConditionsOf(const grpc::Status& status) {
  std::vector<std::string> types;
  const auto failure = DetailIn<google::rpc::PreconditionFailure>(status);
  for (const auto& violation : failure.violations()) {
    types.push_back(violation.type());
  }
  return types;
}

AnyMessage NewMessage(const google::protobuf::Descriptor& descriptor) {
  return AnyMessage(MessageFactory::generated_factory()->GetPrototype(&descriptor)->New());
}

void Merge(const std::string& text, Message& message) {
  ASSERT_TRUE(google::protobuf::TextFormat::MergeFromString(text, &message)) << text;
}

HandlerTest::HandlerTest() {
  AddAccount(kStranger);
  AddAccount(kNewcomer, false);
  AddPattern("mat", kDesigner);
  Execute(
      "insert into test_call select (jsonb_populate_record(c, "
      "'{\"call_id\": \"autumn\", \"state\": 1}')).* from test_call c where call_id = 'spring'");
  Execute(
      "insert into call_version select pattern_id, 'autumn', 1, created_at from test_call "
      "where call_id = 'autumn'");
  for (const auto make :
       {MakeAccountService, MakeCalibrationService, MakePatternService, MakeReconciliationService,
        MakeReleaseService, MakeReportService, MakeTestCallService}) {
    services_.push_back(make(dispatcher_, application_));
  }
  grpc::ServerBuilder builder;
  for (const auto& service : services_) builder.RegisterService(service.get());
  server_ = builder.BuildAndStart();
  channel_ = server_->InProcessChannel({});
}

HandlerTest::~HandlerTest() { server_->Shutdown(); }

const MethodDescriptor& HandlerTest::MethodCalled(const std::string& method) {
  const MethodDescriptor* found =
      DescriptorPool::generated_pool()->FindMethodByName("rowproof.v1." + method);
  EXPECT_NE(found, nullptr) << method;
  return *found;
}

grpc::Status HandlerTest::Send(const std::string& method, const Message& request, Message* answer,
                               const std::string& caller) {
  const MethodDescriptor& called = MethodCalled(method);
  const std::string path = "/" + called.service()->full_name() + "/" + called.name();
  grpc::ClientContext context;
  if (!caller.empty()) context.AddMetadata("authorization", "Bearer " + caller);
  const grpc::internal::RpcMethod rpc(path.c_str(), grpc::internal::RpcMethod::NORMAL_RPC);
  return grpc::internal::BlockingUnaryCall<MessageLite, MessageLite, MessageLite, MessageLite>(
      channel_.get(), rpc, &context, request, answer);
}

grpc::Status HandlerTest::Refusal(const std::string& method, const Message& request,
                                  const std::string& caller) {
  return Send(method, request, NewMessage(*MethodCalled(method).output_type()).get(), caller);
}

std::string HandlerTest::OfEveryTable(const std::string& expression) {
  return Execute(fmt::format(
      "select string_agg(table_name || ' ' || (xpath('/row/found/text()', query_to_xml("
      "format('select {} as found from %I t', table_name), false, true, '')))[1]::text, E'\\n' "
      "order by table_name) from information_schema.tables "
      "where table_schema = 'public' and table_type = 'BASE TABLE'",
      expression));
}

std::string HandlerTest::AllRecords() {
  return OfEveryTable("md5(coalesce(string_agg(t::text, '''' order by t::text), ''''))");
}

std::string HandlerTest::RecordCounts() { return OfEveryTable("count(*)"); }

std::string FourMore(const std::string& table, const std::string& like,
                     const std::string& columns) {
  return fmt::format(
      "insert into {0} select (jsonb_populate_record(r, jsonb_build_object({2}))).* "
      "from {0} r, generate_series(2, 5) n where {1};",
      table, like, columns);
}

}  // namespace rowproof::rpc
