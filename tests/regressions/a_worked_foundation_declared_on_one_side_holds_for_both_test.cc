// "version submit" once put a declared worked foundation into the estimate alone: the design lost
// it, and a chart that "check" passes became a draft.
#include <gtest/gtest.h>

#include "services/domain/chart/check/findings.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/version_content.h"
#include "tests/domain/patterns/sample_content.h"

namespace rowproof::estimate {
namespace {

using chart::Colour;

// A drop of row 2, which has an anchor only on a foundation in B.
chart::Design OnAFoundation() {
  return patterns::WorkingChart({"...", "...", "...", ".x.", "..."});
}

TEST(AWorkedFoundation, OfTheMaterialsAnchorsTheDesign) {
  chart::Design design = OnAFoundation();
  Materials materials;
  materials.foundation = {FoundationKind::kWorked, Colour::kB};
  EXPECT_FALSE(chart::Check(design).workable());
  ASSERT_TRUE(SettleFoundation(false, design, materials).ok());
  EXPECT_EQ(design.foundation_colour, Colour::kB);
  EXPECT_TRUE(chart::Check(design).workable());
}

TEST(AWorkedFoundation, OfTheDesignIsCountedInTheMaterials) {
  chart::Design design = OnAFoundation();
  design.foundation_colour = Colour::kB;
  Materials materials;
  ASSERT_TRUE(SettleFoundation(false, design, materials).ok());
  EXPECT_EQ(materials.foundation, (Foundation{FoundationKind::kWorked, Colour::kB}));
}

TEST(AWorkedFoundation, WithoutAColourHasThatOfRowOne) {
  chart::Design design = OnAFoundation();
  Materials materials;
  materials.foundation.kind = FoundationKind::kWorked;
  ASSERT_TRUE(SettleFoundation(false, design, materials).ok());
  EXPECT_EQ(design.foundation_colour, Colour::kA);
  EXPECT_EQ(materials.foundation.colour, Colour::kA);
}

TEST(AChain, StaysAChainInItsColour) {
  chart::Design design = OnAFoundation();
  Materials materials;
  materials.foundation.colour = Colour::kB;
  ASSERT_TRUE(SettleFoundation(true, design, materials).ok());
  EXPECT_FALSE(design.foundation_colour.has_value());
  EXPECT_EQ(materials.foundation, (Foundation{FoundationKind::kChain, Colour::kB}));
}

TEST(AContradiction, IsRefusedWithItsField) {
  chart::Design design = OnAFoundation();
  design.foundation_colour = Colour::kB;
  const auto field = [&](bool chain_declared, Foundation foundation) {
    Materials materials;
    materials.foundation = foundation;
    const ErrorDetail detail = DetailOf(SettleFoundation(chain_declared, design, materials));
    return detail.fields.empty() ? std::string() : detail.fields.front().field;
  };
  EXPECT_EQ(field(true, {}), "foundation");
  EXPECT_EQ(field(false, {FoundationKind::kWorked, Colour::kA}), "foundation_colour");
  EXPECT_EQ(field(false, {FoundationKind::kChain, Colour::kA}), "foundation_colour");
  EXPECT_EQ(field(false, {FoundationKind::kWorked, Colour::kB}), "");
}

TEST(ADifference, NamesTheFoundationThatIsWorked) {
  patterns::VersionContent before = patterns::SmallVersion();
  patterns::VersionContent after = before;
  after.design.foundation_colour = Colour::kA;  // as older versions have it, the materials a chain
  EXPECT_EQ(patterns::Compare(before, after).fields.size(), 2U);  // kind and colour
  before = after;
  after.materials.foundation = {FoundationKind::kWorked, Colour::kA};
  EXPECT_TRUE(patterns::Compare(before, after).fields.empty());
}

}  // namespace
}  // namespace rowproof::estimate
