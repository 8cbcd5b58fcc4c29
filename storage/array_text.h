// PostgreSQL arrays as the text that libpqxx 6.4 passes on.
#ifndef ROWPROOF_STORAGE_ARRAY_TEXT_H_
#define ROWPROOF_STORAGE_ARRAY_TEXT_H_

#include <optional>
#include <string>
#include <string_view>

#include "storage/number_text.h"

namespace rowproof::storage {

// Text of a one-dimensional array, element by element.
class ArrayText {
 public:
  void Add(double value) {
    Separate();
    AppendNumber(elements_, value);
  }
  void Add(int value) {
    Separate();
    AppendNumber(elements_, value);
  }
  void Add(bool value) { Append(value ? "t" : "f"); }
  void Add(std::string_view text) {
    Separate();
    elements_ += '"';
    for (const char c : text) {
      if (c == '"' || c == '\\') elements_ += '\\';
      elements_ += c;
    }
    elements_ += '"';
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
  void Separate() {
    if (!elements_.empty()) elements_ += ',';
  }
  void Append(std::string_view element) {
    Separate();
    elements_ += element;
  }
  std::string elements_;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ARRAY_TEXT_H_
