// Writes structures by the list of their fields (json_reader.h) into a tree of values, whose text
// has the keys in the order of the alphabet.
#ifndef ROWPROOF_STORAGE_JSON_JSON_TREE_H_
#define ROWPROOF_STORAGE_JSON_JSON_TREE_H_

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "storage/json/json_fields.h"
#include "storage/stored_enum.h"

namespace rowproof::storage {

class JsonTree {
 public:
  using Json = nlohmann::json;

  template <typename T>
  static Json ValueOf(const T& value) {
    if constexpr (std::is_enum_v<T>) {
      return Json(StoredName(value));
    } else if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string>) {
      return Json(value);
    } else {
      JsonTree tree;
      Fields(tree, value);
      return std::move(tree.object_);
    }
  }
  template <typename T>
  static Json ValueOf(const std::vector<T>& values) {
    Json array = Json::array();
    for (const T& value : values) array.push_back(ValueOf(value));
    return array;
  }

  template <typename T>
  void Field(const char* key, const T& value) {
    object_[key] = ValueOf(value);
  }
  template <typename T>
  void Field(const char* key, const std::optional<T>& value) {
    if (value.has_value()) Field(key, *value);
  }
  template <typename T>
  void Later(const char* key, const T& value) {
    Field(key, value);
  }
  template <typename T>
  void Nullable(const char* key, const std::optional<T>& value) {
    object_[key] = value.has_value() ? ValueOf(*value) : Json(nullptr);
  }
  template <typename Enum>
  void Numbered(const char* key, Enum value) {
    object_[key] = static_cast<int>(value);
  }
  void Closed() const {}

 private:
  Json object_ = Json::object();
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_JSON_TREE_H_
