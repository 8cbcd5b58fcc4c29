#include <gtest/gtest.h>

#include <set>
#include <string>

#include "services/domain/reconcile/reconciliation.h"

namespace rowproof::reconcile {
namespace {

using estimate::YarnColour;

TEST(QuantityOfYarn, IsAnsweredForEveryYarnAnEstimateMayList) {
  for (const YarnColour colour : estimate::kYarnColoursAsListed) {
    EXPECT_EQ(YarnOfQuantity(QuantityOf(colour)), colour);
    EXPECT_EQ(Name(QuantityOf(colour)), std::string("yarn ") + estimate::Name(colour));
  }
  EXPECT_FALSE(YarnOfQuantity(Quantity::kHeight).has_value());
}

TEST(QuantityOfYarn, KeepsTheNumbersThatAreStored) {
  EXPECT_EQ(static_cast<int>(QuantityOf(YarnColour::kA)), 1);
  EXPECT_EQ(static_cast<int>(QuantityOf(YarnColour::kBorder)), 3);
  EXPECT_EQ(static_cast<int>(Quantity::kTime), 6);
  EXPECT_EQ(static_cast<int>(QuantityOf(YarnColour::kC)), 7);
  EXPECT_EQ(static_cast<int>(QuantityOf(YarnColour::kH)), 12);
}

TEST(Quantities, AreEachListedOnce) {
  std::set<std::string> names;
  for (const Quantity quantity : kQuantitiesAsListed) names.insert(Name(quantity));
  EXPECT_EQ(names.size(), kQuantities);
}

}  // namespace
}  // namespace rowproof::reconcile
