#include "services/addresses/loopback.h"

#include <gtest/gtest.h>

#include <string_view>

namespace rowproof::addresses {
namespace {

TEST(Loopback, IsJudgedByTheAddressAndNotByItsLetters) {
  for (const char* address : {"127.0.0.1:7420", "127.8.9.10:1", "localhost:7420", "[::1]:7420",
                              "unix:/tmp/socket", "127.0.0.1", "localhost", "[::1]"}) {
    EXPECT_TRUE(IsLoopback(address)) << address;
  }
  for (const char* address :
       {"127.example.org:7420", "127.0.0.1.example.org:7420", "10.0.0.1:7420", "example.org:1",
        "localhost.example.org:1", "[::2]:1", "[::]:1", "0.0.0.0:1", "127.1:1", "", ":7420"}) {
    EXPECT_FALSE(IsLoopback(address)) << address;
  }
  // Nothing behind a NUL is overlooked.
  EXPECT_FALSE(IsLoopback(std::string_view("127.0.0.1\0.example.org:1", 24)));
}

}  // namespace
}  // namespace rowproof::addresses
