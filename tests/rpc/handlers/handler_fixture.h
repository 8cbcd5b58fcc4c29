// Every service over a database of its own with a record of each kind in it, called through gRPC
// within the process.
#ifndef ROWPROOF_TESTS_RPC_HANDLERS_HANDLER_FIXTURE_H_
#define ROWPROOF_TESTS_RPC_HANDLERS_HANDLER_FIXTURE_H_

#include <google/protobuf/descriptor.h>
#include <google/protobuf/message.h>
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <memory>
#include <pqxx/pqxx>
#include <string>
#include <vector>

#include "google/rpc/error_details.pb.h"
#include "services/rpc/dispatcher.h"
#include "services/rpc/service.h"
#include "services/usecases/application.h"
#include "tests/storage/filled_fixture.h"

namespace rowproof::rpc {

// Accounts, each with a token of the same name: ada designs "shawl" and "mat", tea tests "shawl",
// kim is invited where a test says so, and eve knows nobody.
inline constexpr char kDesigner[] = "ada";
inline constexpr char kTester[] = "tea";
inline constexpr char kNewcomer[] = "kim";
inline constexpr char kStranger[] = "eve";
inline constexpr char kNobody[] = "";  // no token

// Details of a refusal.
google::rpc::ErrorInfo InfoOf(const grpc::Status& status);
google::rpc::ResourceInfo ResourceOf(const grpc::Status& status);
// The fields that BadRequest names.
std::vector<std::string> FieldsOf(const grpc::Status& status);
// The types of the conditions that PreconditionFailure names.
std::vector<std::string> ConditionsOf(const grpc::Status& status);

// One message by its descriptor.
using AnyMessage = std::unique_ptr<google::protobuf::Message>;
AnyMessage NewMessage(const google::protobuf::Descriptor& descriptor);
// Adds what a message in the text format says to `message`; what is there is replaced.
void Merge(const std::string& text, google::protobuf::Message& message);

// The calls, patterns and accounts that the tests share are those of FilledStorage, with the
// pattern "mat", the draft call "autumn" of "shawl", and the accounts above.
class HandlerTest : public storage::FilledStorage {
 protected:
  HandlerTest();
  ~HandlerTest() override;

  // `method` is "PatternService.GetPattern".
  static const google::protobuf::MethodDescriptor& MethodCalled(const std::string& method);
  grpc::Status Send(const std::string& method, const google::protobuf::Message& request,
                    google::protobuf::Message* answer, const std::string& caller = kDesigner);
  // The answer; a refusal fails the test.
  template <typename Response>
  Response Call(const std::string& method, const google::protobuf::Message& request,
                const std::string& caller = kDesigner) {
    Response response;
    const grpc::Status status = Send(method, request, &response, caller);
    EXPECT_TRUE(status.ok()) << method << ": " << status.error_message();
    return response;
  }
  // The refusal of a request, or OK.
  grpc::Status Refusal(const std::string& method, const google::protobuf::Message& request,
                       const std::string& caller = kDesigner);

  // A digest of every record, so that a test sees whether anything was written.
  std::string AllRecords();
  // How many records each table has.
  std::string RecordCounts();

  testing::NumberedIdentifiers identifiers_;
  usecases::VersionCache versions_;
  usecases::Application application_{database_, identifiers_, clock_, versions_};

 private:
  class Unobserved : public RequestObserver {
   public:
    void Served(const ServedRequest&) override {}
  };
  // Of every table, `expression` over its records t.
  std::string OfEveryTable(const std::string& expression);

  Unobserved unobserved_;
  Dispatcher dispatcher_{unobserved_};
  std::vector<std::unique_ptr<Service>> services_;
  std::unique_ptr<grpc::Server> server_;
  std::shared_ptr<grpc::Channel> channel_;
};

// SQL for four more records of `table`, like the one where `like` holds, with n from 2 to 5 in
// their `columns`: "'editor_id', 'm' || n".
std::string FourMore(const std::string& table, const std::string& like, const std::string& columns);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_TESTS_RPC_HANDLERS_HANDLER_FIXTURE_H_
