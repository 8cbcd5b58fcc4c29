#include "tests/domain/estimate/plain_model.h"

#include <numbers>
#include <optional>

namespace rowproof::estimate {
namespace {

using chart::Colour;
using chart::Ends;
using chart::Technique;

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

Colour ShownIn(const chart::Design& design, int row, int stitch) {
  if (!design.picture_colours.empty()) {
    return design
        .picture_colours[static_cast<size_t>((row - 1) * design.cells.stitches() + stitch - 1)];
  }
  return design.cells.at(row, stitch) ? Colour::kB : Colour::kA;
}

struct ChartRow {
  Colour colour = Colour::kA;
  std::vector<bool> drops;
};

std::vector<ChartRow> ChartRows(const chart::Design& design, int size) {
  const chart::Size& wanted = design.sizes[static_cast<size_t>(size)];
  const auto rows = WorkedOrder(design.cells.rows(), design.row_band, wanted.row_repeats);
  const auto stitches =
      WorkedOrder(design.cells.stitches(), design.stitch_band, wanted.stitch_repeats);
  std::vector<ChartRow> made;
  for (size_t r = 0; r < rows.size(); ++r) {
    ChartRow row;
    row.colour = r % 2 == 0 ? Colour::kA : Colour::kB;
    if (!design.row_colours.empty()) {
      row.colour = design.row_colours[static_cast<size_t>(rows[r] - 1)];
    }
    for (const int stitch : stitches) {
      if (design.convention == chart::Convention::kWorking) {
        row.drops.push_back(design.cells.at(rows[r], stitch));
      } else {
        row.drops.push_back(r > 0 && ShownIn(design, rows[r - 1], stitch) != made.back().colour);
      }
    }
    made.push_back(row);
  }
  return made;
}

class PlainModel {
 public:
  PlainModel(const chart::Design& design, const Materials& materials, std::vector<PlainRow> rows,
             bool finished)
      : design_(design), materials_(materials), rows_(std::move(rows)), finished_(finished) {
    w_ = 100 / materials.gauge.stitches_per_decimetre;
    h_ = 100 / materials.gauge.rows_per_decimetre;
    tube_ = design_.form == chart::Form::kTube;
  }

  PlainLengths Lengths() {
    const auto stitches = static_cast<double>(rows_.front().stitches.size());
    const auto worked_rows = static_cast<double>(rows_.size());
    AddFoundation();
    for (const PlainRow& row : rows_) WalkRow(row);
    for (int colour = 0; colour < 8; ++colour) {
      WalkStrand(static_cast<Colour>(colour), stitches);
    }
    if (finished_) AddBorder(stitches, worked_rows);
    return lengths_;
  }

 private:
  static YarnColour YarnOfRow(Colour colour) {
    if (colour == Colour::kA) return YarnColour::kA;
    if (colour == Colour::kB) return YarnColour::kB;
    return static_cast<YarnColour>(static_cast<int>(YarnColour::kC) + static_cast<int>(colour) -
                                   static_cast<int>(Colour::kC));
  }
  double D(YarnColour colour) const {
    if (colour == YarnColour::kA) return 25.4 / *materials_.yarn_a.wraps_per_inch;
    if (colour == YarnColour::kB) return 25.4 / *materials_.yarn_b.wraps_per_inch;
    if (colour == YarnColour::kBorder) return 25.4 / *materials_.border_yarn->wraps_per_inch;
    const int more = static_cast<int>(colour) - static_cast<int>(YarnColour::kC);
    return 25.4 / *materials_.more_yarns[static_cast<size_t>(more)].wraps_per_inch;
  }
  double Path(YarnColour c, double across, double up, double wraps) const {
    return across * w_ + up * h_ + wraps * 2 * std::numbers::pi * D(c);
  }
  double Ch(YarnColour c) const { return Path(c, 3, 0, 0.5); }
  double Sc(YarnColour c) const { return Path(c, 3, 2, 1); }
  double SlipStitch(YarnColour c) const { return Path(c, 2, 0, 0.5); }
  double Drop(YarnColour c) const {
    if (design_.technique == Technique::kSpike) return Path(c, 3, 6, 1);
    return Path(c, 4, design_.technique == Technique::kOverlay ? 6 : 9, 1.5);
  }
  void Add(YarnColour colour, PartKind part, double length_mm) {
    lengths_[static_cast<size_t>(colour)][static_cast<size_t>(part)] += length_mm;
  }
  Ends HowEnded() const {
    if (design_.technique == Technique::kInset) return Ends::kWaiting;
    return materials_.ends.value_or(design_.ends);
  }

  void AddFoundation() {
    base_ = rows_.front().colour;
    if (materials_.foundation.colour.has_value()) base_ = *materials_.foundation.colour;
    if (design_.foundation_colour.has_value()) base_ = *design_.foundation_colour;
    const YarnColour yarn = YarnOfRow(base_);
    const size_t stitches = rows_.front().stitches.size();
    if (materials_.foundation.kind == FoundationKind::kWorked ||
        design_.foundation_colour.has_value()) {
      PlainRow zero;
      zero.colour = base_;
      zero.foundation = true;
      zero.stitches = rows_.front().stitches;
      rows_.insert(rows_.begin(), zero);
      for (size_t s = 0; s < stitches; ++s) {
        Add(yarn, PartKind::kFoundation, Ch(yarn) + Sc(yarn));
      }
      return;
    }
    for (size_t s = 0; s < stitches; ++s) Add(yarn, PartKind::kFoundation, Ch(yarn));
    Add(yarn, PartKind::kFoundation, tube_ ? SlipStitch(yarn) : Ch(yarn));
  }

