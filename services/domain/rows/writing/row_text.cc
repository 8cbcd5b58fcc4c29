#include "services/domain/rows/writing/row_text.h"

#include <algorithm>
#include <optional>
#include <span>
#include <utility>

#include "services/domain/rows/writing/squares.h"

namespace rowproof::rows {
namespace {

using Stitches = std::span<const Stitch>;

bool Skips(Stitch stitch) { return stitch == Stitch::kChainSpace; }

// Adjacent skipped stitches are one chain space.
std::vector<Element> Merged(Stitches stitches) {
  std::vector<Element> elements;
  elements.reserve(stitches.size());
  for (size_t i = 0; i < stitches.size(); ++i) {
    if (!Skips(stitches[i])) {
      elements.push_back({stitches[i], 0, 0});
    } else if (i > 0 && Skips(stitches[i - 1])) {
      elements.back() = ChainSpace(elements.back().skipped + 1);
    } else {
      elements.push_back(ChainSpace(1));
    }
  }
  return elements;
}

std::vector<Stitch> Joined(Stitches first, Stitches second, Stitches third = {}) {
  std::vector<Stitch> all(first.begin(), first.end());
  all.insert(all.end(), second.begin(), second.end());
  all.insert(all.end(), third.begin(), third.end());
  return all;
}

size_t LeadingRun(Stitches stitches, Stitch kind) {
  const auto end = std::find_if(stitches.begin(), stitches.end(),
                                [kind](Stitch stitch) { return stitch != kind; });
  return static_cast<size_t>(end - stitches.begin());
}

size_t TrailingRun(Stitches stitches, Stitch kind) {
  const auto end = std::find_if(stitches.rbegin(), stitches.rend(),
                                [kind](Stitch stitch) { return stitch != kind; });
  return static_cast<size_t>(end - stitches.rbegin());
}

// Whether a chain space runs from one part into the next.
bool SkipsAcross(Stitches left, Stitches right) {
  return !left.empty() && !right.empty() && Skips(left.back()) && Skips(right.front());
}

// One side of the band: what is written of it, and how many stitches the band's run takes over.
struct Flank {
  std::vector<Step> steps;
  size_t taken = 0;
};

// A row whose band is one group.
struct Grouped {
  std::vector<Step> before;
  std::vector<Step> inside;
  std::vector<Step> after;
  std::vector<int> times;
  int cost() const { return Cost(before) + 1 + Cost(inside) + Cost(after); }
};

class RowWriter {
 public:
  RowWriter(const BandedRow& row, const std::vector<int>& repeats, const RowWords& words, int depth,
            SearchBudget& budget)
      : row_(row), repeats_(repeats), words_(words), depth_(depth), budget_(budget) {}

  RowText Write() {
    const bool once = std::all_of(repeats_.begin(), repeats_.end(), [](int n) { return n == 1; });
    if (once || row_.band.empty()) {
      return WriteWhole(Joined(row_.before, row_.band, row_.after));
    }
    if (LeadingRun(row_.band, row_.band.front()) == row_.band.size()) return WriteRun();
    return WriteGroup();
  }

 private:
  std::vector<Step> Shortest(Stitches stitches, int depth) {
    return ShortestForm(Merged(stitches), depth, budget_);
  }

  void Append(const std::vector<Step>& steps, std::vector<Item>& items) const {
    AppendItems(words_, steps, repeats_.size(), row_.over_space, items);
  }

  // Each size's repeats, `fewer` of them left out, `factor` units a repeat, and `added`.
  std::vector<int> Times(int fewer, size_t factor, size_t added) const {
    std::vector<int> counts;
    counts.reserve(repeats_.size());
    for (const int n : repeats_) {
      counts.push_back((n - fewer) * static_cast<int>(factor) + static_cast<int>(added));
    }
    return counts;
  }

  // `rest` is the flank without the stitches next to the band that are of the band's kind. A chain
  // space is never split.
  Flank WriteFlank(Stitches flank, Stitches rest, Stitch kind) {
    Flank shorter{Shortest(rest, depth_), flank.size() - rest.size()};
    if (rest.size() == flank.size() || Skips(kind)) return shorter;
    Flank whole{Shortest(flank, depth_), 0};
    return Cost(shorter.steps) <= Cost(whole.steps) ? shorter : whole;
  }

  // The band is one long run: stitches of its kind next to it may be counted with it. Taking all of
  // them on either side, or none, is compared; equal costs take them.
  RowText WriteRun() {
    const Stitch kind = row_.band.front();
    const Stitches before(row_.before);
    const Stitches after(row_.after);
    const Flank left =
        WriteFlank(before, before.first(before.size() - TrailingRun(before, kind)), kind);
    const Flank right = WriteFlank(after, after.subspan(LeadingRun(after, kind)), kind);
    const std::vector<int> lengths = Times(0, row_.band.size(), left.taken + right.taken);
    std::vector<Item> items;
    Append(left.steps, items);
    items.push_back({ListedTerm(words_, kind, lengths, row_.over_space), {}, lengths});
    Append(right.steps, items);
    const int middle = Skips(kind) ? 2 : 1;
    return {TextOf(words_, items, -1), Cost(left.steps) + middle + Cost(right.steps)};
  }

