// The estimate against the plain model, on seeded random designs of every technique, form, way with
// the ends and number of colours.
#include <gtest/gtest.h>

#include <random>
#include <vector>

#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/stitch_counts.h"
#include "tests/domain/estimate/plain_model.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

Materials RandomMaterials(std::mt19937& random) {
  const auto between = [&random](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Materials materials;
  materials.more_yarns.resize(kMostMoreYarns);
  materials.border_yarn = Yarn();
  for (const YarnColour colour : kYarnColoursAsListed) {
    FindYarn(materials, colour)->wraps_per_inch = between(5, 30);
  }
  materials.gauge.stitches_per_decimetre = between(8, 40);
  materials.gauge.rows_per_decimetre = between(8, 40);
  materials.slack = between(0, 0.2);
  if (random() % 2 == 0) materials.ends = static_cast<chart::Ends>(random() % 3);
  materials.foundation.kind = static_cast<FoundationKind>(random() % 2);
  if (random() % 2 == 0) materials.foundation.colour = static_cast<chart::Colour>(random() % 3);
  if (random() % 2 == 0) {
    materials.tail_use = TailUse::kFringe;
    materials.fringe_length_mm = between(20, 200);
  }
  if (random() % 3 == 0) materials.tail_mm = between(0, 300);
  materials.border = {static_cast<int>(random() % 4),
                      static_cast<YarnColour>(random() % kYarnColours), false};
  materials.border.enclosing_double = materials.border.rounds > 0 && random() % 2 == 0;
  return materials;
}

void ExpectSame(const SizeEstimate& estimate, const PlainLengths& plain, int seed) {
  for (const YarnColour colour : kYarnColoursAsListed) {
    double total_mm = 0;
    for (size_t part = 0; part < kPartKinds; ++part) {
      const double expected = plain[static_cast<size_t>(colour)][part];
      const double met = LengthOf(estimate, colour, static_cast<PartKind>(part));
      EXPECT_NEAR(met, expected, 1e-9 * (1 + expected))
          << Name(colour) << " " << Name(static_cast<PartKind>(part)) << ", seed " << seed;
      total_mm += expected;
    }
    const ColourEstimate* listed = FindColour(estimate, colour);
    EXPECT_NEAR(listed == nullptr ? 0 : listed->length_mm, total_mm, 1e-9 * (1 + total_mm));
  }
}

TEST(PlainReference, AgreesOnEveryPartOfRandomDesignsInEverySize) {
  for (int seed = 1; seed <= 300; ++seed) {
    std::mt19937 random(static_cast<unsigned>(seed));
    const chart::Design design = RandomDesign(random);
    const Materials materials = RandomMaterials(random);
    const auto estimates = EstimateSizes(design, materials);
    ASSERT_TRUE(estimates.ok()) << estimates.status();
    for (size_t size = 0; size < design.sizes.size(); ++size) {
      const auto rows = PlainRows(design, static_cast<int>(size));
      EXPECT_EQ((*estimates)[size].rows, static_cast<int>(rows.size()));
      ExpectSame((*estimates)[size], PlainLengthsOf(design, materials, rows, true), seed);
    }
  }
}

TEST(PlainReference, AgreesOnPiecesThatStoppedAtAnyRow) {
  for (int seed = 1001; seed <= 1120; ++seed) {
    std::mt19937 random(static_cast<unsigned>(seed));
    const chart::Design design = RandomDesign(random);
    const Materials materials = RandomMaterials(random);
    std::vector<PlainRow> rows = PlainRows(design, 1);
    const size_t last_row = 1 + random() % rows.size();
    const bool finished = last_row == rows.size();
    rows.resize(last_row);
    const auto estimate = EstimateRows(design, 1, materials, static_cast<int>(last_row));
    ASSERT_TRUE(estimate.ok()) << estimate.status();
    ExpectSame(*estimate, PlainLengthsOf(design, materials, rows, finished), seed);
  }
}

TEST(StitchCounter, AgreesWithCountingStitchByStitchUpToEveryRow) {
  int with_chains = 0;
  for (int seed = 1; seed <= 240; ++seed) {
    std::mt19937 random(static_cast<unsigned>(seed));
    const chart::Design design = RandomDesign(random);
    const StitchCounter counter(design);
    for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
      ChartCounts plain;
      for (const PlainRow& row : PlainRows(design, size)) {
        ++plain.rows;
        plain.stitches = static_cast<int>(row.stitches.size());
        ColourCounts& colour = plain.colours[static_cast<size_t>(row.colour)];
        ++colour.rows;
        if (row.begins_chart_row) ++colour.chart_rows;
        if (colour.first_row == 0) colour.first_row = plain.rows;
        colour.last_row = plain.rows;
        for (const PlainStitch stitch : row.stitches) {
          if (stitch == PlainStitch::kPlain) ++colour.plain;
          if (stitch == PlainStitch::kDrop) ++colour.drops;
        }
        int spaces = 0;
        colour.chains += PlainChains(row, &spaces);
        colour.chain_spaces += spaces;
        ASSERT_EQ(counter.Count(size, plain.rows), plain)
            << "seed " << seed << " row " << plain.rows;
        if (spaces > 0) ++with_chains;
      }
    }
  }
  EXPECT_GT(with_chains, 1000);
}

}  // namespace
}  // namespace rowproof::estimate
