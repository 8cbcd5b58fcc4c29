// Numbers and units as people write them. 1 in is 25.4 mm, 1 yd 0.9144 m and 1 oz 28.349523125 g,
// exact by definition.
#include "services/quantities/reading.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace rowproof::quantities {
namespace {

TEST(OneQuantity, IsANumberWithItsUnit) {
  EXPECT_EQ(MmOf(*ReadOneQuantity("12.5 cm")), 125);
  EXPECT_EQ(MmOf(*ReadOneQuantity(" 4in ")), 4 * 25.4);
  EXPECT_EQ(MmOf(*ReadOneQuantity("4\"")), 4 * 25.4);
  EXPECT_EQ(MmOf(*ReadOneQuantity("1 1/2 inches")), 1.5 * 25.4);
  EXPECT_EQ(MetresOf(*ReadOneQuantity("188 yd")), 188 * 0.9144);
  EXPECT_EQ(MetresOf(*ReadOneQuantity("12.3 m")), 12.3);
  EXPECT_EQ(GramsOf(*ReadOneQuantity("3.5oz")), 3.5 * 28.349523125);
  EXPECT_EQ(MinutesOf(*ReadOneQuantity("1.5 hours")), 90);
  EXPECT_EQ(ReadOneQuantity("3 rows")->measure, Measure::kRows);
}

TEST(OneQuantity, HasNothingBesideIt) {
  for (const char* text : {"", "12", "cm", "12 parsecs", "12 cm 3 mm", "about 12 cm", "12 cm.",
                           "1,200 m", "1.5.2 cm", "0x10 mm", "1e999 mm", "1/0 m", "12 \xC3\xA9"}) {
    EXPECT_FALSE(ReadOneQuantity(text).has_value()) << text;
  }
}

TEST(Quantities, AreReadBetweenWordsThatJoin) {
  std::vector<Quantity> read;
  ASSERT_FALSE(ReadQuantities("21 stitches in 10 cm, 24 in 50 g", &read).has_value());
  ASSERT_EQ(read.size(), 4u);
  EXPECT_EQ(read[0].measure, Measure::kStitches);
  EXPECT_EQ(MmOf(read[1]), 100);
  EXPECT_EQ(read[2].measure, Measure::kNone);  // "in" joins here
  EXPECT_EQ(GramsOf(read[3]), 50);
}

TEST(Quantities, SayWhatCannotBeReadAndWhere) {
  const auto problem = [](const char* text) {
    std::vector<Quantity> read;
    return ReadQuantities(text, &read).value();
  };
  EXPECT_EQ(problem("5 cm nonsense").kind, ProblemKind::kUnknown);
  EXPECT_EQ(problem("5 cm nonsense").offset, 5u);
  EXPECT_EQ(problem("5 cm nonsense").length, 8u);
  EXPECT_EQ(problem("in 1,200 mm").kind, ProblemKind::kThousands);
  EXPECT_EQ(problem("in 1,200 mm").length, 5u);
  EXPECT_EQ(problem("1.200,5 mm").kind, ProblemKind::kTwoDecimalSigns);
  EXPECT_EQ(problem("3/0 in").kind, ProblemKind::kNoFraction);
  EXPECT_EQ(problem(std::string(41, '7').c_str()).kind, ProblemKind::kTooManyDigits);
  std::string many;
  for (int i = 0; i < 61; ++i) many += "1 ";
  EXPECT_EQ(problem(many.c_str()).kind, ProblemKind::kTooLong);
}

}  // namespace
}  // namespace rowproof::quantities
