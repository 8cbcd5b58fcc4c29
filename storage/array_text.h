// PostgreSQL arrays as the text that libpqxx 6.4 passes on.
#ifndef ROWPROOF_STORAGE_ARRAY_TEXT_H_
#define ROWPROOF_STORAGE_ARRAY_TEXT_H_

#include <optional>
#include <string>
#include <string_view>

#include "fmt/format.h"

namespace rowproof::storage {

// Text of a one-dimensional array, element by element.
class ArrayText {
 public:
  void Add(double value) { Append(fmt::format("{}", value)); }  // shortest that reads back
  void Add(int value) { Append(std::to_string(value)); }
  void Add(bool value) { Append(value ? "t" : "f"); }
  void Add(std::string_view text) {
    std::string quoted = "\"";
    for (const char c : text) {
      if (c == '"' || c == '\\') quoted += '\\';
      quoted += c;
    }
    Append(quoted + '"');
  }
  void Add(const std::string& text) { Add(std::string_view(text)); }
  void Add(const char* text) = delete;  // would become a bool
  template <typename T>
  void Add(const std::optional<T>& value) {
    if (value.has_value()) {
      Add(*value);
    } else {
      Append("NULL");
    }
  }
  std::string Text() const { return "{" + elements_ + "}"; }

 private:
  void Append(const std::string& element) {
    if (!elements_.empty()) elements_ += ',';
    elements_ += element;
  }
  std::string elements_;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ARRAY_TEXT_H_
