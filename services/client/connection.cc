#include "services/client/connection.h"

#include <grpcpp/create_channel.h>
#include <grpcpp/security/credentials.h>
#include <grpcpp/support/channel_arguments.h>
#include <sys/random.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <fstream>

#include "fmt/format.h"
#include "services/addresses/loopback.h"
#include "services/client/exchange.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/parsing/chart_options.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

constexpr int kLargestMessageBytes = 64 * 1024 * 1024;
constexpr char kUsualServer[] = "127.0.0.1:7420";
constexpr char kAddressFile[] = "var/address";

std::string ServerOf(const ConnectionOptions& options) {
  if (!options.server.empty()) return options.server;
  std::ifstream file(kAddressFile);
  std::string address;
  if (file >> address) return address;
  return kUsualServer;
}

std::string TokenOf(const ConnectionOptions& options) {
  std::string token;
  if (!options.token_file.empty()) {
    token = ReadFile(options.token_file);
  } else if (const char* from_environment = std::getenv("ROWPROOF_TOKEN")) {
    token = from_environment;
  }
  token.erase(token.find_last_not_of(" \t\r\n") + 1);
  token.erase(0, std::min(token.find_first_not_of(" \t\r\n"), token.size()));
  const bool plain =
      std::all_of(token.begin(), token.end(), [](char c) { return c > 0x20 && c < 0x7f; });
  if (!plain) {
    throw Failure(ExitCode::kUsage,
                  "--token-file or ROWPROOF_TOKEN: not a token (expected one line with nothing but "
                  "the token)");
  }
  return token;
}

std::shared_ptr<grpc::ChannelCredentials> CredentialsOf(const ConnectionOptions& options,
                                                        bool tls) {
  if (!tls) return grpc::InsecureChannelCredentials();
  grpc::SslCredentialsOptions ssl;
  if (!options.ca_file.empty()) ssl.pem_root_certs = ReadFile(options.ca_file);
  if (!options.client_certificate_file.empty()) {
    ssl.pem_cert_chain = ReadFile(options.client_certificate_file);
    ssl.pem_private_key = ReadFile(options.client_key_file);
  }
  return grpc::SslCredentials(ssl);
}

std::string PlainLineOf(const grpc::Status& status,
                        const google::protobuf::MethodDescriptor& method, const std::string& server,
                        double timeout_seconds) {
  switch (status.error_code()) {
    case grpc::StatusCode::UNAVAILABLE:
      return fmt::format("--server \"{}\" cannot be reached: {}", text::OneLine(server),
                         LineOf(status));
    case grpc::StatusCode::DEADLINE_EXCEEDED:
      return fmt::format("no answer from \"{}\" to {} within {} s; allow more with --timeout",
                         text::OneLine(server), method.name(), timeout_seconds);
    case grpc::StatusCode::UNIMPLEMENTED:
      return fmt::format("{} is not served by \"{}\"", method.full_name(), text::OneLine(server));
    default:
      return LineOf(status);
  }
}

}  // namespace

void AddConnectionOptions(CLI::App& app, ConnectionOptions& o) {
  const char* group = kServerGroup;
  app.add_option("--server", o.server,
                 "HOST:PORT of the server (default: what var/address says, else 127.0.0.1:7420)")
      ->envname("ROWPROOF_SERVER")
      ->group(group);
  app.add_option("--token-file", o.token_file,
                 "File that holds your token (default: the environment's ROWPROOF_TOKEN)")
      ->group(group);
  app.add_flag("--tls", o.tls, "Connect by TLS")->group(group);
  app.add_option("--ca", o.ca_file, "PEM file of the authorities to trust; means --tls")
      ->group(group);
  auto* certificate = app.add_option("--client-certificate", o.client_certificate_file,
                                     "PEM file of your certificate; means --tls")
                          ->group(group);
  auto* key = app.add_option("--client-key", o.client_key_file, "PEM file of its private key")
                  ->group(group);
  certificate->needs(key);
  key->needs(certificate);
  app.add_option("--timeout", o.timeout_seconds, "Seconds that a command may take (default: 60)")
      ->check(CLI::Range(0.001, 86400.0))
      ->group(group);
}

