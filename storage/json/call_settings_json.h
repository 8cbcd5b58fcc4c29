// A test call's settings as the database keeps them (jsonb). Keys are the field names. Thread-safe.
#ifndef ROWPROOF_STORAGE_JSON_CALL_SETTINGS_JSON_H_
#define ROWPROOF_STORAGE_JSON_CALL_SETTINGS_JSON_H_

#include <string>

#include "services/domain/testcalls/call_settings.h"

namespace rowproof::storage {

std::string CallSettingsToJson(const testcalls::CallSettings& settings);
// Inverse of the above. Throws UnreadableValue for another text.
testcalls::CallSettings CallSettingsFromJson(const std::string& json);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_CALL_SETTINGS_JSON_H_
