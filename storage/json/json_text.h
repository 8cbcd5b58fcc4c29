// JSON written straight into text, for what a write has to wait for: a tree of values first would
// take several times as long.
#ifndef ROWPROOF_STORAGE_JSON_JSON_TEXT_H_
#define ROWPROOF_STORAGE_JSON_JSON_TEXT_H_

#include <array>
#include <cmath>
#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "storage/json/json_fields.h"
#include "storage/number_text.h"
#include "storage/stored_enum.h"

namespace rowproof::storage {

// Values in the order in which they are added; structures by the list of their fields
// (json_reader.h).
class JsonText {
 public:
  void Open(char bracket) {
    Separate();
    text_ += bracket;
    first_ = true;
  }
  void Close(char bracket) {
    text_ += bracket;
    first_ = false;
  }

  void Value(bool value) { Raw(value ? "true" : "false"); }
  template <std::integral Integer>
  void Value(Integer value) {
    Separate();
    AppendNumber(text_, value);
  }
  // Finite; the shortest text that reads back.
  void Value(double value) {
    ROWPROOF_CHECK(std::isfinite(value));
    Separate();
    AppendNumber(text_, value);
  }
  void Value(std::string_view value) {
    Separate();
    Quote(value);
  }
  void Value(const std::string& value) { Value(std::string_view(value)); }
  void Value(const char* value) { Value(std::string_view(value)); }
  template <typename T>
  void Value(const std::vector<T>& values) {
    Open('[');
    for (const T& value : values) Value(value);
    Close(']');
  }
  template <typename Struct>
  requires std::is_class_v<Struct>
  void Value(const Struct& value) {
    Open('{');
    Fields(*this, value);
    Close('}');
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void Value(Enum value) { Value(StoredName(value)); }

  // The next value's name, of printable characters without quotes and backslashes.
  void Key(std::string_view key) {
    Separate();
    text_ += '"';
    text_ += key;
    text_ += "\":";
    first_ = true;
  }
  template <typename T>
  void Field(const char* key, const T& value) {
    Key(key);
    Value(value);
  }
  template <typename T>
  void Field(const char* key, const std::optional<T>& value) {
    if (value.has_value()) Field(key, *value);
  }
  template <typename T>
  void Later(const char* key, const T& value) {
    Field(key, value);
  }
  template <typename Enum>
  void Numbered(const char* key, Enum value) {
    Field(key, static_cast<int>(value));
  }
  template <typename Enum, typename Count, size_t kCount>
  void Counts(const char* key, const std::array<Count, kCount>& counts) {
    Key(key);
    Open('{');
    for (size_t i = 0; i < kCount; ++i) {
      if (counts[i] == 0) continue;
      Key(StoredName(static_cast<Enum>(i)));
      Value(counts[i]);
    }
    Close('}');
  }

  const std::string& Text() const { return text_; }

 private:
  void Separate() {
    if (!first_) text_ += ',';
    first_ = false;
  }
  void Raw(std::string_view value) {
    Separate();
    text_ += value;
  }
  // RFC 8259, section 7.
  void Quote(std::string_view value) {
    text_ += '"';
    size_t written = 0;
    for (size_t i = 0; i < value.size(); ++i) {
      const char c = value[i];
      if (c != '"' && c != '\\' && static_cast<unsigned char>(c) >= 0x20) continue;
      text_ += value.substr(written, i - written);
      text_ += fmt::format("\\u{:04x}", static_cast<int>(c));
      written = i + 1;
    }
    text_ += value.substr(written);
    text_ += '"';
  }

  std::string text_;
  bool first_ = true;  // nothing precedes it in this object or array
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_JSON_TEXT_H_
