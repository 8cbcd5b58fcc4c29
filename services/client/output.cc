#include "services/client/output.h"

#include "fmt/format.h"
#include "google/protobuf/util/json_util.h"
#include "services/client/failure.h"

namespace rowproof::client {

std::string JsonOf(const google::protobuf::Message& message) {
  google::protobuf::util::JsonPrintOptions options;
  options.always_print_primitive_fields = true;
  options.add_whitespace = true;
  std::string json;
  const auto status = google::protobuf::util::MessageToJsonString(message, &json, options);
  if (!status.ok()) {
    throw Failure(ExitCode::kFault, "the answer has no JSON form: " + status.ToString());
  }
  if (!json.ends_with('\n')) json += '\n';
  return json;
}

void ReadJson(const std::string& source, const std::string& json,
              google::protobuf::Message* message) {
  const auto status = google::protobuf::util::JsonStringToMessage(json, message);
  if (status.ok()) return;
  throw Failure(
      ExitCode::kRefused,
      fmt::format("{}: is not the JSON form of {}: {}", source, message->GetDescriptor()->name(),
                  OneLine(std::string(status.message().data(), status.message().size()))));
}

}  // namespace rowproof::client
