// The estimate against a plain model that walks every stitch of every repeated row, written apart
// from the product: no bit counting, no runs, no linear forms, no shared expansion.
#include <gtest/gtest.h>

#include <array>
#include <numbers>
#include <random>
#include <vector>

#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/stitch_counts.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

using chart::Colour;
using chart::Ends;

struct PlainRow {
  Colour colour = Colour::kA;
  std::vector<bool> drops;
  bool foundation = false;
};

// Every index of the chart in working order, a band as often as it is repeated.
std::vector<int> WorkedOrder(int length, const std::optional<chart::Band>& band, int repeats) {
  std::vector<int> order;
  const int first = band.has_value() ? band->first : length + 1;
  const int last = band.has_value() ? band->last : length;
  for (int i = 1; i < first; ++i) order.push_back(i);
  for (int n = 0; band.has_value() && n < repeats; ++n) {
    for (int i = first; i <= last; ++i) order.push_back(i);
  }
  for (int i = last + 1; band.has_value() && i <= length; ++i) order.push_back(i);
  return order;
}

std::vector<PlainRow> WorkedRows(const chart::Design& design, int size) {
  const chart::Size& wanted = design.sizes[static_cast<size_t>(size)];
  const auto rows = WorkedOrder(design.cells.rows(), design.row_band, wanted.row_repeats);
  const auto stitches =
      WorkedOrder(design.cells.stitches(), design.stitch_band, wanted.stitch_repeats);
  std::vector<PlainRow> worked;
  for (size_t r = 0; r < rows.size(); ++r) {
    PlainRow row;
    row.colour = r % 2 == 0 ? Colour::kA : Colour::kB;
    if (!design.row_colours.empty()) {
      row.colour = design.row_colours[static_cast<size_t>(rows[r] - 1)];
    }
    for (const int stitch : stitches) {
      if (design.convention == chart::Convention::kWorking) {
        row.drops.push_back(design.cells.at(rows[r], stitch));
      } else if (r == 0) {
        row.drops.push_back(false);
      } else {
        const Colour shown = design.cells.at(rows[r - 1], stitch) ? Colour::kB : Colour::kA;
        row.drops.push_back(shown != worked.back().colour);
      }
    }
    worked.push_back(row);
  }
  return worked;
}

// Lengths by colour and part, added up one stitch and one row at a time.
class PlainModel {
 public:
  PlainModel(const chart::Design& design, const Making& making, std::vector<PlainRow> rows,
             bool finished)
      : design_(design), making_(making), rows_(std::move(rows)), finished_(finished) {
    w_ = 100 / making.gauge.stitches_per_100mm;
    h_ = 100 / making.gauge.rows_per_100mm;
  }

  std::array<std::array<double, kPartKinds>, 2> Lengths() {
    tube_ = design_.form == chart::Form::kTube;
    const double stitches = static_cast<double>(rows_.front().drops.size());
    const auto chart_rows = static_cast<double>(rows_.size());
    const Colour base = making_.foundation.colour.value_or(rows_.front().colour);
    if (making_.foundation.kind == FoundationKind::kWorked) {
      PlainRow zero;
      zero.colour = base;
      zero.foundation = true;
      zero.drops = rows_.front().drops;
      rows_.insert(rows_.begin(), zero);
      for (double s = 0; s < stitches; ++s) Add(base, PartKind::kFoundation, Ch(base) + Sc(base));
    } else {
      for (double s = 0; s < stitches; ++s) Add(base, PartKind::kFoundation, Ch(base));
      Add(base, PartKind::kFoundation, tube_ ? SlipStitch(base) : Ch(base));
    }
    WalkRows();
    for (const Colour colour : {Colour::kA, Colour::kB}) WalkStrand(colour, base, stitches);
    if (finished_) AddBorder(stitches, chart_rows);
    return lengths_;
  }

 private:
  double D(Colour colour) const {
    return 25.4 / *(colour == Colour::kA ? making_.yarn_a : making_.yarn_b).wraps_per_inch;
  }
  double Ch(Colour c) const { return 3 * w_ + std::numbers::pi * D(c); }
  double Sc(Colour c) const { return 3 * w_ + 2 * h_ + 2 * std::numbers::pi * D(c); }
  double Ssc(Colour c) const { return 3 * w_ + 6 * h_ + 2 * std::numbers::pi * D(c); }
  double SlipStitch(Colour c) const { return 2 * w_ + std::numbers::pi * D(c); }
  void Add(Colour colour, PartKind part, double length_mm) {
    lengths_[static_cast<size_t>(colour)][static_cast<size_t>(part)] += length_mm;
  }
  Ends HowEnded() const { return making_.ends.value_or(design_.ends); }

  void WalkRows() {
    for (const PlainRow& row : rows_) {
      Add(row.colour, PartKind::kStarts, 3 * w_);
      if (tube_) Add(row.colour, PartKind::kStarts, SlipStitch(row.colour));
      if (HowEnded() == Ends::kCut) {
        double tail = making_.tail_use == TailUse::kFringe ? making_.fringe_length_mm + 50 : 150;
        if (making_.tail_mm.has_value()) tail = *making_.tail_mm;
        Add(row.colour, PartKind::kTails, tail);
        Add(row.colour, PartKind::kTails, tail);
      }
      if (row.foundation) continue;
      for (const bool drop : row.drops) {
        Add(row.colour, PartKind::kStitches, drop ? Ssc(row.colour) : Sc(row.colour));
      }
    }
  }

