#include "storage/json/call_settings_json.h"

#include <nlohmann/json.hpp>

#include "services/domain/check.h"

namespace rowproof::storage {
namespace {

using Json = nlohmann::json;

testcalls::Choice ChoiceFrom(const std::string& name) {
  for (const testcalls::Choice choice : {testcalls::Choice::kSame, testcalls::Choice::kFree}) {
    if (name == Name(choice)) return choice;
  }
  ROWPROOF_CHECK(false && "an unknown choice in the database");
  return {};
}

}  // namespace

std::string CallSettingsToJson(const testcalls::CallSettings& settings) {
  Json sizes = Json::array();
  for (const auto& wanted : settings.sizes) {
    sizes.push_back(
        {{"size", wanted.size}, {"seats", wanted.seats}, {"required", wanted.required}});
  }
  Json json = {{"title", settings.title},
               {"sizes", sizes},
               {"yarn", Name(settings.yarn)},
               {"hook", Name(settings.hook)},
               {"swatch_wanted", settings.swatch_wanted},
               {"confidential", settings.confidential},
               {"photographs_by_permission", settings.photographs_by_permission},
               {"reward", settings.reward},
               {"language", settings.language},
               {"notes", settings.notes}};
  if (settings.deadline.has_value()) json["deadline"] = testcalls::FormatDate(*settings.deadline);
  return json.dump();
}

testcalls::CallSettings CallSettingsFromJson(const std::string& text) {
  const Json json = Json::parse(text);
  testcalls::CallSettings settings;
  json.at("title").get_to(settings.title);
  for (const Json& entry : json.at("sizes")) {
    settings.sizes.push_back({entry.at("size").get<std::string>(), entry.at("seats").get<int>(),
                              entry.at("required").get<int>()});
  }
  if (json.contains("deadline")) {
    const auto day = testcalls::ParseDate("deadline", json.at("deadline").get<std::string>());
    ROWPROOF_CHECK(day.ok());
    settings.deadline = *day;
  }
  settings.yarn = ChoiceFrom(json.at("yarn").get<std::string>());
  settings.hook = ChoiceFrom(json.at("hook").get<std::string>());
  json.at("swatch_wanted").get_to(settings.swatch_wanted);
  json.at("confidential").get_to(settings.confidential);
  json.at("photographs_by_permission").get_to(settings.photographs_by_permission);
  json.at("reward").get_to(settings.reward);
  json.at("language").get_to(settings.language);
  json.at("notes").get_to(settings.notes);
  return settings;
}

}  // namespace rowproof::storage
