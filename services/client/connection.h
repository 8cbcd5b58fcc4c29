// Where the requests of a command go: a server over the network, or the chart service in this
// process.
#ifndef ROWPROOF_SERVICES_CLIENT_CONNECTION_H_
#define ROWPROOF_SERVICES_CLIENT_CONNECTION_H_

#include <grpcpp/channel.h>

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <string>

#include "google/protobuf/descriptor.h"
#include "google/protobuf/message.h"
#include "services/client/failure.h"
#include "services/rpc/local_charts.h"

namespace rowproof::client {

struct ConnectionOptions {
  std::string server;  // host:port; empty: var/address, else 127.0.0.1:7420
  std::string token_file;
  bool tls = false;
  std::string ca_file;
  std::string client_certificate_file;
  std::string client_key_file;
  double timeout_seconds = 60;
};

void AddConnectionOptions(CLI::App& app, ConnectionOptions& options);

// One channel. Not thread-safe. Everything throws Failure.
class Connection {
 public:
  // To the server of the options. The token is ROWPROOF_TOKEN's or the token file's; refused if
  // it would cross a network in plain text.
  static Connection ToServer(const ConnectionOptions& options);
  // To a ChartService in this process. No token, no deadline.
  static Connection Local();

  // Calls "PatternService.CreatePattern" or "rowproof.v1.PatternService/CreatePattern", and hands
  // over every message of the answer (one for a method that does not stream). A call that may be
  // repeated (a request_id, or a Get or List) is, a few times, while the server is unavailable and
  // the timeout lasts. A refusal calls fields by `names`.
  void Call(const google::protobuf::MethodDescriptor& method,
            const google::protobuf::Message& request,
            const std::function<void(const google::protobuf::Message&)>& take,
            const FieldNames& names = {}) const;

  // The same for a method whose answer is one `Answer`.
  template <typename Answer>
  Answer Ask(const std::string& method, const google::protobuf::Message& request,
             const FieldNames& names = {}) const;

 private:
  Connection() = default;
  std::unique_ptr<rpc::LocalCharts> local_;
  std::shared_ptr<grpc::Channel> channel_;
  std::string server_;
  std::string token_;
  double timeout_seconds_ = 0;  // 0: none
};

// By either of the two forms of name; throws Failure (usage) that lists what there is.
const google::protobuf::MethodDescriptor& MethodNamed(const std::string& name);

// A UUID of version 4 from the system's random numbers, for request_id.
std::string NewRequestId();

template <typename Answer>
Answer Connection::Ask(const std::string& method, const google::protobuf::Message& request,
                       const FieldNames& names) const {
  Answer answer;
  Call(
      MethodNamed(method), request,
      [&](const google::protobuf::Message& message) { answer.CopyFrom(message); }, names);
  return answer;
}

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_CONNECTION_H_