  void WalkRow(const PlainRow& row) {
    const YarnColour yarn = YarnOfRow(row.colour);
    Add(yarn, PartKind::kStarts, 3 * w_);
    if (tube_) Add(yarn, PartKind::kStarts, SlipStitch(yarn));
    if (HowEnded() == Ends::kCut) {
      double tail =
          materials_.tail_use == TailUse::kFringe ? materials_.fringe_length_mm + 50 : 150;
      if (materials_.tail_mm.has_value()) tail = *materials_.tail_mm;
      Add(yarn, PartKind::kTails, tail);
      Add(yarn, PartKind::kTails, tail);
    }
    if (row.foundation) return;
    for (const PlainStitch stitch : row.stitches) {
      if (stitch == PlainStitch::kSkipped) continue;
      Add(yarn, PartKind::kStitches, stitch == PlainStitch::kDrop ? Drop(yarn) : Sc(yarn));
    }
    for (int chain = 0; chain < PlainChains(row); ++chain) Add(yarn, PartKind::kStitches, Ch(yarn));
  }

  void WalkStrand(Colour colour, double stitches) {
    const YarnColour yarn = YarnOfRow(colour);
    bool met = false;
    double pending = 0;  // strands that count once the colour comes again
    for (const PlainRow& row : rows_) {
      if (row.colour != colour) {
        if (met) pending += stitches * w_ * (1 + materials_.slack);
        continue;
      }
      if (met && HowEnded() != Ends::kCut && row.begins_chart_row) {
        Add(yarn, PartKind::kClimb, w_ + 2 * h_);
      }
      if (HowEnded() == Ends::kCarried) Add(yarn, PartKind::kCarried, pending);
      pending = 0;
      met = true;
    }
    if (HowEnded() != Ends::kCut && (met || base_ == colour)) {
      Add(yarn, PartKind::kTails, 2 * materials_.tail_mm.value_or(150));
    }
  }

  void AddBorder(double stitches, double worked_rows) {
    if (materials_.border.rounds == 0) return;
    const YarnColour yarn = materials_.border.colour;
    const int layers = materials_.border.enclosing_double ? 2 : 1;
    const auto round = [&](int i) {
      const double count = tube_ ? 2 * stitches : 2 * stitches + 2 * worked_rows + 8 * i;
      Add(yarn, PartKind::kBorder, count * Sc(yarn));
    };
    for (int layer = 0; layer < layers; ++layer) {
      for (int i = 1; i <= materials_.border.rounds; ++i) round(i);
      Add(yarn, PartKind::kBorder, 2 * materials_.tail_mm.value_or(150));
    }
    if (layers == 2) round(materials_.border.rounds + 1);
  }

  const chart::Design& design_;
  const Materials& materials_;
  std::vector<PlainRow> rows_;
  const bool finished_;
  bool tube_ = false;
  Colour base_ = Colour::kA;
  double w_ = 0;
  double h_ = 0;
  PlainLengths lengths_ = {};
};

}  // namespace

std::vector<PlainRow> PlainRows(const chart::Design& design, int size) {
  const auto chart_rows = ChartRows(design, size);
  std::vector<PlainRow> worked;
  for (size_t r = 0; r < chart_rows.size(); ++r) {
    PlainRow row;
    row.colour = chart_rows[r].colour;
    for (const bool drop : chart_rows[r].drops) {
      row.stitches.push_back(drop ? PlainStitch::kDrop : PlainStitch::kPlain);
    }
    if (design.technique != Technique::kInset) {
      worked.push_back(row);
      continue;
    }
    // What the next chart row's drops will fill is skipped in both worked rows.
    PlainRow back = row;
    back.begins_chart_row = false;
    for (size_t s = 0; s < row.stitches.size(); ++s) {
      back.stitches[s] = PlainStitch::kPlain;
      if (r + 1 < chart_rows.size() && chart_rows[r + 1].drops[s]) {
        row.stitches[s] = PlainStitch::kSkipped;
        back.stitches[s] = PlainStitch::kSkipped;
      }
    }
    worked.push_back(row);
    worked.push_back(back);
  }
  return worked;
}

int PlainChains(const PlainRow& row, int* spaces) {
  int chains = 0;
  int runs = 0;
  bool in_run = false;
  for (const PlainStitch stitch : row.stitches) {
    const bool skipped = stitch == PlainStitch::kSkipped;
    if (skipped) ++chains;
    if (skipped && !in_run) ++runs;
    in_run = skipped;
  }
  if (spaces != nullptr) *spaces = runs;
  return chains + runs;
}

PlainLengths PlainLengthsOf(const chart::Design& design, const Materials& materials,
                            std::vector<PlainRow> rows, bool finished) {
  return PlainModel(design, materials, std::move(rows), finished).Lengths();
}

}  // namespace rowproof::estimate
