// Random names and secrets.
#include "services/server/random_identifiers.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace rowproof::server {
namespace {

TEST(RandomIdentifiersTest, AreSixteenCharactersAndNeverTheSame) {
  RandomIdentifiers identifiers;
  std::set<std::string> met;
  for (int i = 0; i < 10'000; ++i) {
    const std::string made = identifiers.NewIdentifier();
    ASSERT_EQ(made.size(), 16u);
    ASSERT_TRUE(IsIdentifier(made)) << made;
    ASSERT_TRUE(met.insert(made).second);
  }
}

TEST(RandomIdentifiersTest, MakeSecretsOf256Bits) {
  RandomIdentifiers identifiers;
  std::set<std::string> met;
  std::set<char> last;
  std::set<char> others;
  for (int i = 0; i < 4'000; ++i) {
    const std::string secret = identifiers.NewSecret();
    ASSERT_EQ(secret.size(), 3u + 52u);
    ASSERT_EQ(secret.substr(0, 3), "rp_");
    ASSERT_EQ(secret.find_first_not_of("abcdefghijklmnopqrstuvwxyz234567", 3), std::string::npos);
    ASSERT_TRUE(met.insert(secret).second);
    last.insert(secret.back());
    others.insert(secret[3]);
  }
  // 52 digits of five bits hold four bits more than 256: the last digit is one of two values.
  EXPECT_EQ(others.size(), 32u);
  EXPECT_EQ(last, (std::set<char>{'a', 'q'}));
}

}  // namespace
}  // namespace rowproof::server
