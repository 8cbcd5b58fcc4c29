// JSON written straight into text, for what a write has to wait for: a tree of values first would
// take several times as long.
#ifndef ROWPROOF_STORAGE_JSON_TEXT_H_
#define ROWPROOF_STORAGE_JSON_TEXT_H_

#include <cmath>
#include <concepts>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "fmt/format.h"
#include "services/domain/check.h"

namespace rowproof::storage {

// Values in the order in which they are added. A struct is added by a function of its own,
// `void Add(JsonText&, const Struct&)`, which opens an object, puts its fields and closes it.
class JsonText {
 public:
  void Open(char bracket) {
    Separate();
    text_.push_back(bracket);
    first_ = true;
  }
  void Close(char bracket) {
    text_.push_back(bracket);
    first_ = false;
  }

  void Value(bool value) { Raw(value ? "true" : "false"); }
  template <std::integral Integer>
  void Value(Integer value) {
    Separate();
    fmt::format_to(std::back_inserter(text_), "{}", value);
  }
  // Finite; the shortest text that reads back.
  void Value(double value) {
    ROWPROOF_CHECK(std::isfinite(value));
    Separate();
    fmt::format_to(std::back_inserter(text_), "{}", value);
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
  void Value(const Struct& value) { Add(*this, value); }

  // The next value's name.
  void Key(const char* key) {
    Value(key);
    text_.push_back(':');
    first_ = true;
  }
  template <typename T>
  void Put(const char* key, const T& value) {
    Key(key);
    Value(value);
  }
  // Left out where absent.
  template <typename T>
  void Put(const char* key, const std::optional<T>& value) {
    if (value.has_value()) Put(key, *value);
  }

  std::string Text() const { return fmt::to_string(text_); }

 private:
  void Separate() {
    if (!first_) text_.push_back(',');
    first_ = false;
  }
  void Raw(std::string_view value) {
    Separate();
    text_.append(value.data(), value.data() + value.size());
  }
  // RFC 8259, section 7.
  void Quote(std::string_view value) {
    text_.push_back('"');
    for (const char c : value) {
      if (c == '"' || c == '\\') text_.push_back('\\');
      if (static_cast<unsigned char>(c) < 0x20) {
        fmt::format_to(std::back_inserter(text_), "\\u{:04x}", static_cast<int>(c));
      } else {
        text_.push_back(c);
      }
    }
    text_.push_back('"');
  }

  fmt::memory_buffer text_;
  bool first_ = true;  // nothing stands before in this object or array
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_TEXT_H_
