#include "services/domain/estimate/cautions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "services/domain/estimate/estimate.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

std::vector<CautionCode> Codes(const Materials& materials, chart::Ends ends = chart::Ends::kCut) {
  chart::Design design = TwentyRows();
  design.ends = ends;
  std::vector<CautionCode> codes;
  for (const Caution& caution : Cautions(design, materials)) codes.push_back(caution.code);
  return codes;
}

std::vector<std::string> SentencesOf(const Materials& materials, chart::Ends ends,
                                     chart::Technique technique = chart::Technique::kSpike) {
  chart::Design design = TwentyRows();
  design.ends = ends;
  design.technique = technique;
  std::vector<std::string> sentences;
  for (const Caution& caution : Cautions(design, materials)) sentences.push_back(caution.sentence);
  return sentences;
}

Materials MaterialsOf(ItemKind item, const std::string& fibre_a, const std::string& fibre_b) {
  Materials materials = RoundMaking();
  materials.item = item;
  materials.yarn_a.fibre = fibre_a;
  materials.yarn_b.fibre = fibre_b;
  return materials;
}

TEST(Cautions, AlwaysSpeakOfRestBreaks) {
  EXPECT_THAT(Codes(RoundMaking()), ElementsAre(CautionCode::kStrain));
}

TEST(Cautions, WarnOfMeltingFibresInAHotPad) {
  EXPECT_THAT(Codes(MaterialsOf(ItemKind::kHotPad, "80 % Cotton, 20 % ACRYLIC", "cotton")),
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
  EXPECT_THAT(Codes(MaterialsOf(ItemKind::kHotPad, "cotton", "cotton")),
              ElementsAre(CautionCode::kHeat, CautionCode::kStrain));
}

TEST(Cautions, SayWhereAHotPadsFibreIsNotKnown) {
  EXPECT_THAT(Codes(MaterialsOf(ItemKind::kHotPad, "", "cotton")),
              Contains(CautionCode::kUnknownFibre));
  EXPECT_THAT(Codes(MaterialsOf(ItemKind::kHotPad, "cotton", "bamboo")),
              Contains(CautionCode::kUnknownFibre));
  EXPECT_THAT(Codes(MaterialsOf(ItemKind::kBlanket, "", "")),
              Not(Contains(CautionCode::kUnknownFibre)));
}

TEST(Cautions, WarnOfFringeAndCarriedStrandsWhereSmallChildrenUseTheItem) {
  Materials materials = MaterialsOf(ItemKind::kBabyItem, "cotton", "cotton");
  EXPECT_THAT(Codes(materials), ElementsAre(CautionCode::kSmallChildren, CautionCode::kStrain));
  EXPECT_THAT(Codes(materials, chart::Ends::kCarried), Contains(CautionCode::kLooseParts));
  materials.added_fringe = {{YarnColour::kA, 4, 50, FringeEdge::kRowEnds}};
  EXPECT_THAT(Codes(materials), Contains(CautionCode::kLooseParts));
  materials.item = ItemKind::kBlanket;
  EXPECT_THAT(Codes(materials), Not(Contains(CautionCode::kLooseParts)));
  materials.intended_user = IntendedUser::kSmallChild;
  EXPECT_THAT(Codes(materials), Contains(CautionCode::kLooseParts));
  materials.added_fringe.clear();
  materials.tail_use = TailUse::kFringe;
  materials.fringe_length_mm = 60;
  EXPECT_THAT(Codes(materials), Contains(CautionCode::kLooseParts));
  // Waiting ends make no fringe of tails, but loops along the edge.
  EXPECT_THAT(SentencesOf(materials, chart::Ends::kWaiting),
              Not(Contains(HasSubstr("caught in a fringe"))));
  EXPECT_THAT(SentencesOf(materials, chart::Ends::kWaiting),
              Contains(HasSubstr("Yarn that waits at the edge")));
}

TEST(Cautions, SpeakOfACarriedStrandThatShowsThroughOrBleeds) {
  const Materials cotton = MaterialsOf(ItemKind::kOther, "cotton", "cotton");
  EXPECT_THAT(Codes(cotton, chart::Ends::kCarried),
              ElementsAre(CautionCode::kShowThrough, CautionCode::kBleeding, CautionCode::kStrain));
  EXPECT_THAT(Codes(cotton, chart::Ends::kCut), ElementsAre(CautionCode::kStrain));
  // Thermoplastic fibres are coloured through and through as a rule: only one strand of another
  // fibre, or of one that is not known, may bleed.
  const Materials acrylic = MaterialsOf(ItemKind::kOther, "acrylic", "acrylic");
  EXPECT_THAT(Codes(acrylic, chart::Ends::kCarried),
              ElementsAre(CautionCode::kShowThrough, CautionCode::kStrain));
  EXPECT_THAT(Codes(MaterialsOf(ItemKind::kOther, "acrylic", ""), chart::Ends::kCarried),
              Contains(CautionCode::kBleeding));
  EXPECT_THAT(
      SentencesOf(MaterialsOf(ItemKind::kHotPad, "cotton", "cotton"), chart::Ends::kCarried),
      Contains(HasSubstr("temperature at which you will wash the item")));
  // The maker's own way with the ends decides, and inset carries nothing.
  Materials carries = cotton;
  carries.ends = chart::Ends::kCarried;
  EXPECT_THAT(Codes(carries), Contains(CautionCode::kShowThrough));
  EXPECT_THAT(SentencesOf(carries, chart::Ends::kCarried, chart::Technique::kInset),
              Not(Contains(HasSubstr("carried strand"))));
}

TEST(Cautions, SpeakOfChainsAndLooseStitchesWhereSmallChildrenUseTheItem) {
  Materials materials = MaterialsOf(ItemKind::kBlanket, "cotton", "cotton");
  EXPECT_THAT(SentencesOf(materials, chart::Ends::kWaiting, chart::Technique::kInset),
              Not(Contains(HasSubstr("chains behind"))));
  materials.intended_user = IntendedUser::kSmallChild;
  EXPECT_THAT(SentencesOf(materials, chart::Ends::kWaiting, chart::Technique::kInset),
              Contains(HasSubstr("The chains behind skipped stitches")));
  EXPECT_THAT(SentencesOf(materials, chart::Ends::kCut, chart::Technique::kOverlay),
              Contains(HasSubstr("Overlay stitches")));
}

// A hot pad of cotton with a third yarn of acrylic melts too.
TEST(Cautions, LookAtEveryYarnThatTheItemIsMadeOf) {
  Materials materials = MaterialsOf(ItemKind::kHotPad, "cotton", "cotton");
  materials.more_yarns = {materials.yarn_a};
  materials.more_yarns[0].fibre = "acrylic";
  chart::Design design = TwentyRows();
  const auto melts = [&] {
    for (const Caution& caution : Cautions(design, materials)) {
      if (caution.code == CautionCode::kMeltingFibre) return true;
    }
    return false;
  };
  EXPECT_FALSE(melts());
  design.row_colours.assign(20, chart::Colour::kA);
  design.row_colours[4] = chart::Colour::kC;
  EXPECT_TRUE(melts());
}

TEST(Cautions, DeferToTheRulesOfTheCountryAndStandBesideEveryEstimate) {
  Materials materials = MaterialsOf(ItemKind::kBabyItem, "cotton", "wool");
  const auto size = EstimateSizes(TwentyRows(), materials).value().front();
  EXPECT_EQ(size.cautions, Cautions(TwentyRows(), materials));
  bool defers = false;
  for (const Caution& caution : size.cautions) {
    defers |= caution.sentence.find("your country's safety rules") != std::string::npos;
  }
  EXPECT_TRUE(defers);
}

}  // namespace
}  // namespace rowproof::estimate
