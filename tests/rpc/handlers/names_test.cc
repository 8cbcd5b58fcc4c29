// Every method refuses names that are none, and keeps what is another's to its owner.

#include <gmock/gmock.h>

#include <regex>

#include "tests/rpc/handlers/message_fields.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;

// A name of the same collection, of something that is not there.
std::string Absent(const std::string& name) {
  const size_t slash = name.rfind('/');
  const bool is_number = std::regex_match(name.substr(slash + 1), std::regex("[0-9]+"));
  return name.substr(0, slash + 1) + (is_number ? "987654" : "absent");
}

// The name of the outermost resource that `name` belongs to.
std::string RootOf(const std::string& name) {
  return name.substr(0, name.find('/', name.find('/') + 1));
}

// A refusal without what it names.
std::string ShapeOf(const grpc::Status& status) {
  std::string keys;
  const google::rpc::ErrorInfo info = InfoOf(status);
  for (const auto& entry : info.metadata()) keys += " " + entry.first;
  return std::to_string(status.error_code()) + " " +
         std::regex_replace(status.error_message(), std::regex("\"[^\"]*\""), "NAME") + " " +
         InfoOf(status).reason() + keys + " " + ResourceOf(status).resource_type();
}

}  // namespace

grpc::Status EveryService::RefusedFor(const MethodRow& row, const std::string& field,
                                      const std::string& value, const std::string& caller) {
  AnyMessage request = Request(row);
  ReplaceText(*request, TextAt(*request, field), value);
  return Refusal(Called(row), *request, caller);
}

void EveryService::ExpectNamesRefused(const MethodRow& row) {
  const AnyMessage request = Prepared(row);
  if (!row.is_open) {
    EXPECT_EQ(Refusal(Called(row), *request, kNobody).error_code(),
              grpc::StatusCode::UNAUTHENTICATED);
  }
  for (const std::string& field : row.names) {
    SCOPED_TRACE(field);
    const std::string name = TextAt(*request, field);
    for (const std::string& none :
         {std::string(), std::string("shawl"), "/" + name, name + "/", name + "/more",
          name.substr(0, name.rfind('/')), name.substr(0, name.rfind('/') + 1) + "Not_One",
          name + "\x01", "yarns/" + name.substr(name.find('/') + 1)}) {
      AnyMessage wrong = Request(row);
      SetText(*wrong, field, none);
      const grpc::Status refusal = Refusal(Called(row), *wrong, row.caller);
      EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << none;
      EXPECT_THAT(FieldsOf(refusal), ElementsAre(field)) << none;
    }
    const grpc::Status absent = RefusedFor(row, field, Absent(name), row.caller);
    EXPECT_EQ(absent.error_code(), grpc::StatusCode::NOT_FOUND) << absent.error_message();
    EXPECT_THAT(ShapeOf(absent), ::testing::HasSubstr(" NAME not found. NOT_FOUND"));
    // To a stranger nothing is there, and what is there looks like what is not.
    const grpc::Status others = RefusedFor(row, field, name, kStranger);
    EXPECT_EQ(others.error_code(), grpc::StatusCode::NOT_FOUND) << others.error_message();
    EXPECT_EQ(ShapeOf(others), ShapeOf(RefusedFor(row, field, Absent(name), kStranger)));
    AnyMessage nowhere = Request(row);
    ReplaceText(*nowhere, RootOf(name), Absent(RootOf(name)));
    EXPECT_EQ(ShapeOf(others), ShapeOf(Refusal(Called(row), *nowhere, kStranger)));
  }
  const grpc::Status answered = Refusal(Called(row), *request, row.caller);
  EXPECT_EQ(answered.error_code(), row.code) << answered.error_message();
}

TEST_P(EveryService, RefusesNamesThatAreNoneAndKeepsOthersThingsToTheirOwners) {
  for (const MethodRow& row : GetParam().rows) {
    SCOPED_TRACE(row.method);
    ExpectNamesRefused(row);
  }
}

}  // namespace rowproof::rpc
