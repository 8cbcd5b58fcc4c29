// A test call's settings as the database keeps them (jsonb). Keys are the field names. Thread-safe.
#ifndef ROWPROOF_STORAGE_JSON_CALL_SETTINGS_JSON_H_
#define ROWPROOF_STORAGE_JSON_CALL_SETTINGS_JSON_H_

#include <string>

#include "services/domain/testcalls/call_settings.h"

namespace rowproof::storage {

std::string CallSettingsToJson(const testcalls::CallSettings& settings);
// Inverse of the above. A text that it did not write is a bug: it comes from our own table.
testcalls::CallSettings CallSettingsFromJson(const std::string& json);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_CALL_SETTINGS_JSON_H_
