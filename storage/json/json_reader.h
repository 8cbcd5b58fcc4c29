// Reads stored JSON into structures by the list of their fields (Fields, below); for the .cc files
// of this folder's storage, since it needs nlohmann/json. Throws UnreadableValue with the field's
// key if the JSON does not fit; the caller names the column.
//
// A stored structure has one list of its fields, for writing (JsonText, JsonTree) and reading:
//   template <typename Archive>
//   void Fields(Archive& a, StructOf<estimate::Part> auto& part) {
//     a.Field("part", part.part);
//     a.Later("share", part.share);
//   }
// Field     must be there; an optional is left out, or null, if it is absent; enums by name.
// Later     may be missing, in what an earlier build wrote: keeps its default.
// Numbered  an enum by its number.
// Nullable  an optional that is written as null if it is absent.
// Counts    an object with the counts that are not 0, by the names of an enum.
// Closed    at the end of a list: other keys are refused. What is read, changed and written again
//           would lose them; elsewhere keys that this build does not know are ignored.
#ifndef ROWPROOF_STORAGE_JSON_JSON_READER_H_
#define ROWPROOF_STORAGE_JSON_JSON_READER_H_

#include <array>
#include <cmath>
#include <concepts>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "storage/json/json_fields.h"
#include "storage/stored_enum.h"
#include "storage/unreadable_value.h"

namespace rowproof::storage {

class JsonReader {
 public:
  using Json = nlohmann::json;

  // Reads one object, which outlives this.
  explicit JsonReader(const Json& object) : object_(object) {
    if (!object.is_object()) throw UnreadableValue("");
  }

  // The text's value. Numbers that no double holds, bytes that are not UTF-8, a text that ends too
  // early: unreadable.
  static Json Parse(std::string_view text) {
    Json json = Json::parse(text.begin(), text.end(), nullptr, false);
    if (json.is_discarded()) throw UnreadableValue("");
    return json;
  }

  template <typename T>
  static void Read(const Json& json, T& value) {
    if constexpr (std::same_as<T, bool>) {
      Require(json.is_boolean());
      value = json.get<bool>();
    } else if constexpr (std::integral<T>) {
      value = IntegerFrom<T>(json);
    } else if constexpr (std::same_as<T, double>) {
      Require(json.is_number());
      value = json.get<double>();
      Require(std::isfinite(value));
    } else if constexpr (std::same_as<T, std::string>) {
      Require(json.is_string());
      value = json.get_ref<const std::string&>();
    } else if constexpr (std::is_enum_v<T>) {
      Require(json.is_string());
      const auto known = EnumOfName<T>(json.get_ref<const std::string&>());
      Require(known.has_value());
      value = *known;
    } else {
      JsonReader reader(json);
      Fields(reader, value);
    }
  }
  template <typename T>
  static void Read(const Json& json, std::vector<T>& values) {
    Require(json.is_array());
    values.clear();
    values.reserve(json.size());
    for (const Json& entry : json) Read(entry, values.emplace_back());
  }
  template <typename T>
  static void Read(const Json& json, std::optional<T>& value) {
    value.reset();
    if (!json.is_null()) Read(json, value.emplace());
  }
  template <typename Enum>
  static void ReadNumbered(const Json& json, Enum& value) {
    const auto known = EnumOfNumber<Enum>(IntegerFrom<int>(json));
    Require(known.has_value());
    value = *known;
  }

  template <typename T>
  void Field(const char* key, T& value) {
    if (!ReadIfThere(key, value)) throw UnreadableValue(key);
  }
  template <typename T>
  void Field(const char* key, std::optional<T>& value) {
    ReadIfThere(key, value);
  }
  template <typename T>
  void Later(const char* key, T& value) {
    ReadIfThere(key, value);
  }
  template <typename T>
  void Nullable(const char* key, std::optional<T>& value) {
    ReadIfThere(key, value);
  }
  template <typename Enum>
  void Numbered(const char* key, Enum& value) {
    const Json* found = Find(key);
    if (found == nullptr) throw UnreadableValue(key);
    ReadColumn(key, [&] { ReadNumbered(*found, value); });
  }
  template <typename Enum, typename Count, size_t kCount>
  void Counts(const char* key, std::array<Count, kCount>& counts) {
    const Json* found = Find(key);
    if (found == nullptr) throw UnreadableValue(key);
    counts = {};
    ReadColumn(key, [&] {
      Require(found->is_object());
      for (const auto& entry : found->items()) {
        const auto known = EnumOfName<Enum>(entry.key());
        Require(known.has_value());
        Read(entry.value(), counts[static_cast<size_t>(*known)]);
      }
    });
  }
  void Closed() const { Require(object_.size() == found_); }

 private:
  static void Require(bool holds) {
    if (!holds) throw UnreadableValue("");
  }
  template <typename Integer>
  static Integer IntegerFrom(const Json& json) {
    Require(json.is_number_integer());
    if (json.is_number_unsigned()) {
      const auto number = json.get<uint64_t>();
      Require(std::in_range<Integer>(number));
      return static_cast<Integer>(number);
    }
    const auto number = json.get<int64_t>();
    Require(std::in_range<Integer>(number));
    return static_cast<Integer>(number);
  }
  const Json* Find(const char* key) {
    const auto found = object_.find(key);
    if (found == object_.end()) return nullptr;
    ++found_;
    return &*found;
  }
  template <typename T>
  bool ReadIfThere(const char* key, T& value) {
    const Json* found = Find(key);
    if (found == nullptr) return false;
    ReadColumn(key, [&] { Read(*found, value); });
    return true;
  }

  const Json& object_;
  size_t found_ = 0;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_JSON_READER_H_
