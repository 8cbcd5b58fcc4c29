#include "services/domain/rows/writing/shortest_form.h"

#include <algorithm>
#include <limits>

#include "services/domain/rows/index.h"
#include "services/domain/rows/writing/squares.h"

namespace rowproof::rows {
namespace {

constexpr int kUnreached = std::numeric_limits<int>::max() / 2;

bool IsSpace(const Element& element) { return element.stitch == Stitch::kChainSpace; }

int TermCost(const Element& element) { return IsSpace(element) ? 2 : 1; }

// Whether the element at `at` continues the run of the one before it.
bool GoesOn(std::span<const Element> elements, size_t at) {
  return at > 0 && elements[at] == elements[at - 1] && !IsSpace(elements[at]);
}

std::vector<Step> Runs(std::span<const Element> elements) {
  std::vector<Step> steps;
  for (size_t i = 0; i < elements.size(); ++i) {
    if (GoesOn(elements, i)) {
      ++steps.back().count;
    } else {
      steps.push_back({elements[i], 1, {}});
    }
  }
  return steps;
}

class Search {
 public:
  Search(std::span<const Element> elements, bool primitive_only, const Stop* stop)
      : elements_(elements), squares_(FindSquares(Numbered(elements), primitive_only, stop)) {
    const size_t length = elements_.size();
    run_start_.resize(length);
    for (size_t i = 0; i < length; ++i) {
      run_start_[i] = GoesOn(elements_, i) ? run_start_[i - 1] : static_cast<int>(i);
    }
    first_square_.assign(length + 1, 0);
    for (const Square& square : squares_) ++first_square_[static_cast<size_t>(square.start) + 1];
    for (size_t i = 0; i < length; ++i) first_square_[i + 1] += first_square_[i];
    best_.resize(length + 1);
    bracket_.resize(squares_.size());
  }

  // Costs of all units with brackets nested 0, 1, ... deep inside them, as far as the budget
  // reaches; returns the depth that a whole row can then have.
  int CostUnits(int depth, SearchBudget& budget) {
    if (!RunsOfUnits(budget)) return 0;
    while (static_cast<int>(unit_costs_.size()) < depth) {
      if (!CostUnitsDeeper(budget)) break;
    }
    return static_cast<int>(unit_costs_.size());
  }

  // Steps of elements [from, to) with brackets nested at most `depth` deep.
  std::vector<Step> Form(int from, int to, int depth) {
    if (depth == 0) {
      return Runs(elements_.subspan(static_cast<size_t>(from), static_cast<size_t>(to - from)));
    }
    const std::vector<int>& costs = unit_costs_[static_cast<size_t>(depth - 1)];
    Fill(from, to, costs);
    std::vector<Step> steps;
    std::vector<std::pair<size_t, int>> brackets;  // step and where its unit starts
    for (int end = to; end > from;) {
      if (const int start = RunBefore(from, end); start < end) {
        steps.push_back({elements_[static_cast<size_t>(start)], end - start, {}});
        end = start;
        continue;
      }
      int at = BracketBefore(from, end);
      int copies = 2;
      for (int earlier = Earlier(at, from);
           earlier >= 0 && bracket_[static_cast<size_t>(earlier)] == best_[Index(end)];
           earlier = Earlier(at, from)) {
        at = earlier;
        ++copies;
      }
      brackets.emplace_back(steps.size(), at);
      steps.push_back({Element{}, copies, {}});
      end = squares_[static_cast<size_t>(at)].start;
    }
    // Only now: the search within a unit writes over best_ and bracket_.
    for (const auto& [step, at] : brackets) {
      const Square& square = squares_[static_cast<size_t>(at)];
      steps[step].inside = Form(square.start, square.start + square.unit, depth - 1);
    }
    std::reverse(steps.begin(), steps.end());
    return steps;
  }

 private:
  // The square one unit before `at`, if it is within the part that starts at `from`; otherwise -1.
  int Earlier(int at, int from) const {
    const int previous = squares_[Index(at)].previous;
    return previous >= 0 && squares_[Index(previous)].start >= from ? previous : -1;
  }

  bool RunsOfUnits(SearchBudget& budget) {
    if (!budget.Take(static_cast<int64_t>(squares_.size() + elements_.size()))) return false;
    std::vector<int> terms(elements_.size() + 1, 0);  // cost of the runs that start in [0, i)
    for (size_t i = 0; i < elements_.size(); ++i) {
      terms[i + 1] = terms[i] + (run_start_[i] == static_cast<int>(i) ? TermCost(elements_[i]) : 0);
    }
    std::vector<int> costs;
    costs.reserve(squares_.size());
    for (const Square& square : squares_) {
      costs.push_back(TermCost(elements_[Index(square.start)]) +
                      terms[Index(square.start + square.unit)] - terms[Index(square.start + 1)]);
    }
    unit_costs_.push_back(std::move(costs));
    return true;
  }