  void WalkStrand(Colour colour, Colour base, double stitches) {
    bool met = false;
    double pending = 0;  // strands that count once the colour comes again
    for (const PlainRow& row : rows_) {
      if (row.colour != colour) {
        if (met) pending += stitches * w_ * (1 + making_.slack);
        continue;
      }
      if (met && HowEnded() != Ends::kCut) Add(colour, PartKind::kClimb, w_ + 2 * h_);
      if (HowEnded() == Ends::kCarried) Add(colour, PartKind::kCarried, pending);
      pending = 0;
      met = true;
    }
    if (HowEnded() != Ends::kCut && (met || base == colour)) {
      Add(colour, PartKind::kTails, 2 * making_.tail_mm.value_or(150));
    }
  }

  void AddBorder(double stitches, double rows) {
    if (making_.border.rounds == 0) return;
    const Colour colour = making_.border.colour == YarnColour::kA ? Colour::kA : Colour::kB;
    const int layers = making_.border.enclosing_double ? 2 : 1;
    const auto round = [&](int i) {
      const double count = tube_ ? 2 * stitches : 2 * stitches + 2 * rows + 8 * i;
      Add(colour, PartKind::kBorder, count * Sc(colour));
    };
    for (int layer = 0; layer < layers; ++layer) {
      for (int i = 1; i <= making_.border.rounds; ++i) round(i);
      Add(colour, PartKind::kBorder, 2 * making_.tail_mm.value_or(150));
    }
    if (layers == 2) round(making_.border.rounds + 1);
  }

  const chart::Design& design_;
  const Making& making_;
  std::vector<PlainRow> rows_;
  const bool finished_;
  bool tube_ = false;
  double w_ = 0;
  double h_ = 0;
  std::array<std::array<double, kPartKinds>, 2> lengths_ = {};
};

Making RandomMaking(std::mt19937& random) {
  const auto between = [&random](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Making making;
  making.yarn_a.wraps_per_inch = between(5, 30);
  making.yarn_b.wraps_per_inch = between(5, 30);
  making.gauge.stitches_per_100mm = between(8, 40);
  making.gauge.rows_per_100mm = between(8, 40);
  making.slack = between(0, 0.2);
  if (random() % 2 == 0) making.ends = static_cast<Ends>(random() % 3);
  making.foundation.kind = static_cast<FoundationKind>(random() % 2);
  if (random() % 2 == 0) making.foundation.colour = static_cast<Colour>(random() % 2);
  if (random() % 2 == 0) {
    making.tail_use = TailUse::kFringe;
    making.fringe_length_mm = between(20, 200);
  }
  if (random() % 3 == 0) making.tail_mm = between(0, 300);
  making.border = {static_cast<int>(random() % 4), static_cast<YarnColour>(random() % 2), false};
  making.border.enclosing_double = making.border.rounds > 0 && random() % 2 == 0;
  return making;
}

void ExpectSame(const SizeEstimate& estimate,
                const std::array<std::array<double, kPartKinds>, 2>& plain, int seed) {
  for (const YarnColour colour : {YarnColour::kA, YarnColour::kB}) {
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
  for (int seed = 1; seed <= 150; ++seed) {
    std::mt19937 random(static_cast<unsigned>(seed));
    const chart::Design design = RandomDesign(random);
    const Making making = RandomMaking(random);
    const auto estimates = EstimateSizes(design, making);
    ASSERT_TRUE(estimates.ok()) << estimates.status();
    for (size_t size = 0; size < design.sizes.size(); ++size) {
      PlainModel plain(design, making, WorkedRows(design, static_cast<int>(size)), true);
      ExpectSame((*estimates)[size], plain.Lengths(), seed);
    }
  }
}

TEST(PlainReference, AgreesOnPiecesThatStoppedAtAnyRow) {
  for (int seed = 1001; seed <= 1060; ++seed) {
    std::mt19937 random(static_cast<unsigned>(seed));
    const chart::Design design = RandomDesign(random);
    const Making making = RandomMaking(random);
    std::vector<PlainRow> rows = WorkedRows(design, 1);
    const size_t last_row = 1 + random() % rows.size();
    const bool finished = last_row == rows.size();
    rows.resize(last_row);
    const auto estimate = EstimateRows(design, 1, making, static_cast<int>(last_row));
    ASSERT_TRUE(estimate.ok()) << estimate.status();
    PlainModel plain(design, making, rows, finished);
    ExpectSame(*estimate, plain.Lengths(), seed);
  }
}

TEST(StitchCounter, AgreesWithCountingStitchByStitchUpToEveryRow) {
  for (int seed = 1; seed <= 120; ++seed) {
    std::mt19937 random(static_cast<unsigned>(seed));
    const chart::Design design = RandomDesign(random);
    const StitchCounter counter(design);
    for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
      ChartCounts plain;
      for (const PlainRow& row : WorkedRows(design, size)) {
        ++plain.rows;
        plain.stitches = static_cast<int>(row.drops.size());
        ColourCounts& colour = plain.colours[static_cast<size_t>(row.colour)];
        ++colour.rows;
        if (colour.first_row == 0) colour.first_row = plain.rows;
        colour.last_row = plain.rows;
        for (const bool drop : row.drops) ++(drop ? colour.drops : colour.plain);
        ASSERT_EQ(counter.Count(size, plain.rows), plain)
            << "seed " << seed << " row " << plain.rows;
      }
    }
  }
}

}  // namespace
}  // namespace rowproof::estimate
