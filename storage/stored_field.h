// The fields of a result as values, and values as parameters. Readers throw UnreadableValue with
// the name that the field has in the result; one that the result names otherwise is given. For the
// .cc files of this folder, which include <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_STORED_FIELD_H_
#define ROWPROOF_STORAGE_STORED_FIELD_H_

#include <algorithm>
#include <climits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "storage/stored_text.h"

namespace rowproof::storage {

// Not null.
inline std::string_view RawIn(const pqxx::field& field, const char* column) {
  if (field.is_null()) throw UnreadableValue(column);
  return {field.c_str(), field.size()};
}

inline std::string TextIn(const pqxx::field& field) {
  return TextOf(RawIn(field, field.name()), field.name());
}
inline int CountIn(const pqxx::field& field) {
  return CountOf(RawIn(field, field.name()), field.name());
}
inline int64_t LongCountIn(const pqxx::field& field) {
  return IntegerOf<int64_t>(RawIn(field, field.name()), field.name(), 0, INT64_MAX);
}
// The number of a version, report, revision: from 1.
inline int NumberFrom1(const pqxx::field& field) {
  return IntegerOf(RawIn(field, field.name()), field.name(), 1, INT_MAX);
}
inline double RealIn(const pqxx::field& field) {
  return RealOf(RawIn(field, field.name()), field.name());
}
inline bool FlagIn(const pqxx::field& field) {
  return FlagOf(RawIn(field, field.name()), field.name());
}
template <typename Enum>
Enum EnumIn(const pqxx::field& field) {
  return EnumOf<Enum>(RawIn(field, field.name()), field.name());
}
template <typename Enum>
std::optional<Enum> OptionalEnumIn(const pqxx::field& field) {
  if (field.is_null()) return std::nullopt;
  return EnumIn<Enum>(field);
}
// Times come as numbers, under another name than the column's.
inline Moment MomentIn(const pqxx::field& field, const char* column) {
  return MomentIn(RawIn(field, column), column);
}
inline std::optional<Moment> OptionalMomentIn(const pqxx::field& field, const char* column) {
  if (field.is_null()) return std::nullopt;
  return MomentIn(field, column);
}
inline std::string BytesIn(const pqxx::field& field) {
  if (field.is_null()) throw UnreadableValue(field.name());
  return pqxx::binarystring(field).str();
}
inline Sha256 Sha256In(const pqxx::field& field) {
  const std::string bytes = BytesIn(field);
  Sha256 digest{};
  if (bytes.size() != digest.size()) throw UnreadableValue(field.name());
  std::copy(bytes.begin(), bytes.end(), digest.begin());
  return digest;
}

// The elements of an array as text; absent: null.
inline std::vector<std::optional<std::string>> ElementsIn(const pqxx::field& field) {
  const std::string_view text = RawIn(field, field.name());
  // Bounds before it, or arrays of arrays, are nothing that this build writes.
  if (!text.starts_with('{') || text.starts_with("{{")) throw UnreadableValue(field.name());
  std::vector<std::optional<std::string>> elements;
  pqxx::array_parser parser(field.c_str());
  while (true) {
    const auto [juncture, element] = parser.get_next();
    if (juncture == pqxx::array_parser::juncture::done) return elements;
    if (juncture == pqxx::array_parser::juncture::string_value) elements.emplace_back(element);
    if (juncture == pqxx::array_parser::juncture::null_value) elements.emplace_back(std::nullopt);
  }
}

// The elements, none of them null, each read by `read(text, column)`.
template <typename Read>
auto ArrayIn(const pqxx::field& field, const Read& read) {
  std::vector<decltype(read(std::string_view(), ""))> values;
  for (const auto& element : ElementsIn(field)) {
    if (!element.has_value()) throw UnreadableValue(field.name());
    values.push_back(read(*element, field.name()));
  }
  return values;
}

// Parallel arrays have one element for each entry.
template <typename Values>
void RequireSize(const Values& values, size_t size, const pqxx::field& field) {
  if (values.size() != size) throw UnreadableValue(field.name());
}

inline pqxx::binarystring Binary(const Sha256& digest) {
  return pqxx::binarystring(digest.data(), digest.size());
}
inline pqxx::binarystring Binary(std::string_view bytes) {
  return pqxx::binarystring(bytes.data(), bytes.size());
}
inline std::optional<int64_t> MicrosOrNull(const std::optional<Moment>& moment) {
  if (!moment.has_value()) return std::nullopt;
  return Micros(*moment);
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_STORED_FIELD_H_
