#include "services/domain/chart/repair/strips.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <optional>
#include <span>
#include <utility>

namespace rowproof::chart {
namespace {

// Of a node or a member of a set that is looked at, in units of Stop.
constexpr size_t kWork = 4;

// The cost of laying out one member of a set, besides an entry of a table.
constexpr int64_t kStepsAMember = 16;

enum class State : uint8_t { kOpen, kKept, kTaken };

// Strips run along the stitches (a few stitches, all rows) or along the rows.
struct Cut {
  bool by_row = false;
  int width = 1;
  int shift = 0;
};

using Strip = std::vector<int32_t>;

class StripSolver {
 public:
  StripSolver(const Cover& cover, int64_t steps, const Stop& stop)
      : cover_(cover), stop_(stop), steps_(steps), number_(static_cast<size_t>(cover.nodes()), -1) {
    FindSetsOfNodes();
    rank_by_stitch_ = RanksOf(false);
    rank_by_row_ = RanksOf(true);
  }

  CoverAnswer Run() {
    CoverAnswer answer;
    answer.taken.assign(static_cast<size_t>(cover_.nodes()), 0);
    if (!stop_.status().ok()) return answer;
    state_ = Greedy();
    answer.weight = WeightOf(state_);
    const std::array<int, 2> widths = {WidthFor(rank_by_stitch_), WidthFor(rank_by_row_)};
    std::vector<Cut> cuts;
    for (const bool by_row : {false, true}) {
      const int width = widths[by_row ? 1 : 0];
      cuts.push_back({by_row, width, 0});
      if (width > 1) cuts.push_back({by_row, width, width / 2});
    }
    for (const Cut& cut : cuts) {
      if (answer.least == answer.weight || !stop_.status().ok()) break;
      if (CanPayAPass()) StartAgain(cut, answer);
      if (CanPayAPass()) answer.least = std::max(answer.least, Bound(cut));
    }
    Improve(cuts, answer);
    for (size_t i = 0; i < state_.size(); ++i) answer.taken[i] = state_[i] == State::kTaken ? 1 : 0;
    return answer;
  }

 private:
  // The sets of all nodes, in one vector: there can be millions of both.
  void FindSetsOfNodes() {
    starts_.assign(static_cast<size_t>(cover_.nodes()) + 1, 0);
    for (size_t i = 0; i < cover_.sets() && !stop_.After(kWork * cover_.set(i).size()); ++i) {
      for (const int32_t node : cover_.set(i)) ++starts_[static_cast<size_t>(node) + 1];
    }
    std::partial_sum(starts_.begin(), starts_.end(), starts_.begin());
    sets_.resize(starts_.back());
    std::vector<uint32_t> next = starts_;
    for (size_t i = 0; i < cover_.sets() && !stop_.After(kWork * cover_.set(i).size()); ++i) {
      for (const int32_t node : cover_.set(i)) {
        sets_[next[static_cast<size_t>(node)]++] = static_cast<uint32_t>(i);
      }
    }
  }
  std::span<const uint32_t> SetsOf(int32_t node) const {
    const auto at = static_cast<size_t>(node);
    return {sets_.data() + starts_[at], sets_.data() + starts_[at + 1]};
  }

  // Place of each node's stitch (or row) among those that there are.
  std::vector<int> RanksOf(bool by_row) const {
    std::vector<int> lines;
    for (int32_t node = 0; node < cover_.nodes(); ++node) {
      lines.push_back(by_row ? cover_.row(node) : cover_.stitch(node));
    }
    // Numbers from 1 to kMostRows or kMostStitches: sorted by counting.
    std::vector<int> rank(static_cast<size_t>(*std::max_element(lines.begin(), lines.end())) + 1);
    for (const int line : lines) rank[static_cast<size_t>(line)] = 1;
    std::exclusive_scan(rank.begin(), rank.end(), rank.begin(), 0);
    for (int& line : lines) line = rank[static_cast<size_t>(line)];
    return lines;
  }

  // Whether all sets can be laid out once more, for half of what it costs at least.
  bool CanPayAPass() const {
    return static_cast<int64_t>(cover_.members()) * kStepsAMember <= 2 * steps_;
  }

