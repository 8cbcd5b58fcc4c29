#include "services/domain/estimate/cautions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "services/domain/estimate/estimate.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Not;

std::vector<CautionCode> Codes(const Making& making, chart::Ends ends = chart::Ends::kCut) {
  chart::Design design = TwentyRows();
  design.ends = ends;
  std::vector<CautionCode> codes;
  for (const Caution& caution : Cautions(design, making)) codes.push_back(caution.code);
  return codes;
}

Making MakingOf(ItemKind item, const std::string& fibre_a, const std::string& fibre_b) {
  Making making = RoundMaking();
  making.item = item;
  making.yarn_a.fibre = fibre_a;
  making.yarn_b.fibre = fibre_b;
  return making;
}

TEST(Cautions, AlwaysSpeakOfRestBreaks) {
  EXPECT_THAT(Codes(RoundMaking()), ElementsAre(CautionCode::kStrain));
}

TEST(Cautions, WarnOfMeltingFibresInAHotPad) {
  EXPECT_THAT(Codes(MakingOf(ItemKind::kHotPad, "80 % Cotton, 20 % ACRYLIC", "cotton")),
              ElementsAre(CautionCode::kMeltingFibre, CautionCode::kHeat, CautionCode::kCare,
                          CautionCode::kStrain));
  for (const char* fibre : {"acrylic", "Polyester", "nylon", "polyamide", "microfibre"}) {
    EXPECT_TRUE(NamesMeltingFibre(fibre)) << fibre;
  }
  for (const char* fibre : {"cotton", "wool", "linen", ""}) {
    EXPECT_FALSE(NamesMeltingFibre(fibre)) << fibre;
  }
}

TEST(Cautions, NeverPromiseThatACottonHotPadProtects) {
  EXPECT_THAT(Codes(MakingOf(ItemKind::kHotPad, "cotton", "cotton")),
              ElementsAre(CautionCode::kHeat, CautionCode::kStrain));
}

TEST(Cautions, SayWhereAHotPadsFibreIsNotKnown) {
  EXPECT_THAT(Codes(MakingOf(ItemKind::kHotPad, "", "cotton")),
              Contains(CautionCode::kUnknownFibre));
  EXPECT_THAT(Codes(MakingOf(ItemKind::kHotPad, "cotton", "bamboo")),
              Contains(CautionCode::kUnknownFibre));
  EXPECT_THAT(Codes(MakingOf(ItemKind::kBlanket, "", "")),
              Not(Contains(CautionCode::kUnknownFibre)));
}

TEST(Cautions, WarnOfFringeAndCarriedStrandsWhereSmallChildrenUseTheItem) {
  Making making = MakingOf(ItemKind::kBabyItem, "cotton", "cotton");
  EXPECT_THAT(Codes(making), ElementsAre(CautionCode::kSmallChildren, CautionCode::kStrain));
  EXPECT_THAT(Codes(making, chart::Ends::kCarried), Contains(CautionCode::kLooseParts));
  making.added_fringe = {{YarnColour::kA, 4, 50, FringeEdge::kRowEnds}};
  EXPECT_THAT(Codes(making), Contains(CautionCode::kLooseParts));
  making.item = ItemKind::kBlanket;
  EXPECT_THAT(Codes(making), Not(Contains(CautionCode::kLooseParts)));
  making.intended_user = IntendedUser::kSmallChild;
  EXPECT_THAT(Codes(making), Contains(CautionCode::kLooseParts));
  making.added_fringe.clear();
  making.tail_use = TailUse::kFringe;
  making.fringe_length_mm = 60;
  EXPECT_THAT(Codes(making), Contains(CautionCode::kLooseParts));
  // Waiting ends make no fringe of tails.
  EXPECT_THAT(Codes(making, chart::Ends::kWaiting), Not(Contains(CautionCode::kLooseParts)));
}

TEST(Cautions, DeferToTheRulesOfTheCountryAndStandBesideEveryEstimate) {
  Making making = MakingOf(ItemKind::kBabyItem, "cotton", "wool");
  const auto size = EstimateSizes(TwentyRows(), making).value().front();
  EXPECT_EQ(size.cautions, Cautions(TwentyRows(), making));
  bool defers = false;
  for (const Caution& caution : size.cautions) {
    defers |= caution.sentence.find("rules of your country") != std::string::npos;
  }
  EXPECT_TRUE(defers);
}

}  // namespace
}  // namespace rowproof::estimate
