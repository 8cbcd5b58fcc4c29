#include "storage/json/call_settings_json.h"

#include "storage/json/json_reader.h"
#include "storage/json/json_tree.h"

namespace rowproof::storage {
namespace {

// The deadline as it is stored.
struct StoredSettings {
  testcalls::CallSettings settings;
  std::optional<std::string> deadline;
};

}  // namespace

template <typename Archive>
void Fields(Archive& a, StructOf<testcalls::WantedSize> auto& wanted) {
  a.Field("size", wanted.size);
  a.Field("seats", wanted.seats);
  a.Field("required", wanted.required);
  a.Closed();
}

template <typename Archive>
void Fields(Archive& a, StructOf<StoredSettings> auto& stored) {
  auto& settings = stored.settings;
  a.Field("title", settings.title);
  a.Field("sizes", settings.sizes);
  a.Field("deadline", stored.deadline);
  a.Field("yarn", settings.yarn);
  a.Field("hook", settings.hook);
  a.Field("swatch_wanted", settings.swatch_wanted);
  a.Field("confidential", settings.confidential);
  a.Field("photographs_by_permission", settings.photographs_by_permission);
  a.Field("reward", settings.reward);
  a.Field("language", settings.language);
  a.Field("notes", settings.notes);
  a.Closed();
}

std::string CallSettingsToJson(const testcalls::CallSettings& settings) {
  StoredSettings stored{settings, std::nullopt};
  if (settings.deadline.has_value()) stored.deadline = testcalls::FormatDate(*settings.deadline);
  return JsonTree::ValueOf(stored).dump();
}

testcalls::CallSettings CallSettingsFromJson(const std::string& text) {
  StoredSettings stored;
  JsonReader::Read(JsonReader::Parse(text), stored);
  if (stored.deadline.has_value()) {
    const auto day = testcalls::ParseDate("deadline", *stored.deadline);
    if (!day.ok()) throw UnreadableValue("deadline");
    stored.settings.deadline = *day;
  }
  return std::move(stored.settings);
}

}  // namespace rowproof::storage
