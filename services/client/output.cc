#include "services/client/output.h"

#include <cstdlib>

#include "fmt/format.h"
#include "google/protobuf/util/json_util.h"
#include "services/client/failure.h"
#include "services/client/parsing/chart_options.h"
#include "services/client/parsing/choices.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

const Words& UnitWords() {
  static const auto& words = *new Words{"metric", "imperial"};
  return words;
}

// As the C library looks for the category LC_MEASUREMENT.
std::string LocaleOfMeasurement() {
  for (const char* name : {"LC_ALL", "LC_MEASUREMENT", "LANG"}) {
    const char* value = std::getenv(name);
    if (value != nullptr && *value != '\0') return value;
  }
  return {};
}

}  // namespace

void AddOutputOptions(CLI::App& app, OutputOptions& options) {
  options.style.units = UnitsOfLocale(LocaleOfMeasurement());
  app.add_flag("--details", options.style.details, "Show assumptions, parts, ranges and notes too")
      ->group(kOutputGroup);
  app.add_option_function<std::string>(
         "--units",
         [&options](const std::string& word) {
           options.style.units = word == "imperial" ? Units::kImperial : Units::kMetric;
         },
         "Which units come first (default: those of your locale)")
      ->check(OneOf("--units", UnitWords()))
      ->group(kOutputGroup);
  app.add_flag("--json", options.json, "Print the answer in the API's JSON form, with all details")
      ->group(kOutputGroup);
  app.add_option("--out", options.out, "File to write to (default: the screen)")
      ->group(kOutputGroup);
}

std::string JsonOf(const google::protobuf::Message& message) {
  google::protobuf::util::JsonPrintOptions options;
  options.always_print_primitive_fields = true;
  options.add_whitespace = true;
  std::string json;
  const auto status = google::protobuf::util::MessageToJsonString(message, &json, options);
  if (!status.ok()) {
    throw Failure(ExitCode::kInternalError, "the answer has no JSON form: " + status.ToString());
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
      fmt::format("{} is not the JSON form of {}: {}", source, message->GetDescriptor()->name(),
                  text::OneLine(std::string(status.message().data(), status.message().size()))));
}

}  // namespace rowproof::client
