#include "services/domain/chart/row_order.h"

#include <algorithm>
#include <array>

namespace rowproof::chart {
namespace {

constexpr int kMostRepeatsLookedAt = 3;

std::vector<int> OrderOf(const Design& design, int repeats) {
  const int rows = design.cells.rows();
  const Band band = design.row_band.value_or(Band{1, rows});
  std::vector<int> order;
  order.reserve(static_cast<size_t>(rows) +
                static_cast<size_t>(repeats - 1) * static_cast<size_t>(band.length()));
  for (int row = 1; row < band.first; ++row) order.push_back(row);
  for (int n = 0; n < repeats; ++n) {
    for (int row = band.first; row <= band.last; ++row) order.push_back(row);
  }
  for (int row = band.last + 1; row <= rows; ++row) order.push_back(row);
  return order;
}

// Repeats that show all neighbourhoods of three rows.
int RepeatsThatShowAll(const Design& design) {
  return design.row_band.has_value() ? std::max(2, 4 - design.row_band->length()) : 1;
}

// What the alternation leaves open: where the working starts, and whether a picture's last row is
// worked over. Every row is above one of the other colour; every anchor has the drop's own.
void AddFactsOfAlternation(const Design& design, RowStructure& structure) {
  const bool picture = design.convention == Convention::kPicture;
  for (RowFacts& fact : structure.facts) fact.worked = structure.all_sizes;
  if (picture) {
    const bool repeated = structure.seam_sizes != 0 && design.row_band->last == design.cells.rows();
    structure.facts.back().worked = repeated ? structure.seam_sizes : 0;
  }
  for (const RowOrder& order : structure.orders) {
    // The drops of row 1 have no anchor, those of row 2 (colour B) on a foundation only.
    const size_t rows = order.chart_rows.size();
    const size_t bare = rows > 1 && design.foundation_colour == Colour::kB ? 1 : 2;
    for (size_t place = 0; place < std::min(rows, picture ? bare - 1 : bare); ++place) {
      structure.facts[static_cast<size_t>(order.chart_rows[place] - 1)].no_anchor |= order.sizes;
    }
  }
}

// Adds what one order says. A mark at place i of a picture is worked by the drop at place i + 1, in
// a working chart by the drop at place i itself.
void AddFacts(const RowOrder& order, const Design& design, std::vector<RowFacts>& facts) {
  const auto& colours = design.row_colours;
  const auto& rows = order.chart_rows;
  const size_t above = design.convention == Convention::kPicture ? 1 : 0;
  const auto index = [&rows](size_t place) { return static_cast<size_t>(rows[place] - 1); };
  for (size_t place = 0; place < rows.size(); ++place) {
    RowFacts& fact = facts[index(place)];
    const size_t drop = place + above;
    const bool on_foundation =
        drop == 1 && drop < rows.size() && design.foundation_colour == colours[index(drop)];
    if (drop < 2 && !on_foundation) fact.no_anchor |= order.sizes;
    if (place > 0 && colours[index(place)] == colours[index(place - 1)]) {
      fact.same_colour |= order.sizes;
      fact.same_colour_drawn |= rows[place] == rows[place - 1] + 1;
    }
    if (drop >= rows.size()) continue;
    fact.worked |= order.sizes;
    const Colour own = colours[index(drop)];
    if (drop >= 1 && colours[index(drop - 1)] == own) {
      fact.pointless |= order.sizes;
      fact.pointless_drawn |= rows[drop] == rows[drop - 1] + 1;
    }
    if (drop >= 2 && colours[index(drop - 2)] != own) {
      fact.foreign_anchor |= order.sizes;
      fact.foreign_anchor_drawn |=
          rows[drop] == rows[drop - 1] + 1 && rows[drop] == rows[drop - 2] + 2;
    }
  }
}

}  // namespace

RowStructure StructureOf(const Design& design) {
  RowStructure structure;
  structure.odd_band = design.row_band.has_value() && design.row_colours.empty() &&
                       design.row_band->length() % 2 != 0;
  const int enough = RepeatsThatShowAll(design);
  std::array<SizeSet, kMostRepeatsLookedAt + 1> sizes_by_repeats{};
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    const int repeats = structure.odd_band ? 1 : design.sizes[i].row_repeats;
    const SizeSet bit = SizeSet{1} << i;
    structure.all_sizes |= bit;
    if (repeats > 1) structure.seam_sizes |= bit;
    sizes_by_repeats[static_cast<size_t>(std::min(repeats, enough))] |= bit;
  }
  structure.facts.resize(static_cast<size_t>(design.cells.rows()));
  for (int repeats = 1; repeats <= enough; ++repeats) {
    const SizeSet sizes = sizes_by_repeats[static_cast<size_t>(repeats)];
    if (sizes != 0) structure.orders.push_back({OrderOf(design, repeats), sizes});
  }
  if (design.row_colours.empty()) {
    AddFactsOfAlternation(design, structure);
    return structure;
  }
  for (const RowOrder& order : structure.orders) {
    AddFacts(order, design, structure.facts);
  }
  return structure;
}

}  // namespace rowproof::chart
