#include <memory>
#include <string>

#include "fmt/format.h"
#include "services/client/commands/commands.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/output.h"
#include "services/client/services.h"

namespace rowproof::client {
namespace {

struct CallCommand {
  std::string method;
  bool local = false;
};

void ListMethods() {
  std::string lines;
  for (const auto* service : Services()) {
    for (int i = 0; i < service->method_count(); ++i) {
      lines += fmt::format("{}.{}\n", service->name(), service->method(i)->name());
    }
  }
  WriteFile("", lines);
}

void Run(const CallCommand& command, const ConnectionOptions& options) {
  if (command.method.empty()) return ListMethods();
  const auto& method = MethodNamed(command.method);
  if (command.local && method.service()->name() != "ChartService") {
    throw MustBe("METHOD", "a method of ChartService with --local: the others need a server",
                 command.method);
  }
  const std::unique_ptr<google::protobuf::Message> request(
      google::protobuf::MessageFactory::generated_factory()
          ->GetPrototype(method.input_type())
          ->New());
  const std::string json = ReadFile("-", kLargestJsonBytes);
  // An empty input is an empty request.
  if (json.find_first_not_of(" \t\r\n") != std::string::npos) {
    ReadJson("standard input", json, request.get());
  }
  const Connection connection = command.local ? Connection::Local() : Connection::ToServer(options);
  connection.Call(method, *request,
                  [](const google::protobuf::Message& answer) { WriteFile("", JsonOf(answer)); });
}

}  // namespace

void AddCallCommand(CLI::App& app, const ConnectionOptions& connection) {
  auto* added =
      app.add_subcommand(
             "call",
             "Send any method of the API: JSON request from standard input, JSON answer printed;\n"
             "without METHOD, list the methods")
          ->group("For programs");
  const auto command = std::make_shared<CallCommand>();
  added->add_option(
      "METHOD", command->method,
      "Such as PatternService.ListPatterns or rowproof.v1.PatternService/ListPatterns");
  added->add_flag("--local", command->local, "ChartService in this process, without a server");
  added->callback([command, &connection] { Run(*command, connection); });
}

}  // namespace rowproof::client
