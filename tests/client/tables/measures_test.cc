// Which units a reader gets.
#include "services/client/tables/measures.h"

#include <gtest/gtest.h>

namespace rowproof::client {
namespace {

TEST(Measures, FollowTheReadersLocale) {
  EXPECT_EQ(UnitsOfLocale("en_US.UTF-8"), Units::kImperial);
  EXPECT_EQ(UnitsOfLocale("de_DE.UTF-8"), Units::kMetric);
  EXPECT_EQ(UnitsOfLocale("C"), Units::kMetric);
  EXPECT_EQ(UnitsOfLocale(""), Units::kMetric);
}

}  // namespace
}  // namespace rowproof::client
