// UTF-8 as table 3-7 of The Unicode Standard has it (from memory).
#include "services/text/utf8.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <cstdio>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace rowproof::text {
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

// Whatever lies before and behind: long texts are judged in stretches of eight bytes.
TEST(Utf8, IsJudgedAtEveryPlaceOfALongText) {
  const std::string plain(40, 'a');
  for (size_t at = 0; at <= plain.size(); ++at) {
    for (const std::string part : {"\xC3\xA9", "\xE2\x80\x93", "\xF0\x90\x80\x80"}) {
      std::string text = plain;
      text.insert(at, part);
      EXPECT_TRUE(IsUtf8(text)) << at;
      text.erase(at + part.size() - 1, 1);
      EXPECT_EQ(WellFormedBytes(text), at);
    }
  }
}

TEST(Characters, AreReadWholeAndBytesOfNoneOneByOne) {
  const std::string text = "a\xC3\xA9\xE2\x80\x93\xF0\x90\x80\x80\xFF\xE2\x80";
  const std::vector<std::pair<uint32_t, size_t>> expected = {
      {'a', 1}, {0xE9, 2}, {0x2013, 3}, {0x10000, 4}, {0xFFFD, 1}, {0xFFFD, 1}, {0xFFFD, 1}};
  size_t at = 0;
  for (const auto& [code_point, length] : expected) {
    const Character character = CharacterAt(text, at);
    EXPECT_EQ(character.code_point, code_point) << at;
    EXPECT_EQ(character.length, length) << at;
    at += length;
  }
  EXPECT_EQ(at, text.size());
  EXPECT_EQ(CharacterCount(text), expected.size());
  EXPECT_EQ(CharacterCount(""), 0u);
}

TEST(Characters, AreNotCutInTwo) {
  const std::string text = "a\xC3\xA9\xE2\x80\x93z";
  EXPECT_EQ(FirstCharacters(text, 2), "a\xC3\xA9");
  EXPECT_EQ(FirstCharacters(text, 99), text);
  const std::vector<std::string> expected = {
      "", "a", "a", "a\xC3\xA9", "a\xC3\xA9", "a\xC3\xA9", "a\xC3\xA9\xE2\x80\x93", text, text};
  for (size_t bytes = 0; bytes < expected.size(); ++bytes) {
    EXPECT_EQ(FirstBytes(text, bytes), expected[bytes]) << bytes;
  }
}

TEST(Characters, AreControlsOrBlanksOrNeither) {
  for (const uint32_t control : {0x0u, 0x9u, 0x1Fu, 0x7Fu, 0x85u, 0x9Fu}) {
    EXPECT_TRUE(IsControl(control)) << control;
    EXPECT_FALSE(IsBlank(control)) << control;
  }
  for (const uint32_t blank : {0x20u, 0xA0u, 0x1680u, 0x2000u, 0x200Au, 0x2028u, 0x3000u}) {
    EXPECT_TRUE(IsBlank(blank)) << blank;
    EXPECT_FALSE(IsControl(blank)) << blank;
  }
  for (const uint32_t other : {0x21u, 0x7Eu, 0xA1u, 0x1FFFu, 0x200Bu, 0xFEFFu}) {
    EXPECT_FALSE(IsControl(other) || IsBlank(other)) << other;
  }
}

// Outside check: Debian's Perl, whose tables are made from the Unicode Character Database. Left out
// are those that belong to words and signs, and what Perl's Unicode has assigned meanwhile is
// there, too.
TEST(Characters, ThatAreInvisibleAreUnicodesDefaultIgnorableOnes) {
  FILE* pipe = popen(
      "perl -e 'for (0..0xd7ff, 0xe000..0x10ffff) { print \"$_\\n\" if chr =~ "
      "/\\p{Default_Ignorable_Code_Point}/ }'",
      "r");
  ASSERT_NE(pipe, nullptr);
  std::set<uint32_t> ignorable;
  char line[32];
  while (fgets(line, sizeof line, pipe) != nullptr) {
    ignorable.insert(static_cast<uint32_t>(std::stoul(line)));
  }
  ASSERT_EQ(pclose(pipe), 0);
  ASSERT_GT(ignorable.size(), 4000u);
  const auto is_joiner = [](uint32_t c) {
    return c == 0x34f || c == 0x200c || c == 0x200d ||
           (c >= 0x180b && c <= 0x180f && c != 0x180e) || (c >= 0xfe00 && c <= 0xfe0f) ||
           (c >= 0xe0100 && c <= 0xe01ef);
  };
  for (uint32_t c = 0; c <= 0x10ffff; ++c) {
    if (c >= 0xfff9 && c <= 0xfffb)
      continue;  // interlinear annotation: controls, though not ignorable
    if (IsInvisible(c) != (ignorable.contains(c) && !is_joiner(c))) ADD_FAILURE() << std::hex << c;
  }
}

}  // namespace
}  // namespace rowproof::text
