// The tables of every service's methods are whole, so that the tests of what all methods do alike
// pass over nothing: names_test.cc, pages_test.cc, etags_and_masks_test.cc and repeated_test.cc.

#include <gmock/gmock.h>

#include <set>

#include "rowproof/v1/test_call_service.pb.h"
#include "tests/rpc/handlers/message_fields.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::Descriptor;

}  // namespace

AnyMessage EveryService::Request(const MethodRow& row, const std::string& more) {
  AnyMessage request = NewMessage(RequestOf(row));
  Merge(row.request, *request);
  Merge(more, *request);
  if (!row.form_of.empty()) {
    v1::GetSeatFormRequest form;
    form.set_name(row.form_of);
    SetText(
        *request, "form_text",
        Call<v1::GetSeatFormResponse>("TestCallService.GetSeatForm", form, row.caller).form_text());
  }
  return request;
}

AnyMessage EveryService::Prepared(const MethodRow& row) {
  if (!row.before.empty()) Execute(row.before);
  return Request(row);
}

std::vector<MethodRow> EveryService::Lists() const {
  std::vector<MethodRow> lists;
  for (const MethodRow& row : GetParam().rows) {
    if (Has(RequestOf(row), "page_token")) lists.push_back(row);
  }
  return lists;
}

TEST_P(EveryService, HasARowForEachOfItsMethods) {
  const auto* service = google::protobuf::DescriptorPool::generated_pool()->FindServiceByName(
      "rowproof.v1." + GetParam().service);
  ASSERT_NE(service, nullptr);
  std::set<std::string> declared, named;
  for (int i = 0; i < service->method_count(); ++i) declared.insert(service->method(i)->name());
  for (const MethodRow& row : GetParam().rows) {
    named.insert(row.method);
    SCOPED_TRACE(row.method);
    if (!declared.contains(row.method)) continue;  // said below
    const Descriptor& request = RequestOf(row);
    // So that nothing is passed over because its row does not say enough.
    for (const char* field : {"name", "parent", "version", "seat", "from", "to"}) {
      const bool is_name = Has(request, field) && row.method != "ErasePersonalData";
      if (is_name) {
        EXPECT_THAT(row.names, ::testing::Contains(field));
      }
    }
    EXPECT_EQ(Has(request, "page_token"), !row.four_more.empty());
    EXPECT_EQ(Has(request, "update_mask"), !row.resource.empty());
    if (Has(request, "request_id")) {
      EXPECT_FALSE(row.other.empty() && row.form_of.empty());
    }
    if (Has(request, "etag")) {
      EXPECT_EQ(row.etag, "etag");
    }
    if (!row.resource.empty()) {
      const bool has_etag = Has(*request.FindFieldByName(row.resource)->message_type(), "etag");
      EXPECT_EQ(row.etag, has_etag ? row.resource + ".etag" : "");
    }
  }
  EXPECT_EQ(named, declared);
}

}  // namespace rowproof::rpc
