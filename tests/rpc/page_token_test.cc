// Page sizes, page tokens and etags.
#include "services/rpc/page_token.h"

#include <gtest/gtest.h>

#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

const std::vector<std::string> kKeys = {"1767225600000000", "p1"};
constexpr char kBinding[] = "PatternService.ListPatterns";

TEST(PageSize, IsFiftyWhereNothingIsAskedAndAThousandAtMost) {
  EXPECT_EQ(*PageSize(0), 50);
  EXPECT_EQ(*PageSize(1), 1);
  EXPECT_EQ(*PageSize(1000), 1000);
  EXPECT_EQ(*PageSize(1001), 1000);
  EXPECT_EQ(*PageSize(2147483647), 1000);
  EXPECT_EQ(DetailOf(PageSize(-1).status()).fields.at(0).field, "page_size");
}

TEST(PageToken, IsReadBackByTheSameRequest) {
  const auto keys = ReadPageToken(MakePageToken(kBinding, kKeys), kBinding, 2);
  ASSERT_TRUE(keys.ok()) << keys.status();
  EXPECT_EQ(*keys, kKeys);
  EXPECT_EQ(*ReadPageToken(MakePageToken(kBinding, {"", ""}), kBinding, 2),
            (std::vector<std::string>{"", ""}));
}

TEST(PageToken, IsEmptyForTheFirstPage) {
  const auto keys = ReadPageToken("", kBinding, 2);
  ASSERT_TRUE(keys.ok());
  EXPECT_TRUE(keys->empty());
}

TEST(PageToken, IsRefusedByAnotherRequest) {
  const std::string token = MakePageToken(kBinding, kKeys);
  for (const std::string binding :
       {"PatternService.ListVersions", "", "PatternService.ListPatterns state=1"}) {
    const auto keys = ReadPageToken(token, binding, 2);
    EXPECT_EQ(keys.status().code(), absl::StatusCode::kInvalidArgument);
    EXPECT_EQ(DetailOf(keys.status()).fields.at(0).field, "page_token");
  }
  EXPECT_FALSE(ReadPageToken(token, kBinding, 1).ok());
  EXPECT_FALSE(ReadPageToken(token, kBinding, 3).ok());
}

TEST(PageToken, IsRefusedOnceAnyCharacterIsAltered) {
  const std::string token = MakePageToken(kBinding, kKeys);
  for (size_t i = 0; i < token.size(); ++i) {
    std::string altered = token;
    altered[i] = altered[i] == 'A' ? 'B' : 'A';
    const auto keys = ReadPageToken(altered, kBinding, 2);
    // The last character's spare bits say nothing: such a token is the same one.
    if (keys.ok()) {
      EXPECT_EQ(*keys, kKeys) << i;
      EXPECT_EQ(i, token.size() - 1);
    }
    EXPECT_FALSE(ReadPageToken(token.substr(0, i), kBinding, 2).ok() && i > 0) << i;
  }
}

TEST(PageToken, IsRefusedWhereItIsNone) {
  for (const std::string token : {"x", "next", "===", "\xFF\xFE", " "}) {
    EXPECT_FALSE(ReadPageToken(token, kBinding, 2).ok()) << token;
  }
  EXPECT_FALSE(ReadPageToken(std::string(100'000, 'A'), kBinding, 2).ok());
  EXPECT_FALSE(ReadPageToken(std::string(16, 'A'), kBinding, 0).ok());
}

TEST(Etag, IsReadBackAsTheRevision) {
  for (const int revision : {1, 2, 10, 999'999'999}) {
    const auto read = ReadEtag(MakeEtag(revision));
    ASSERT_TRUE(read.ok()) << read.status();
    EXPECT_EQ(*read, revision);
  }
  EXPECT_EQ(*ReadEtag(""), -1);
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
