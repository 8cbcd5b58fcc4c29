#include "services/domain/estimate/hook_labels.h"

#include <gtest/gtest.h>

namespace rowproof::estimate {
namespace {

// Craft Yarn Council, Hooks and Needles; 16 and 19 mm partly from memory.
TEST(HookLabels, AreThoseOfTheTable) {
  const std::pair<double, const char*> table[] = {
      {2.25, "B-1"}, {2.75, "C-2"},  {3.25, "D-3"}, {3.5, "E-4"}, {3.75, "F-5"},     {4, "G-6"},
      {4.5, "7"},    {5, "H-8"},     {5.5, "I-9"},  {6, "J-10"},  {6.5, "K-10 1/2"}, {8, "L-11"},
      {9, "M/N-13"}, {10, "N/P-15"}, {15, "P/Q"},   {16, "Q"},    {19, "S"}};
  for (const auto& [mm, label] : table) EXPECT_EQ(HookUsLabel(mm), label);
  EXPECT_EQ(HookUsLabel(7), "");
  EXPECT_EQ(HookUsLabel(4.4), "");
}

TEST(HookLabels, GiveTheMillimetresOfANumberOnlyWhereThereIsOne) {
  EXPECT_EQ(HookMmOfUsNumber(7), 4.5);
  EXPECT_EQ(HookMmOfUsNumber(10.5), 6.5);
  EXPECT_EQ(HookMmOfUsNumber(15), 10);
  EXPECT_EQ(HookMmOfUsNumber(12), std::nullopt);
  EXPECT_EQ(HookMmOfUsNumber(0), std::nullopt);
}

}  // namespace
}  // namespace rowproof::estimate
