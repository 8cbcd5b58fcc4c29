#include <gtest/gtest.h>

#include "services/domain/reconcile/reconciliation.h"

namespace rowproof::reconcile {
namespace {

using estimate::YarnColour;

TEST(QuantityOfYarn, IsAnsweredForEveryYarnAnEstimateMayList) {
  for (const YarnColour colour : estimate::kYarnColoursAsListed) {
    const std::optional<Quantity> quantity = QuantityOf(colour);
    const bool reported =
        colour == YarnColour::kA || colour == YarnColour::kB || colour == YarnColour::kBorder;
    ASSERT_EQ(quantity.has_value(), reported);
    if (reported) {
      EXPECT_EQ(YarnOfQuantity(*quantity), colour);
    }
  }
}

}  // namespace
}  // namespace rowproof::reconcile
