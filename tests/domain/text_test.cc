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
    const bool soft_hyphen = c == 0xAD;
    EXPECT_EQ(ValidateText("f", text, 10, false).ok(), !control && !soft_hyphen) << c;
    const bool passes = c == '\n' || c == '\t';
    EXPECT_EQ(ValidateText("f", text, 10, true).ok(), !control || passes) << c;
  }
}

TEST(Text, OfOneLineHoldsNothingInvisible) {
  for (const char* const hidden : {"\xE2\x80\x8B", "\xE2\x80\xAE", "\xC2\xAD", "\xEF\xBB\xBF"}) {
    EXPECT_FALSE(ValidateText("f", std::string("a") + hidden, 10, false).ok());
    EXPECT_TRUE(ValidateText("f", std::string("a") + hidden, 10, true).ok());
  }
  // The joiner of a Persian word or of a sign made of two.
  EXPECT_TRUE(ValidateText("f", "a\xE2\x80\x8D", 10, false).ok());
}

TEST(Names, HaveSomethingToSee) {
  EXPECT_TRUE(ValidateName("f", "Reed Mat", 8).ok());
  for (const char* const name : {"", " ", "\xC2\xA0 ", "Reed Mats", "a\nb"}) {
    EXPECT_EQ(DetailOf(ValidateName("f", name, 8)).fields.at(0).field, "f") << name;
  }
}

TEST(MailAddresses, AreAMailboxAtADomain) {
  for (const char* const address : {"a@b.example", "first.last+tag@sub.example.org",
                                    "o'hara@localhost", "j\xC3\xBC@d\xC3\xA9.example"}) {
    EXPECT_TRUE(IsMailAddress(address)) << address;
  }
  for (const char* const address :
       {"", "@", "a", "a@", "@b", "a@b@c", "a b@c", "a@b c", "a.@b", ".a@b", "a..b@c", "a@b.",
        "a@.b", "a@b..c", "a,b@c", "<a@b>", "a@b;c@d", "a@b_c", "\xFF@b"}) {
    EXPECT_FALSE(IsMailAddress(address)) << address;
  }
  EXPECT_FALSE(IsMailAddress(std::string(65, 'a') + "@b"));
}

TEST(Text, IsRefusedWithThePlaceAndNotWithTheBytes) {
  const std::string nul("ab\0", 3);
  EXPECT_NE(ValidateText("f", nul, 10, true).message().find("U+0000 at byte 3"), std::string::npos);
  EXPECT_NE(ValidateText("f", "ab\xFF", 10, true).message().find("at byte 3"), std::string::npos);
}

}  // namespace
}  // namespace rowproof
