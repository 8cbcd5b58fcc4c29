// Every list is the same page by page as at once, and takes no token but its own.
#include <gmock/gmock.h>

#include <set>

#include "tests/rpc/handlers/message_fields.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::FieldDescriptor;
using ::testing::ElementsAre;

}  // namespace

grpc::Status EveryService::PageOf(const MethodRow& row, int size, const std::string& token,
                                  AnyMessage* answer) {
  const AnyMessage request = Request(row);
  const auto [at, field] = FieldAt(*request, "page_size");
  at->GetReflection()->SetInt32(at, field, size);
  SetText(*request, "page_token", token);
  *answer = NewMessage(*MethodCalled(Called(row)).output_type());
  return Send(Called(row), *request, answer->get(), row.caller);
}

std::vector<std::string> EveryService::PageByPage(const MethodRow& row, int size,
                                                  std::vector<size_t>* pages) {
  std::vector<std::string> listed;
  std::string token;
  do {
    AnyMessage answer;
    const grpc::Status status = PageOf(row, size, token, &answer);
    EXPECT_TRUE(status.ok()) << status.error_message();
    const auto& reflection = *answer->GetReflection();
    const FieldDescriptor* list = answer->GetDescriptor()->field(0);
    const int count = reflection.FieldSize(*answer, list);
    pages->push_back(static_cast<size_t>(count));
    for (int i = 0; i < count; ++i) {
      listed.push_back(Shown(reflection.GetRepeatedMessage(*answer, list, i)));
    }
    token = TextAt(*answer, "next_page_token");
  } while (!token.empty() && pages->size() < 20);
  return listed;
}

void EveryService::ExpectPages(const MethodRow& row) {
  std::vector<size_t> whole;
  std::vector<size_t> largest;
  std::vector<size_t> ones;
  std::vector<size_t> pairs;
  const std::vector<std::string> all = PageByPage(row, 0, &whole);
  EXPECT_GE(all.size(), 5U) << "the row's four more are not listed";
  EXPECT_EQ(whole.size(), 1U);
  EXPECT_EQ(std::set<std::string>(all.begin(), all.end()).size(), all.size());
  EXPECT_EQ(PageByPage(row, 1'000'000, &largest), all);
  EXPECT_EQ(largest, whole);
  EXPECT_EQ(PageByPage(row, 1, &ones), all);
  EXPECT_EQ(ones, std::vector<size_t>(all.size(), 1));
  EXPECT_EQ(PageByPage(row, 2, &pairs), all);
  EXPECT_EQ(pairs.size(), (all.size() + 1) / 2);
  AnyMessage answer;
  const grpc::Status negative = PageOf(row, -1, "", &answer);
  EXPECT_EQ(negative.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
  EXPECT_THAT(FieldsOf(negative), ElementsAre("page_size"));
}

void EveryService::ExpectTokenRefused(const std::string& method,
                                      const google::protobuf::Message& request,
                                      const std::string& caller) {
  const grpc::Status refusal = Refusal(method, request, caller);
  EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << Shown(request);
  EXPECT_THAT(FieldsOf(refusal), ElementsAre("page_token")) << Shown(request);
}

void EveryService::ExpectOnlyOwnTokens(const MethodRow& row) {
  AnyMessage answer;
  ASSERT_TRUE(PageOf(row, 2, "", &answer).ok());
  const std::string token = TextAt(*answer, "next_page_token");
  ASSERT_FALSE(token.empty());
  AnyMessage request = Request(row);
  for (const std::string& damaged :
       {token + "A", token.substr(1), token.substr(0, token.size() / 2), "A" + token.substr(1),
        std::string("nothing"), std::string(5000, 'A')}) {
    SetText(*request, "page_token", damaged);
    ExpectTokenRefused(Called(row), *request, row.caller);
  }
  if (!row.elsewhere.empty()) {
    request = Request(row, row.elsewhere);
    SetText(*request, "page_token", token);
    ExpectTokenRefused(Called(row), *request, row.caller);
  }
  for (const MethodRow& list : Lists()) {
    if (list.method == row.method) continue;
    request = Request(list);
    SetText(*request, "page_token", token);
    ExpectTokenRefused(Called(list), *request, list.caller);
  }
  // A list of another service, which takes any signed-in caller and no parent.
  const std::string other = GetParam().service == "AccountService" ? "PatternService.ListPatterns"
                                                                   : "AccountService.ListTokens";
  request = NewMessage(*MethodCalled(other).input_type());
  SetText(*request, "page_token", token);
  ExpectTokenRefused(other, *request, row.caller);
}

TEST_P(EveryService, ListsTheSamePageByPageAsAtOnce) {
  for (const MethodRow& row : Lists()) {
    SCOPED_TRACE(row.method + " " + row.request);
    if (!row.before.empty()) Execute(row.before);
    Execute(row.four_more);
    ExpectPages(row);
    ExpectOnlyOwnTokens(row);
  }
}

}  // namespace rowproof::rpc
