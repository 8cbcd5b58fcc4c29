#include "services/domain/chart/row_order.h"

#include <algorithm>
#include <array>

namespace rowproof::chart {
namespace {

constexpr int kRepeatsLookedAt = 4;

std::vector<int> OrderOf(const Design& design, int repeats) {
  const int rows = design.cells.rows();
  const Band band = design.row_band.value_or(Band{1, rows});
  std::vector<int> order;
  order.reserve(static_cast<size_t>(rows + (repeats - 1) * band.length()));
  for (int row = 1; row < band.first; ++row) order.push_back(row);
  for (int n = 0; n < repeats; ++n) {
    for (int row = band.first; row <= band.last; ++row) order.push_back(row);
  }
  for (int row = band.last + 1; row <= rows; ++row) order.push_back(row);
  return order;
}

std::vector<Colour> ChartColours(const Design& design) {
  if (!design.row_colours.empty()) return design.row_colours;
  std::vector<Colour> colours(static_cast<size_t>(design.cells.rows()));
  for (size_t i = 0; i < colours.size(); ++i) colours[i] = i % 2 == 0 ? Colour::kA : Colour::kB;
  return colours;
}

// Adds what one order says. A mark at place i of a picture is worked by the drop at place i + 1, in
// a working chart by the drop at place i itself.
void AddFacts(const RowOrder& order, const std::vector<Colour>& colours, bool picture,
              std::vector<RowFacts>& facts) {
  const auto& rows = order.chart_rows;
  const size_t above = picture ? 1 : 0;
  const auto index = [&rows](size_t place) { return static_cast<size_t>(rows[place] - 1); };
  for (size_t place = 0; place < rows.size(); ++place) {
    RowFacts& fact = facts[index(place)];
    const size_t drop = place + above;
    if (drop < 2) fact.no_anchor |= order.sizes;
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
  std::array<SizeSet, kRepeatsLookedAt + 1> sizes_by_repeats{};
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    const int repeats = structure.odd_band ? 1 : design.sizes[i].row_repeats;
    const SizeSet bit = SizeSet{1} << i;
    structure.all_sizes |= bit;
    if (repeats > 1) structure.seam_sizes |= bit;
    sizes_by_repeats[static_cast<size_t>(std::min(repeats, kRepeatsLookedAt))] |= bit;
  }
  structure.facts.resize(static_cast<size_t>(design.cells.rows()));
  const std::vector<Colour> colours = ChartColours(design);
  for (int repeats = 1; repeats <= kRepeatsLookedAt; ++repeats) {
    const SizeSet sizes = sizes_by_repeats[static_cast<size_t>(repeats)];
    if (sizes == 0) continue;
    structure.orders.push_back({OrderOf(design, repeats), sizes});
    AddFacts(structure.orders.back(), colours, design.convention == Convention::kPicture,
             structure.facts);
  }
  return structure;
}

}  // namespace rowproof::chart
