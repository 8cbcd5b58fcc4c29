#include "services/text/wrapping.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

namespace rowproof::text {
namespace {

using ::testing::ElementsAre;

TEST(Wrap, BreaksAtBlanksAndWithinAWordOnlyWhereItMust) {
  EXPECT_THAT(Wrap("one two  three", 7), ElementsAre("one two", "three"));
  EXPECT_THAT(Wrap("abcdefgh ij", 3), ElementsAre("abc", "def", "gh", "ij"));
  EXPECT_THAT(Wrap("abcdefgh i", 5), ElementsAre("abcde", "fgh i"));
  EXPECT_THAT(Wrap("  \n\t ", 5), ElementsAre());
  EXPECT_THAT(Wrap("ab", 0), ElementsAre("a", "b"));
  // Not inside a letter of two bytes.
  EXPECT_THAT(Wrap("\xc3\xa9\xc3\xa9\xc3\xa9", 2), ElementsAre("\xc3\xa9\xc3\xa9", "\xc3\xa9"));
}

TEST(Wrap, IndentsFurtherLinesAsFarAsTheLead) {
  std::string out = "before\n";
  AppendWrapped(out, "Was: ", "one two\nthree", 12);
  EXPECT_EQ(out, "before\nWas: one two\n     three\n");
  AppendWrapped(out, "Was: ", "", 12);
  EXPECT_EQ(out, "before\nWas: one two\n     three\n");
}

TEST(Padded, CountsCharacters) {
  EXPECT_EQ(Padded("\xc3\xa9", 3), "\xc3\xa9  ");
  EXPECT_EQ(Padded("long", 3), "long");
}

TEST(Excerpt, IsOneLineOfFortyCharacters) {
  const std::string forty(40, 'x');
  EXPECT_EQ(Excerpt(forty), forty);
  EXPECT_EQ(Excerpt(forty + "y"), forty + "...");
  EXPECT_EQ(Excerpt("a\nb\x7f"), "a b ");
  std::string accented;
  for (int i = 0; i < 40; ++i) accented += "\xc3\xa9";
  EXPECT_EQ(Excerpt(accented), accented);
  EXPECT_EQ(Excerpt(accented + "\xc3\xa9"), accented + "...");
}

}  // namespace
}  // namespace rowproof::text
