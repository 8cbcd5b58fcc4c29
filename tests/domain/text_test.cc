// Texts from outside: UTF-8 as table 3-7 of The Unicode Standard has it (from memory), lengths and
// control characters.
#include "services/domain/text.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <string>

#include "services/domain/errors.h"

namespace rowproof {
namespace {

TEST(Utf8, TakesTheFirstAndLastOfEachRangeOfTheTable) {
  for (const std::string text :
       {"", "a", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xE0\xBF\xBF", "\xE1\x80\x80",
        "\xEC\xBF\xBF", "\xED\x80\x80", "\xED\x9F\xBF", "\xEE\x80\x80", "\xEF\xBF\xBF",
        "\xF0\x90\x80\x80", "\xF0\xBF\xBF\xBF", "\xF1\x80\x80\x80", "\xF3\xBF\xBF\xBF",
        "\xF4\x80\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_TRUE(IsUtf8(text)) << ::testing::PrintToString(text);
  }
  EXPECT_TRUE(IsUtf8(std::string_view("\0", 1)));
}

TEST(Utf8, RefusesWhatLiesJustOutsideTheTable) {
  for (const std::string text : {"\x80",
                                 "\xBF",
                                 "\xC0\x80",
                                 "\xC1\xBF",
                                 "\xC2",
                                 "\xC2\x7F",
                                 "\xC2\xC0",
                                 "\xE0\x9F\xBF",
                                 "\xE0\xA0",
                                 "\xE1\x80",
                                 "\xE1\x80\x7F",
                                 "\xED\xA0\x80",
                                 "\xED\xBF\xBF",
                                 "\xF0\x8F\xBF\xBF",
                                 "\xF0\x90\x80",
                                 "\xF4\x90\x80\x80",
                                 "\xF5\x80\x80\x80",
                                 "\xFE",
                                 "\xFF",
                                 "a\xC3",
                                 "\xC3\x28z"}) {
    EXPECT_FALSE(IsUtf8(text)) << ::testing::PrintToString(text);
  }
}

// Of every code point, written by the textbook formula.
TEST(Utf8, TakesEveryScalarValueAndNoSurrogate) {
  for (uint32_t c = 0x80; c <= 0x10FFFF; ++c) {
    std::string text;
    const auto tail = [&](int shift) { text += static_cast<char>(0x80 | (c >> shift & 0x3F)); };
    if (c < 0x800) {
      text += static_cast<char>(0xC0 | c >> 6);
    } else if (c < 0x10000) {
      text += static_cast<char>(0xE0 | c >> 12);
      tail(6);
    } else {
      text += static_cast<char>(0xF0 | c >> 18);
      tail(12);
      tail(6);
    }
    tail(0);
    const bool surrogate = c >= 0xD800 && c <= 0xDFFF;
    ASSERT_EQ(IsUtf8(text), !surrogate) << c;
  }
}

TEST(Text, IsMeasuredInBytes) {
  EXPECT_TRUE(ValidateText("f", "\xC3\xA9\xC3\xA9", 4, false).ok());
  const absl::Status status = ValidateText("f", "\xC3\xA9\xC3\xA9", 3, false);
  EXPECT_EQ(DetailOf(status).fields.at(0).field, "f");
  EXPECT_NE(status.message().find("4 bytes"), std::string::npos);
  EXPECT_NE(status.message().find("at most 3 bytes"), std::string::npos);
  EXPECT_TRUE(ValidateText("f", "", 0, false).ok());
}

TEST(Text, HoldsNoControlCharacters) {
  for (uint32_t c = 0; c <= 0xFF; ++c) {
    std::string text = "a";
    if (c >= 0x80) text += static_cast<char>(0xC0 | c >> 6);
    text += static_cast<char>(c >= 0x80 ? 0x80 | (c & 0x3F) : c);
    const bool control = c < 0x20 || (c >= 0x7F && c <= 0x9F);
    EXPECT_EQ(ValidateText("f", text, 10, false).ok(), !control) << c;
    const bool passes = c == '\n' || c == '\t';
    EXPECT_EQ(ValidateText("f", text, 10, true).ok(), !control || passes) << c;
  }
}

TEST(Text, IsRefusedWithThePlaceAndNotWithTheBytes) {
  const std::string nul("ab\0", 3);
  EXPECT_NE(ValidateText("f", nul, 10, true).message().find("U+0000 at byte 3"), std::string::npos);
  EXPECT_NE(ValidateText("f", "ab\xFF", 10, true).message().find("at byte 3"), std::string::npos);
}

}  // namespace
}  // namespace rowproof
