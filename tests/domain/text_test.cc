// Texts from outside: lengths and control characters.
#include "services/domain/text.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <string>

#include "services/domain/errors.h"

namespace rowproof {
namespace {

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
