// Page sizes, page tokens and etags.
#include "services/rpc/page_token.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "absl/strings/escaping.h"
#include "services/domain/errors.h"
#include "services/domain/identifiers.h"

namespace rowproof::rpc {
namespace {

const PageKey kKey{1767225600000000, "p1"};
constexpr char kBinding[] = "PatternService.ListPatterns";

std::string TokenOf(const PageKey& key, const std::string& binding = kBinding) {
  return NextPageToken(*ReadPage(0, "", binding), key);
}

// A token as anybody can make it who knows how: its seal holds no secret.
std::string ForgedToken(const std::string& key) {
  const std::string seal = HexOf(Sha256Of(std::string(kBinding) + '\x1f' + key)).substr(0, 16);
  return absl::WebSafeBase64Escape(seal + key);
}

TEST(PageSize, IsFiftyWhereNothingIsAskedAndAThousandAtMost) {
  const auto size = [](int asked) { return ReadPage(asked, "", kBinding)->size; };
  EXPECT_EQ(size(0), 50);
  EXPECT_EQ(size(1), 1);
  EXPECT_EQ(size(1000), 1000);
  EXPECT_EQ(size(1001), 1000);
  EXPECT_EQ(size(2147483647), 1000);
  EXPECT_EQ(DetailOf(ReadPage(-1, "", kBinding).status()).fields.at(0).field, "page_size");
}

TEST(PageToken, IsReadBackByTheSameRequest) {
  for (const PageKey& key : {kKey, PageKey{0, ""}, PageKey{7, ""}, PageKey{0, "q9"}}) {
    const auto page = ReadPage(10, TokenOf(key), kBinding);
    ASSERT_TRUE(page.ok()) << page.status();
    EXPECT_EQ(page->last_sent, key);
    EXPECT_EQ(page->number(-1), std::min<int64_t>(key.number, 2147483647));
    EXPECT_EQ(page->moment(), MomentOf(key.number));
    EXPECT_EQ(page->id(), key.id);
  }
}

TEST(PageToken, IsEmptyForTheFirstPage) {
  const auto page = ReadPage(10, "", kBinding);
  ASSERT_TRUE(page.ok());
  EXPECT_EQ(page->last_sent, std::nullopt);
  EXPECT_EQ(page->number(-1), -1);
  EXPECT_EQ(page->moment(), std::nullopt);
  EXPECT_EQ(page->id(), "");
}

TEST(PageToken, IsRefusedByAnotherRequest) {
  for (const std::string binding :
       {"PatternService.ListVersions", "", "PatternService.ListPatterns state=1"}) {
    const auto page = ReadPage(10, TokenOf(kKey), binding);
    EXPECT_EQ(page.status().code(), absl::StatusCode::kInvalidArgument);
    EXPECT_EQ(DetailOf(page.status()).fields.at(0).field, "page_token");
  }
}

TEST(PageToken, IsRefusedOnceAnyCharacterIsAltered) {
  const std::string token = TokenOf(kKey);
  for (size_t i = 0; i < token.size(); ++i) {
    std::string altered = token;
    altered[i] = altered[i] == 'A' ? 'B' : 'A';
    const auto page = ReadPage(10, altered, kBinding);
    // The last character's spare bits say nothing: such a token is the same one.
    if (page.ok()) {
      EXPECT_EQ(page->last_sent, kKey) << i;
      EXPECT_EQ(i, token.size() - 1);
    }
    EXPECT_FALSE(ReadPage(10, token.substr(0, i), kBinding).ok() && i > 0) << i;
  }
}

TEST(PageToken, IsRefusedWhereItIsNone) {
  for (const std::string token : {"x", "next", "===", "\xFF\xFE", " "}) {
    EXPECT_FALSE(ReadPage(10, token, kBinding).ok()) << token;
  }
  EXPECT_FALSE(ReadPage(10, std::string(100'000, 'A'), kBinding).ok());
  EXPECT_FALSE(ReadPage(10, std::string(16, 'A'), kBinding).ok());
}

TEST(PageToken, IsRefusedWhereWhatItSaysCannotBeEvenUnderARightSeal) {
  EXPECT_TRUE(ReadPage(10, ForgedToken("7\x1fp1"), kBinding).ok());
  EXPECT_TRUE(ReadPage(10, ForgedToken("253402300799999999\x1f"), kBinding).ok());
  for (const std::string key :
       {"253402300800000000\x1fp1", "9223372036854775807\x1fp1", "99999999999999999999\x1fp1",
        "-1\x1fp1", "\x1fp1", "7", "7\x1fp1\x1f", "7\x1fP1", "7\x1fp 1", "seven\x1fp1"}) {
    const auto page = ReadPage(10, ForgedToken(key), kBinding);
    EXPECT_EQ(DetailOf(page.status()).fields.size(), 1u) << key;
  }
}

TEST(Etag, IsReadBackAsTheRevision) {
  for (const int revision : {1, 2, 10, 999'999'999}) {
    const auto read = ReadEtag(MakeEtag(revision));
    ASSERT_TRUE(read.ok()) << read.status();
    EXPECT_EQ(*read, revision);
  }
  EXPECT_EQ(*ReadEtag(""), std::nullopt);
}

TEST(Etag, IsRefusedInAnyOtherWayOfWriting) {
  for (const std::string etag :
       {"r0", "r-1", "r01", "r+1", "1", "R1", "r", "r 1", "r1 ", "\"r1\"", "r99999999999", "*"}) {
    const auto read = ReadEtag(etag);
    EXPECT_EQ(DetailOf(read.status()).fields.size(), 1u) << etag;
  }
}

}  // namespace
}  // namespace rowproof::rpc