  bool CostUnitsDeeper(SearchBudget& budget) {
    const std::vector<int> shallower = unit_costs_.back();
    std::vector<int> costs(squares_.size());
    for (size_t start = 0; start < elements_.size(); ++start) {
      const size_t begin = first_square_[start];
      const size_t end = first_square_[start + 1];
      if (begin == end) continue;
      const int from = static_cast<int>(start);
      if (!budget.Take(Fill(from, from + squares_[end - 1].unit, shallower))) return false;
      for (size_t i = begin; i < end; ++i) costs[i] = best_[start + Index(squares_[i].unit)];
    }
    unit_costs_.push_back(std::move(costs));
    return true;
  }

  // best_[e] for from <= e <= to: the least cost of elements [from, e), given what the inside of
  // each bracket costs. bracket_[i]: the least cost up to the end of square i whose last step is a
  // bracket that ends with the square's two copies. Returns the steps taken.
  int64_t Fill(int from, int to, const std::vector<int>& unit_cost) {
    std::fill(best_.begin() + from, best_.begin() + to + 1, kUnreached);
    best_[Index(from)] = 0;
    int64_t work = to - from;
    int least_in_run = kUnreached;
    for (int at = from; at < to; ++at) {
      const int here = best_[Index(at)];
      least_in_run = run_start_[Index(at)] == at ? here : std::min(least_in_run, here);
      int& next = best_[Index(at) + 1];
      next = std::min(next, least_in_run + TermCost(elements_[Index(at)]));
      for (size_t i = first_square_[Index(at)]; i < first_square_[Index(at) + 1]; ++i, ++work) {
        const int end = at + 2 * squares_[i].unit;
        if (end > to) break;
        int cost = here + 1 + unit_cost[i];
        if (const int earlier = Earlier(static_cast<int>(i), from); earlier >= 0) {
          cost = std::min(cost, bracket_[Index(earlier)]);
        }
        bracket_[i] = cost;
        best_[Index(end)] = std::min(best_[Index(end)], cost);
      }
    }
    return work;
  }

  // Start of the longest run that ends at `end` on a cheapest way; `end` if there is none.
  int RunBefore(int from, int end) const {
    const int cost = TermCost(elements_[Index(end - 1)]);
    for (int start = std::max(from, run_start_[Index(end - 1)]); start < end; ++start) {
      if (best_[Index(start)] + cost == best_[Index(end)]) return start;
    }
    return end;
  }

  // The square with the shortest unit that ends a bracket at `end` on a cheapest way.
  int BracketBefore(int from, int end) const {
    for (int unit = 2; end - 2 * unit >= from; ++unit) {
      const int start = end - 2 * unit;
      const auto begin =
          squares_.begin() + static_cast<std::ptrdiff_t>(first_square_[Index(start)]);
      const auto stop =
          squares_.begin() + static_cast<std::ptrdiff_t>(first_square_[Index(start) + 1]);
      const auto found = std::lower_bound(
          begin, stop, unit, [](const Square& square, int wanted) { return square.unit < wanted; });
      if (found == stop || found->unit != unit) continue;
      const auto at = static_cast<size_t>(found - squares_.begin());
      if (bracket_[at] == best_[Index(end)]) return static_cast<int>(at);
    }
    ROWPROOF_CHECK(false && "every prefix ends in a run or a bracket");
    return -1;
  }

  std::span<const Element> elements_;
  std::vector<Square> squares_;
  std::vector<size_t> first_square_;          // of each start
  std::vector<int> run_start_;                // of the run that an element is in
  std::vector<std::vector<int>> unit_costs_;  // [depth inside][square]
  std::vector<int> best_;
  std::vector<int> bracket_;
};

}  // namespace

int Cost(std::span<const Step> steps) {
  int cost = 0;
  for (const Step& step : steps) {
    cost += step.inside.empty() ? TermCost(step.element) : 1 + Cost(step.inside);
  }
  return cost;
}

std::vector<Step> ShortestForm(std::span<const Element> elements, int depth, SearchBudget& budget) {
  if (depth == 0 || elements.size() < 4) return Runs(elements);
  // The bit-parallel search for squares.
  const auto length = static_cast<int64_t>(elements.size());
  if (!budget.Take(length * ((length + 63) / 64))) {
    budget.RunOut();
    return Runs(elements);
  }
  Search search(elements, /*primitive_only=*/depth <= 2, budget.stop);
  const int reached = search.CostUnits(depth, budget);
  if (reached < depth) budget.RunOut();
  return search.Form(0, static_cast<int>(elements.size()), reached);
}

}  // namespace rowproof::rows
