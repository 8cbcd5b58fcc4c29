// What the tests of every service know about each of its methods: a table beside each service's own
// tests, read by the tests of what all methods do alike.
#ifndef ROWPROOF_TESTS_RPC_HANDLERS_METHOD_ROWS_H_
#define ROWPROOF_TESTS_RPC_HANDLERS_METHOD_ROWS_H_

#include <string>
#include <vector>

#include "tests/rpc/handlers/handler_fixture.h"

namespace rowproof::rpc {

// One method. The rows of a service are used in their order, on one database: what deletes comes
// last.
struct MethodRow {
  std::string method = {};   // "GetPattern"
  std::string request = {};  // in the text format; answered if `caller` sends it after `before`
  std::string caller = kDesigner;
  std::string before = {};                       // SQL
  grpc::StatusCode code = grpc::StatusCode::OK;  // of the answer, if the data has none

  // Fields that are resource names and may not be empty.
  std::vector<std::string> names = {};
  // Added to `request`: another request that is well-formed. For every method with a request_id.
  std::string other = {};
  // Each answer has a secret of its own, that of a repeated request too.
  bool gives_secret = false;
  // Whoever holds an invitation may call it, without a token.
  bool is_open = false;
  // form_text is the form of this seat.
  std::string form_of = {};

  // Of a list: SQL that makes four more of the things that it lists one of, and what a request
  // whose token is of no use for this one has in addition, if there is such a request.
  std::string four_more = {};
  std::string elsewhere = {};

  // Of a method with an etag: its field, and the method and request that read the resource.
  std::string etag = {};
  std::string read_by = {};
  std::string read_request = {};

  // Of an update: the field with the resource, and the resource's fields that can be changed.
  std::string resource = {};
  std::vector<std::string> changeable = {};
};

struct ServiceRows {
  std::string service;  // "PatternService"
  std::vector<MethodRow> rows;
};

// For every service's table: names_test.cc, pages_test.cc, etags_and_masks_test.cc,
// repeated_test.cc, and every_service_test.cc, by which no method is left out.
class EveryService : public HandlerTest, public ::testing::WithParamInterface<ServiceRows> {
 protected:
  std::string Called(const MethodRow& row) const { return GetParam().service + "." + row.method; }
  const google::protobuf::Descriptor& RequestOf(const MethodRow& row) const {
    return *MethodCalled(Called(row)).input_type();
  }
  // The row's request, once `before` has been done.
  AnyMessage Prepared(const MethodRow& row);
  AnyMessage Request(const MethodRow& row, const std::string& more = "");
  std::vector<MethodRow> Lists() const;

  void ExpectNamesRefused(const MethodRow& row);
  void ExpectRepeatable(const MethodRow& row);
  void ExpectPages(const MethodRow& row);
  void ExpectOnlyOwnTokens(const MethodRow& row);
  void ExpectEtagChecked(const MethodRow& row);
  void ExpectMaskChecked(const MethodRow& row);

 private:
  // One page of a list, and what pages of this size hold one after another with their sizes.
  grpc::Status PageOf(const MethodRow& row, int size, const std::string& token, AnyMessage* answer);
  std::vector<std::string> PageByPage(const MethodRow& row, int size, std::vector<size_t>* pages);
  void ExpectTokenRefused(const std::string& method, const google::protobuf::Message& request,
                          const std::string& caller);
  grpc::Status RefusedFor(const MethodRow& row, const std::string& field, const std::string& value,
                          const std::string& caller);

  int used_ids_ = 0;
};

// What gtest prints of a table.
inline void PrintTo(const ServiceRows& rows, std::ostream* out) { *out << rows.service; }

}  // namespace rowproof::rpc

#endif  // ROWPROOF_TESTS_RPC_HANDLERS_METHOD_ROWS_H_
