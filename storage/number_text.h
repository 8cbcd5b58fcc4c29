// Numbers as text, for PostgreSQL and for JSON.
#ifndef ROWPROOF_STORAGE_NUMBER_TEXT_H_
#define ROWPROOF_STORAGE_NUMBER_TEXT_H_

#include <array>
#include <charconv>
#include <optional>
#include <string>
#include <string_view>

namespace rowproof::storage {

// Appends the shortest text that reads back; of a double in any locale, which libpqxx's own way
// asks for each time.
template <typename Number>
void AppendNumber(std::string& text, Number value) {
  std::array<char, 32> digits;
  const auto written = std::to_chars(digits.data(), digits.data() + digits.size(), value);
  text.append(digits.data(), written.ptr);
}

template <typename Number>
std::string NumberText(Number value) {
  std::string text;
  AppendNumber(text, value);
  return text;
}

template <typename Number>
std::optional<std::string> NumberText(const std::optional<Number>& value) {
  if (!value.has_value()) return std::nullopt;
  return NumberText(*value);
}

// None if the text is anything but one number that the type can hold.
template <typename Number>
std::optional<Number> NumberIn(std::string_view text) {
  Number value{};
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, value);
  if (read.ec != std::errc() || read.ptr != end) return std::nullopt;
  return value;
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_NUMBER_TEXT_H_
