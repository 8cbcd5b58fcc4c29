// The floor of the figures that write: one row inserted and committed, with nothing around it.
#ifndef ROWPROOF_TESTS_BENCH_BARE_INSERT_H_
#define ROWPROOF_TESTS_BENCH_BARE_INSERT_H_

#include <google/protobuf/message_lite.h>
#include <grpcpp/channel.h>

#include <memory>
#include <string>

namespace rowproof::bench {

// Makes the benchmarks' own table in the database, empty. Throws pqxx's exceptions.
void PrepareDatabase(const std::string& connection);

// Lets the planner look at all tables, as it does by itself in a database that lives for long;
// plans made before are made again. Throws pqxx's exceptions.
void Analyze(const std::string& connection);

// A connection that inserts bytes into that table by one prepared statement, committed each time.
// One thread at a time. Throws pqxx's exceptions.
class BareInsert {
 public:
  explicit BareInsert(const std::string& connection);
  ~BareInsert();
  BareInsert(const BareInsert&) = delete;
  BareInsert& operator=(const BareInsert&) = delete;
  void Insert(const std::string& bytes);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

// Serves one gRPC method that does just that, with rowproofd's numbers of threads and connections,
// writes the address to `address_file`, and returns when the process gets SIGTERM.
void ServeBareInsert(const std::string& connection, const std::string& address_file);

// Calls any unary method by its path ("/grpc.health.v1.Health/Check"). Throws std::runtime_error
// with the code and message of any answer but OK.
void CallMethod(grpc::ChannelInterface& channel, const char* path,
                const google::protobuf::MessageLite& request,
                google::protobuf::MessageLite* response);
// One bare insert at the other end.
void CallBareInsert(grpc::ChannelInterface& channel, const std::string& bytes);

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_BARE_INSERT_H_
