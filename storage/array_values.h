// PostgreSQL arrays as values. For the .cc files of this folder, which include <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_ARRAY_VALUES_H_
#define ROWPROOF_STORAGE_ARRAY_VALUES_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/check.h"

namespace rowproof::storage {

// Elements as text; absent: null.
inline std::vector<std::optional<std::string>> ElementsOf(const pqxx::field& field) {
  std::vector<std::optional<std::string>> elements;
  pqxx::array_parser parser(field.c_str());
  while (true) {
    const auto [juncture, text] = parser.get_next();
    if (juncture == pqxx::array_parser::juncture::done) return elements;
    if (juncture == pqxx::array_parser::juncture::string_value) elements.emplace_back(text);
    if (juncture == pqxx::array_parser::juncture::null_value) elements.emplace_back(std::nullopt);
  }
}

template <typename T>
T ElementAs(const std::string& text) {
  T value{};
  pqxx::from_string(text, value);
  return value;
}

template <>
inline std::string ElementAs<std::string>(const std::string& text) {
  return text;
}

template <typename T>
std::vector<T> ArrayFrom(const pqxx::field& field) {
  std::vector<T> values;
  for (const auto& element : ElementsOf(field)) {
    ROWPROOF_CHECK(element.has_value());  // only arrays of optionals hold nulls
    values.push_back(ElementAs<T>(*element));
  }
  return values;
}

template <typename T>
std::vector<std::optional<T>> OptionalsFrom(const pqxx::field& field) {
  std::vector<std::optional<T>> values;
  for (const auto& element : ElementsOf(field)) {
    values.push_back(element.has_value() ? std::optional<T>(ElementAs<T>(*element)) : std::nullopt);
  }
  return values;
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ARRAY_VALUES_H_
