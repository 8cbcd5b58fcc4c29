#include "services/domain/rows/writing/row_sequence.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "absl/container/flat_hash_map.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"

namespace rowproof::rows {
namespace {

uint64_t Reversed(uint64_t word) {
  word = (word >> 1 & 0x5555555555555555) | (word & 0x5555555555555555) << 1;
  word = (word >> 2 & 0x3333333333333333) | (word & 0x3333333333333333) << 2;
  word = (word >> 4 & 0x0f0f0f0f0f0f0f0f) | (word & 0x0f0f0f0f0f0f0f0f) << 4;
  word = (word >> 8 & 0x00ff00ff00ff00ff) | (word & 0x00ff00ff00ff00ff) << 8;
  word = (word >> 16 & 0x0000ffff0000ffff) | (word & 0x0000ffff0000ffff) << 16;
  return word >> 32 | word << 32;
}

// A row's words with its stitches in the other order.
std::vector<uint64_t> Reversed(std::span<const uint64_t> words, int stitches) {
  std::vector<uint64_t> reversed(words.size());
  for (size_t i = 0; i < words.size(); ++i) {
    reversed[words.size() - 1 - i] = Reversed(words[i]);
  }
  const auto spare = static_cast<unsigned>(64 * words.size() - static_cast<size_t>(stitches));
  if (spare == 0) return reversed;
  for (size_t i = 0; i < reversed.size(); ++i) {
    reversed[i] >>= spare;
    if (i + 1 < reversed.size()) reversed[i] |= reversed[i + 1] << (64 - spare);
  }
  return reversed;
}

class Sequencer {
 public:
  Sequencer(const chart::Design& design, chart::Hand hand, const Stop& stop)
      : design_(design), hand_(hand), stop_(stop), skips_(chart::FactsOf(design.technique).skips) {}

  RowSequences Take() { return std::move(out_); }

  void AddSize(size_t size) {
    for (size_t earlier = 0; earlier < size; ++earlier) {
      if (design_.sizes[earlier].row_repeats != design_.sizes[size].row_repeats) continue;
      out_.rows.push_back(out_.rows[earlier]);
      out_.chart_rows.push_back(out_.chart_rows[earlier]);
      return;
    }
    // Stitches at the chart's width: how often the band is worked does not change what rows share.
    chart::Design narrow = design_;
    narrow.sizes = {{"width of the chart", 1, design_.sizes[size].row_repeats}};
    const chart::ExpandedSize expanded = chart::Expand(narrow, 0);
    const int worked_rows = expanded.drops.rows() * chart::WorkedRows(design_);
    std::vector<int> rows;
    std::vector<int> chart_rows;
    for (int row = 1; row <= worked_rows; ++row) {
      if (stop_.After(design_.cells.stitches())) break;
      const auto at = static_cast<size_t>(chart::ChartRowOfWorkedRow(design_, row) - 1);
      const RowKind kind{Content(expanded.drops, row), expanded.row_colours[at],
                         chart::SideOfWorkedRow(design_, row),
                         row == 1 && !design_.foundation_colour.has_value()};
      rows.push_back(KindIndex(kind));
      chart_rows.push_back(expanded.chart_row[at]);
    }
    out_.rows.push_back(std::move(rows));
    out_.chart_rows.push_back(std::move(chart_rows));
  }

 private:
  // A row's drops and skipped stitches in working order; no words if it can have none.
  struct Order {
    std::vector<uint64_t> drops;
    std::vector<uint64_t> skips;
    size_t before = 0;
    bool over_space = false;

    auto tied() const { return std::tie(drops, skips, before, over_space); }
    bool operator==(const Order& other) const { return tied() == other.tied(); }
    template <typename H>
    friend H AbslHashValue(H h, const Order& order) {
      return H::combine(std::move(h), order.drops, order.skips, order.before, order.over_space);
    }
  };

  int Content(const chart::Grid& drops, int worked_row) {
    const int row = chart::ChartRowOfWorkedRow(design_, worked_row);
    const bool ascending = chart::WorkedRowStartsAtStitchOne(design_, worked_row, hand_);
    const auto in_order = [&](std::span<const uint64_t> words) {
      return ascending ? std::vector<uint64_t>(words.begin(), words.end())
                       : Reversed(words, drops.stitches());
    };
    Order order;
    order.before = BeforeBand(ascending);
    order.over_space =
        skips_ && chart::SideOfWorkedRow(design_, worked_row) == chart::Side::kWrongSide;
    if (!order.over_space) order.drops = in_order(drops.row(row));
    if (skips_ && row < drops.rows()) order.skips = in_order(drops.row(row + 1));
    const auto [found, added] =
        contents_.try_emplace(std::move(order), static_cast<int>(out_.contents.size()));
    if (added) out_.contents.push_back(Banded(found->first));
    return found->second;
  }

  // How many stitches are worked before the band; all of them without one.
  size_t BeforeBand(bool ascending) const {
    const int stitches = design_.cells.stitches();
    if (!design_.stitch_band.has_value()) return static_cast<size_t>(stitches);
    return static_cast<size_t>(ascending ? design_.stitch_band->first - 1
                                         : stitches - design_.stitch_band->last);
  }

  BandedRow Banded(const Order& order) const {
    const size_t band =
        design_.stitch_band.has_value() ? static_cast<size_t>(design_.stitch_band->length()) : 0;
    const auto marked = [](const std::vector<uint64_t>& words, size_t i) {
      return !words.empty() && (words[i / 64] >> (i % 64) & 1) != 0;
    };
    BandedRow banded;
    banded.over_space = order.over_space;
    for (size_t i = 0; i < static_cast<size_t>(design_.cells.stitches()); ++i) {
      auto& part = i < order.before          ? banded.before
                   : i < order.before + band ? banded.band
                                             : banded.after;
      part.push_back(marked(order.skips, i)   ? Stitch::kChainSpace
                     : marked(order.drops, i) ? Stitch::kDrop
                                              : Stitch::kPlain);
    }
    return banded;
  }

  int KindIndex(const RowKind& kind) {
    const auto [found, added] =
        kinds_.try_emplace(std::make_tuple(kind.content, kind.colour, kind.side, kind.first),
                           static_cast<int>(out_.kinds.size()));
    if (added) out_.kinds.push_back(kind);
    return found->second;
  }

  const chart::Design& design_;
  chart::Hand hand_;
  const Stop& stop_;
  bool skips_;  // the technique skips stitches
  RowSequences out_;
  absl::flat_hash_map<Order, int> contents_;
  absl::flat_hash_map<std::tuple<int, chart::Colour, chart::Side, bool>, int> kinds_;
};

}  // namespace

RowSequences SequenceRows(const chart::Design& design, chart::Hand hand, const Stop& stop) {
  Sequencer sequencer(design, hand, stop);
  for (size_t size = 0; size < design.sizes.size(); ++size) sequencer.AddSize(size);
  return sequencer.Take();
}

}  // namespace rowproof::rows