  // The widest strips of which about eight passes over all nodes can be paid for.
  int WidthFor(const std::vector<int>& ranks) const {
    constexpr int kPasses = 8;
    constexpr int kWidestStrip = 14;
    const int lines = 1 + *std::max_element(ranks.begin(), ranks.end());
    int width = 1;
    while (width < std::min(kWidestStrip, lines) &&
           (int64_t{cover_.nodes()} << (width + 2)) * kPasses <= steps_) {
      ++width;
    }
    return width;
  }

  std::vector<Strip> StripsOf(const Cut& cut) const {
    const auto& ranks = cut.by_row ? rank_by_row_ : rank_by_stitch_;
    const int lines = 1 + *std::max_element(ranks.begin(), ranks.end());
    std::vector<Strip> strips(static_cast<size_t>((lines - 1 + cut.shift) / cut.width + 1));
    for (int32_t node = 0; node < cover_.nodes() && !stop_.After(1); ++node) {
      const int strip = (ranks[static_cast<size_t>(node)] + cut.shift) / cut.width;
      strips[static_cast<size_t>(strip)].push_back(node);
    }
    std::erase_if(strips, [](const Strip& strip) { return strip.empty(); });
    return strips;
  }

  // The sets that the strip's nodes, none of them settled, have to meet, given the states of all
  // others: one that is taken meets its sets, one that is open leaves its sets for later.
  Cover CoverOf(const Strip& strip) {
    Cover piece;
    for (const int32_t node : strip) {
      number_[static_cast<size_t>(node)] =
          piece.AddNode(cover_.weight(node), cover_.row(node), cover_.stitch(node));
    }
    std::vector<int32_t> members;
    for (const int32_t node : strip) {
      if (stop_.After(kWork * SetsOf(node).size())) break;
      for (const uint32_t set : SetsOf(node)) {
        // Once, with its first member in the strip.
        const auto nodes = cover_.set(set);
        const auto first = std::find_if(nodes.begin(), nodes.end(), [this](int32_t other) {
          return number_[static_cast<size_t>(other)] >= 0;
        });
        if (*first != node) continue;
        members.clear();
        bool left_out = false;
        for (const int32_t other : nodes) {
          const int32_t number = number_[static_cast<size_t>(other)];
          if (number >= 0) {
            members.push_back(number);
          } else if (state_[static_cast<size_t>(other)] != State::kKept) {
            left_out = true;
          }
        }
        if (!left_out) piece.AddSet(members);
      }
    }
    for (const int32_t node : strip) number_[static_cast<size_t>(node)] = -1;
    steps_ -= static_cast<int64_t>(piece.members()) * kStepsAMember;
    return piece;
  }

  std::optional<CoverAnswer> SolveStrip(const Strip& strip) {
    return SolveExactly(CoverOf(strip), steps_, stop_);
  }

  // Sets that share no node cost one of their nodes each.
  int64_t Packed(const Cover& piece) const {
    std::vector<bool> used(static_cast<size_t>(piece.nodes()), false);
    int64_t bound = 0;
    for (size_t i = 0; i < piece.sets(); ++i) {
      const auto set = piece.set(i);
      if (stop_.After(kWork * set.size())) break;
      int32_t least = piece.weight(set[0]);
      bool free = true;
      for (const int32_t node : set) {
        least = std::min(least, piece.weight(node));
        free = free && !used[static_cast<size_t>(node)];
      }
      if (!free) continue;
      for (const int32_t node : set) used[static_cast<size_t>(node)] = true;
      bound += least;
    }
    return bound;
  }

  int64_t Bound(const Cut& cut) {
    const std::vector<State> before = std::exchange(
        state_, std::vector<State>(static_cast<size_t>(cover_.nodes()), State::kOpen));
    int64_t bound = 0;
    for (const Strip& strip : StripsOf(cut)) {
      if (!stop_.status().ok()) break;
      const Cover piece = CoverOf(strip);
      const auto found = SolveExactly(piece, steps_, stop_);
      bound += found.has_value() ? found->least : Packed(piece);
    }
    state_ = before;
    return bound;
  }

