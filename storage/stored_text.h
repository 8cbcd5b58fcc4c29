// Values from the text that PostgreSQL gives, checked. Each throws UnreadableValue with the
// column's name if the text is not such a value.
#ifndef ROWPROOF_STORAGE_STORED_TEXT_H_
#define ROWPROOF_STORAGE_STORED_TEXT_H_

#include <climits>
#include <cmath>
#include <concepts>
#include <cstdint>
#include <string>
#include <string_view>

#include "services/domain/clock.h"
#include "services/domain/text.h"
#include "services/text/utf8.h"
#include "storage/number_text.h"
#include "storage/stored_enum.h"
#include "storage/unreadable_value.h"

namespace rowproof::storage {

// No measure, amount or sum in a column is as large: 1e15 m are some hundred light-days. Below it
// every number can be rounded to an integer.
inline constexpr double kLargestStored = 1e15;

template <std::integral Integer>
Integer IntegerOf(std::string_view text, const char* column, Integer least, Integer most) {
  const auto value = NumberIn<Integer>(text);
  if (!value.has_value() || *value < least || *value > most) throw UnreadableValue(column);
  return *value;
}

// A count, a row or a stitch: from 0.
inline int CountOf(std::string_view text, const char* column) {
  return IntegerOf(text, column, 0, INT_MAX);
}

// Finite, at most kLargestStored to either side of 0.
inline double RealOf(std::string_view text, const char* column) {
  const auto value = NumberIn<double>(text);
  if (!value.has_value() || !(std::abs(*value) <= kLargestStored)) throw UnreadableValue(column);
  return *value;
}

inline bool FlagOf(std::string_view text, const char* column) {
  if (text != "t" && text != "f") throw UnreadableValue(column);
  return text == "t";
}

// UTF-8, which a database of another encoding does not see to.
inline std::string TextOf(std::string_view text, const char* column) {
  if (!text::IsUtf8(text)) throw UnreadableValue(column);
  return std::string(text);
}

// Microseconds of Unix time, in the years 1 to 9999.
inline Moment MomentIn(std::string_view text, const char* column) {
  constexpr int64_t kYear1 = -62'135'596'800'000'000;
  constexpr int64_t kYear10000 = 253'402'300'800'000'000;
  return MomentOf(IntegerOf<int64_t>(text, column, kYear1, kYear10000 - 1));
}

template <typename Enum>
Enum EnumOf(std::string_view text, const char* column) {
  const auto value = EnumOfNumber<Enum>(IntegerOf(text, column, 0, INT_MAX));
  if (!value.has_value()) throw UnreadableValue(column);
  return *value;
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_STORED_TEXT_H_