  RowText WriteWhole(Stitches stitches) {
    const std::vector<Step> steps = Shortest(stitches, depth_);
    std::vector<Item> items;
    Append(steps, items);
    return {TextOf(words_, items, -1), Cost(steps)};
  }

  RowText WriteGroup() {
    const Grouped grouped = BestGroup();
    if (std::all_of(grouped.times.begin(), grouped.times.end(), [](int n) { return n == 1; })) {
      return WriteWhole(Joined(row_.before, Joined(row_.band, row_.band), row_.after));
    }
    std::vector<Item> items;
    Append(grouped.before, items);
    const int declared = static_cast<int>(items.size());
    Item group{StepsText(words_, grouped.inside, row_.over_space), grouped.times, grouped.times};
    int unit = 0;
    for (const Step& step : grouped.inside) unit += WidthOfStep(step);
    for (int& width : group.width) width *= unit;
    items.push_back(std::move(group));
    Append(grouped.after, items);
    return {TextOf(words_, items, declared), grouped.cost()};
  }

  static int WidthOfStep(const Step& step) {
    if (step.inside.empty()) return step.count * step.element.width();
    int width = 0;
    for (const Step& inside : step.inside) width += WidthOfStep(inside);
    return step.count * width;
  }

  Grouped BestGroup() {
    const Stitches band(row_.band);
    if (!SkipsAcross(row_.before, band) && !SkipsAcross(band, row_.after) &&
        !SkipsAcross(band, band)) {
      return Group(row_.before, band, row_.after, 0);
    }
    // Turned to start at `turn`: at the band's start or end, or where its first or last chain
    // space ends or starts.
    const size_t length = band.size();
    std::optional<Grouped> best;
    for (const size_t turn : {size_t{0}, LeadingRun(band, Stitch::kChainSpace),
                              length - TrailingRun(band, Stitch::kChainSpace), length}) {
      const std::vector<Stitch> before = Joined(row_.before, band.first(turn));
      const std::vector<Stitch> unit = Joined(band.subspan(turn), band.first(turn));
      const std::vector<Stitch> after = Joined(band.subspan(turn), row_.after);
      if (SkipsAcross(before, unit) || SkipsAcross(unit, unit) || SkipsAcross(unit, after)) {
        continue;
      }
      Grouped group = Group(before, unit, after, 1);
      if (!best.has_value() || group.cost() < best->cost()) best = std::move(group);
    }
    ROWPROOF_CHECK(best.has_value());
    return *std::move(best);
  }

  // A band that is itself a repeat of a unit counts the units.
  Grouped Group(Stitches before, Stitches band, Stitches after, int fewer) {
    const std::vector<Element> elements = Merged(band);
    const auto unit = static_cast<size_t>(PrimitiveLength(elements));
    Grouped group;
    group.before = Shortest(before, depth_);
    group.inside = ShortestForm(std::span<const Element>(elements).first(unit),
                                std::max(0, depth_ - 1), budget_);
    group.after = Shortest(after, depth_);
    group.times = Times(fewer, elements.size() / unit, 0);
    return group;
  }

  const BandedRow& row_;
  const std::vector<int>& repeats_;
  const RowWords& words_;
  int depth_;
  SearchBudget& budget_;
};

ClosingCount CountOfPart(Stitches stitches) { return CountOf(Merged(stitches)); }

}  // namespace

RowText WriteSteps(const BandedRow& row, const std::vector<int>& repeats, const RowWords& words,
                   int depth, SearchBudget& budget) {
  return RowWriter(row, repeats, words, depth, budget).Write();
}

ClosingCount CountOf(const BandedRow& row, int repeats) {
  const ClosingCount before = CountOfPart(row.before);
  const ClosingCount band = CountOfPart(row.band);
  const ClosingCount after = CountOfPart(row.after);
  ClosingCount count;
  count.stitches = before.stitches + repeats * band.stitches + after.stitches;
  // A space that runs over a join was counted on both sides of it.
  const int joins = (SkipsAcross(row.before, row.band) ? 1 : 0) +
                    (SkipsAcross(row.band, row.band) ? repeats - 1 : 0) +
                    (SkipsAcross(row.band, row.after) ? 1 : 0);
  count.chain_spaces =
      before.chain_spaces + repeats * band.chain_spaces + after.chain_spaces - joins;
  return count;
}

}  // namespace rowproof::rows
