// Numbers as text, for PostgreSQL and for JSON.
#ifndef ROWPROOF_STORAGE_NUMBER_TEXT_H_
#define ROWPROOF_STORAGE_NUMBER_TEXT_H_

#include <array>
#include <charconv>
#include <optional>
#include <string>

namespace rowproof::storage {

// Appends the shortest text that reads back; of a double in any locale, which libpqxx's own way
// asks for each time.
template <typename Number>
void AppendNumber(std::string& text, Number value) {
  std::array<char, 32> digits;
  const auto written = std::to_chars(digits.data(), digits.data() + digits.size(), value);
  text.append(digits.data(), written.ptr);
}

inline std::optional<std::string> NumberText(const std::optional<double>& value) {
  if (!value.has_value()) return std::nullopt;
  std::string text;
  AppendNumber(text, *value);
  return text;
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_NUMBER_TEXT_H_
