#include "services/domain/rows/row_text.h"

#include <algorithm>
#include <iterator>

#include "services/domain/rows/squares.h"
#include "services/domain/rows/writer.h"

namespace rowproof::rows {
namespace {

using Stitches = std::span<const Stitch>;

const char* NameOf(Stitch stitch) { return stitch == Stitch::kPlain ? "sc" : "ssc"; }

void AppendSteps(const std::vector<Step>& steps, std::string& out);

void AppendStep(const Step& step, std::string& out) {
  if (!out.empty() && out.back() != '[') out += ", ";
  if (step.inside.empty()) {
    out += NameOf(step.stitch);
    if (step.count > 1) out += ' ' + std::to_string(step.count);
    return;
  }
  out += '[';
  AppendSteps(step.inside, out);
  out += "] " + std::to_string(step.count) + " times";
}

void AppendSteps(const std::vector<Step>& steps, std::string& out) {
  for (const Step& step : steps) AppendStep(step, out);
}

RowText WriteWhole(Stitches stitches, int depth, SearchBudget& budget) {
  const std::vector<Step> steps = ShortestForm(stitches, depth, budget);
  RowText text;
  AppendSteps(steps, text.steps);
  text.cost = Cost(steps);
  return text;
}

std::vector<int> Times(const std::vector<int>& repeats, size_t factor, size_t added) {
  std::vector<int> counts;
  counts.reserve(repeats.size());
  for (const int n : repeats) {
    counts.push_back(n * static_cast<int>(factor) + static_cast<int>(added));
  }
  return counts;
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

RowText Join(const std::vector<Step>& before, const std::string& middle, int middle_cost,
             const std::vector<Step>& after) {
  RowText text;
  AppendSteps(before, text.steps);
  if (!text.steps.empty()) text.steps += ", ";
  text.steps += middle;
  AppendSteps(after, text.steps);
  text.cost = Cost(before) + middle_cost + Cost(after);
  return text;
}

// One side of the band: what is written of it, and how many stitches the band's run takes over.
struct Flank {
  std::vector<Step> steps;
  size_t taken = 0;
};

// `rest` is the flank without the stitches beside the band that are of the band's kind.
Flank WriteFlank(Stitches flank, Stitches rest, int depth, SearchBudget& budget) {
  Flank whole{ShortestForm(flank, depth, budget), 0};
  if (rest.size() == flank.size()) return whole;
  Flank shorter{ShortestForm(rest, depth, budget), flank.size() - rest.size()};
  return Cost(shorter.steps) <= Cost(whole.steps) ? shorter : whole;
}

// The band is one long run: stitches of its kind beside it may be counted with it. Taking all of
// them on either side, or none, is compared; equal costs take them.
RowText WriteRun(const BandedRow& row, const std::vector<int>& repeats, int depth,
                 SearchBudget& budget) {
  const Stitch kind = row.band.front();
  const Stitches before(row.before);
  const Stitches after(row.after);
  const Flank left =
      WriteFlank(before, before.first(before.size() - TrailingRun(before, kind)), depth, budget);
  const Flank right = WriteFlank(after, after.subspan(LeadingRun(after, kind)), depth, budget);
  const std::vector<int> counts = Times(repeats, row.band.size(), left.taken + right.taken);
  const std::string middle = std::string(NameOf(kind)) + ' ' + List(counts);
  return Join(left.steps, middle, 1, right.steps);
}

}  // namespace

std::string List(const std::vector<int>& numbers) {
  const auto one = [](int n) { return n == kNotWorked ? std::string("-") : std::to_string(n); };
  std::string list = one(numbers.front());
  if (std::all_of(numbers.begin(), numbers.end(), [&](int n) { return n == numbers.front(); })) {
    return list;
  }
  for (size_t i = 1; i < numbers.size(); ++i) list += (i == 1 ? " (" : ", ") + one(numbers[i]);
  return list + ')';
}

RowText WriteSteps(const BandedRow& row, const std::vector<int>& repeats, int depth,
                   SearchBudget& budget) {
  const bool once = std::all_of(repeats.begin(), repeats.end(), [](int n) { return n == 1; });
  if (once || row.band.empty()) {
    std::vector<Stitch> whole = row.before;
    whole.insert(whole.end(), row.band.begin(), row.band.end());
    whole.insert(whole.end(), row.after.begin(), row.after.end());
    return WriteWhole(whole, depth, budget);
  }
  // A band that is itself a repeat of a unit counts the units.
  const auto unit_length = static_cast<size_t>(PrimitiveLength(row.band));
  if (unit_length == 1) return WriteRun(row, repeats, depth, budget);
  const auto unit = Stitches(row.band).first(unit_length);
  const std::vector<Step> inside = ShortestForm(unit, std::max(0, depth - 1), budget);
  std::string middle = "[";
  AppendSteps(inside, middle);
  middle += "] " + List(Times(repeats, row.band.size() / unit_length, 0)) + " times";
  return Join(ShortestForm(row.before, depth, budget), middle, 1 + Cost(inside),
              ShortestForm(row.after, depth, budget));
}

}  // namespace rowproof::rows