  void Write(const Strip& strip, const CoverAnswer& found) {
    for (size_t i = 0; i < strip.size(); ++i) {
      state_[static_cast<size_t>(strip[i])] = found.taken[i] != 0 ? State::kTaken : State::kKept;
    }
  }

  // Strip after strip with nothing settled beforehand; kept if it is better.
  void StartAgain(const Cut& cut, CoverAnswer& answer) {
    const std::vector<State> before = state_;
    std::fill(state_.begin(), state_.end(), State::kOpen);
    for (const Strip& strip : StripsOf(cut)) {
      const auto found = SolveStrip(strip);
      if (!found.has_value()) {
        state_ = before;
        return;
      }
      Write(strip, *found);
    }
    const int64_t weight = WeightOf(state_);
    if (weight < answer.weight) {
      answer.weight = weight;
    } else {
      state_ = before;
    }
  }

  void Improve(const std::vector<Cut>& cuts, CoverAnswer& answer) {
    for (size_t idle = 0, next = 0; idle < cuts.size(); ++idle, ++next) {
      for (const Strip& strip : StripsOf(cuts[next % cuts.size()])) {
        if (answer.least == answer.weight || steps_ <= 0 || stop_.After(strip.size())) return;
        int64_t weight = 0;
        for (const int32_t node : strip) {
          if (state_[static_cast<size_t>(node)] == State::kTaken) weight += cover_.weight(node);
        }
        if (weight == 0) continue;
        const auto found = SolveStrip(strip);
        if (!found.has_value()) continue;
        Write(strip, *found);
        if (found->weight < weight) {
          answer.weight -= weight - found->weight;
          idle = 0;
        }
      }
    }
  }

  int64_t WeightOf(const std::vector<State>& state) const {
    int64_t weight = 0;
    for (int32_t node = 0; node < cover_.nodes() && !stop_.After(1); ++node) {
      if (state[static_cast<size_t>(node)] == State::kTaken) weight += cover_.weight(node);
    }
    return weight;
  }

  // Each set that is not hit yet takes the node that hits the most sets for its weight; then nodes
  // that are no longer needed are put back.
  std::vector<State> Greedy() const {
    std::vector<State> state(static_cast<size_t>(cover_.nodes()), State::kKept);
    const auto taken_of = [&](size_t set) {
      const auto nodes = cover_.set(set);
      return std::count_if(nodes.begin(), nodes.end(), [&](int32_t node) {
        return state[static_cast<size_t>(node)] == State::kTaken;
      });
    };
    const auto worth_less = [&](int32_t one, int32_t other) {
      return SetsOf(one).size() * static_cast<size_t>(cover_.weight(other)) <
             SetsOf(other).size() * static_cast<size_t>(cover_.weight(one));
    };
    for (size_t i = 0; i < cover_.sets(); ++i) {
      if (stop_.After(kWork * cover_.set(i).size())) break;
      if (taken_of(i) > 0) continue;
      const auto nodes = cover_.set(i);
      const int32_t best = *std::max_element(nodes.begin(), nodes.end(), worth_less);
      state[static_cast<size_t>(best)] = State::kTaken;
    }
    for (int32_t node = 0; node < cover_.nodes(); ++node) {
      const auto sets = SetsOf(node);
      if (stop_.After(kWork)) break;
      if (state[static_cast<size_t>(node)] != State::kTaken) continue;
      const bool needed =
          std::any_of(sets.begin(), sets.end(), [&](uint32_t set) { return taken_of(set) == 1; });
      if (!needed) state[static_cast<size_t>(node)] = State::kKept;
    }
    return state;
  }

  const Cover& cover_;
  const Stop& stop_;
  int64_t steps_;
  std::vector<uint32_t> starts_;  // by node, where its sets start in sets_
  std::vector<uint32_t> sets_;
  std::vector<int> rank_by_stitch_;
  std::vector<int> rank_by_row_;
  std::vector<State> state_;
  std::vector<int32_t> number_;  // in the strip at hand; -1 outside it
};

}  // namespace

CoverAnswer SolveInStrips(const Cover& cover, int64_t steps, const Stop& stop) {
  return StripSolver(cover, steps, stop).Run();
}

}  // namespace rowproof::chart
