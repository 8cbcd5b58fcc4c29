// Values as libpqxx 6.4 takes and gives them. For the .cc files of this folder, which include
// <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_BINARY_H_
#define ROWPROOF_STORAGE_BINARY_H_

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"

namespace rowproof::storage {

inline pqxx::binarystring Binary(const Sha256& digest) {
  return pqxx::binarystring(digest.data(), digest.size());
}

inline pqxx::binarystring Binary(std::string_view bytes) {
  return pqxx::binarystring(bytes.data(), bytes.size());
}

inline Sha256 Sha256From(const pqxx::field& field) {
  const pqxx::binarystring bytes(field);
  Sha256 digest{};
  std::copy_n(bytes.data(), std::min<size_t>(bytes.size(), digest.size()), digest.begin());
  return digest;
}

inline std::string BytesFrom(const pqxx::field& field) { return pqxx::binarystring(field).str(); }

inline std::optional<int64_t> MicrosOrNull(const std::optional<Moment>& moment) {
  if (!moment.has_value()) return std::nullopt;
  return Micros(*moment);
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_BINARY_H_