Connection Connection::ToServer(const ConnectionOptions& options) {
  Connection connection;
  const std::string server = ServerOf(options);
  const bool tls =
      options.tls || !options.ca_file.empty() || !options.client_certificate_file.empty();
  connection.server_ = server;
  connection.token_ = TokenOf(options);
  connection.timeout_seconds_ = options.timeout_seconds;
  const bool loopback = addresses::IsLoopback(server);
  if (!connection.token_.empty() && !tls && !loopback) {
    throw Failure(ExitCode::kUsage,
                  fmt::format("--server \"{}\" is not this machine, and a token must not cross a "
                              "network in plain text: add --tls or --ca FILE",
                              text::OneLine(server)));
  }
  grpc::ChannelArguments arguments;
  arguments.SetMaxReceiveMessageSize(kLargestMessageBytes);
  arguments.SetMaxSendMessageSize(kLargestMessageBytes);
  // What is meant for this machine must not go by a proxy.
  if (loopback) arguments.SetInt(GRPC_ARG_ENABLE_HTTP_PROXY, 0);
  connection.channel_ = grpc::CreateCustomChannel(server, CredentialsOf(options, tls), arguments);
  return connection;
}

Connection Connection::Local() {
  Connection connection;
  connection.local_ = std::make_unique<rpc::LocalCharts>();
  connection.server_ = "this program";
  connection.channel_ = connection.local_->channel();
  return connection;
}

void Connection::Call(const google::protobuf::MethodDescriptor& method,
                      const google::protobuf::Message& request,
                      const std::function<void(const google::protobuf::Message&)>& take,
                      const FieldNames& names) const {
  const Exchange exchange{channel_, token_, timeout_seconds_};
  const grpc::Status status = exchange.Run(method, request, take);
  if (status.ok()) return;
  if (status.error_code() == grpc::StatusCode::UNAUTHENTICATED && token_.empty()) {
    throw Failure(ExitCode::kRefused,
                  "this needs your token: give --token-file FILE, or set ROWPROOF_TOKEN");
  }
  // A status without details is gRPC's own, and says nothing that people could act on.
  if (!status.error_details().empty()) throw FailureOf(status, names);
  throw Failure(ExitCodeOf(status), PlainLineOf(status, method, server_, timeout_seconds_));
}

const google::protobuf::MethodDescriptor& MethodNamed(const std::string& name) {
  std::string dotted = name;
  std::replace(dotted.begin(), dotted.end(), '/', '.');
  if (dotted.starts_with('.')) dotted.erase(0, 1);
  if (!dotted.starts_with("rowproof.v1.")) dotted = "rowproof.v1." + dotted;
  const auto* method = google::protobuf::DescriptorPool::generated_pool()->FindMethodByName(dotted);
  if (method == nullptr) {
    throw MustBe("METHOD",
                 "Service.Method of the API, such as PatternService.ListPatterns, from the list "
                 "that \"rowproof call\" prints",
                 name);
  }
  return *method;
}

std::string NewRequestId() {
  std::array<unsigned char, 16> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) {
    throw Failure(ExitCode::kInternalError, "the system has no random numbers");
  }
  // Version and variant of RFC 9562, section 5.4.
  bytes[6] = static_cast<unsigned char>((bytes[6] & 0x0f) | 0x40);
  bytes[8] = static_cast<unsigned char>((bytes[8] & 0x3f) | 0x80);
  std::string text;
  for (size_t i = 0; i < bytes.size(); ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
    text += fmt::format("{:02x}", bytes[i]);
  }
  return text;
}

}  // namespace rowproof::client
