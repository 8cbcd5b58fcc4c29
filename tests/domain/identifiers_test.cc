// Digests and the form of names.
#include "services/domain/identifiers.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <memory>
#include <random>

namespace rowproof {
namespace {

TEST(Sha256, IsThatOfThePublishedExamples) {
  // FIPS 180-4's example "abc" as NIST publishes it, and the digest of nothing (both from memory).
  EXPECT_EQ(HexOf(Sha256Of("abc")),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(HexOf(Sha256Of("")),
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

// Against sha256sum of GNU coreutils, which is another implementation: lengths about the blocks of
// 64 bytes.
TEST(Sha256, IsWhatSha256sumPrints) {
  std::mt19937 random(180);
  for (const size_t length : {1u, 55u, 56u, 63u, 64u, 65u, 119u, 120u, 1000u}) {
    std::string bytes;
    std::string octal;
    for (size_t i = 0; i < length; ++i) {
      const auto byte = static_cast<unsigned>(random() % 256);
      bytes += static_cast<char>(byte);
      char digits[8];
      std::snprintf(digits, sizeof(digits), "\\%03o", byte);
      octal += digits;
    }
    const std::string command = "printf '" + octal + "' | sha256sum";
    const std::unique_ptr<FILE, int (*)(FILE*)> output(popen(command.c_str(), "r"), pclose);
    ASSERT_NE(output, nullptr);
    char printed[65] = {};
    ASSERT_EQ(std::fread(printed, 1, 64, output.get()), 64u);
    EXPECT_EQ(HexOf(Sha256Of(bytes)), printed) << length;
  }
}

TEST(Identifiers, AreOneToFortySmallLettersAndDigits) {
  EXPECT_TRUE(IsIdentifier("a"));
  EXPECT_TRUE(IsIdentifier("0"));
  EXPECT_TRUE(IsIdentifier(std::string(40, 'z')));
  EXPECT_FALSE(IsIdentifier(""));
  EXPECT_FALSE(IsIdentifier(std::string(41, 'z')));
  for (int c = 0; c < 256; ++c) {
    const bool fits = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    EXPECT_EQ(IsIdentifier(std::string("a") + static_cast<char>(c)), fits) << c;
  }
}

}  // namespace
}  // namespace rowproof
