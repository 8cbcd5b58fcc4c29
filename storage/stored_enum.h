// Enums that are stored by their stable names. Thread-safe.
#ifndef ROWPROOF_STORAGE_STORED_ENUM_H_
#define ROWPROOF_STORAGE_STORED_ENUM_H_

#include <cstddef>
#include <string>

#include "services/domain/check.h"

namespace rowproof::storage {

// An enum's value from its stable name, found among 0 .. count - 1.
template <typename Enum, typename NameOf>
Enum EnumFrom(const std::string& name, size_t count, NameOf name_of) {
  for (size_t i = 0; i < count; ++i) {
    if (name == name_of(static_cast<Enum>(i))) return static_cast<Enum>(i);
  }
  ROWPROOF_CHECK(false && "an unknown enum name in the database");
  return {};
}

inline constexpr size_t kSeverities = 3;

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_STORED_ENUM_H_
