#include "services/domain/chart/repair/cover.h"

#include <algorithm>
#include <numeric>
#include <optional>

#include "services/domain/chart/joined_numbers.h"
#include "services/domain/chart/repair/elimination.h"
#include "services/domain/chart/repair/strips.h"
#include "services/domain/check.h"

namespace rowproof::chart {
namespace {

// A part of a cover that no set joins to the rest, with its own numbers of nodes.
struct Part {
  Cover cover;
  std::vector<int32_t> nodes;  // of the whole
};

// What is left of a cover when some of its nodes are gone: its open sets and their nodes by part,
// both ascending. A part is named by its first node.
class OpenParts {
 public:
  OpenParts(const Cover& cover, const std::vector<uint8_t>& taken, const Stop& stop)
      : cover_(cover), stop_(stop), joined_(static_cast<size_t>(cover.nodes())) {
    std::vector<size_t> open;
    for (size_t i = 0; i < cover.sets(); ++i) {
      const auto set = cover.set(i);
      if (stop.After(kNodeWork * set.size())) return;
      const bool met = std::any_of(set.begin(), set.end(), [&](int32_t node) {
        return taken[static_cast<size_t>(node)] != 0;
      });
      if (met) continue;
      for (const int32_t node : set) joined_.Join(set[0], node);
      open.push_back(i);
    }
    Gather(open);
  }

  // Calls `visit` for each part.
  template <typename Visitor>
  void Visit(Visitor visit) {
    std::vector<int32_t> number(static_cast<size_t>(cover_.nodes()), -1);
    Part part;
    std::vector<int32_t> members;
    for (size_t i = 0; i + 1 < set_starts_.size(); ++i) {
      if (set_starts_[i] == set_starts_[i + 1]) continue;
      part.cover.Clear();
      part.nodes.assign(nodes_.data() + node_starts_[i], nodes_.data() + node_starts_[i + 1]);
      for (const int32_t node : part.nodes) {
        if (stop_.After(kNodeWork)) return;
        number[static_cast<size_t>(node)] =
            part.cover.AddNode(cover_.weight(node), cover_.row(node), cover_.stitch(node));
      }
      for (auto at = set_starts_[i]; at < set_starts_[i + 1]; ++at) {
        members.clear();
        for (const int32_t node : cover_.set(sets_[at])) {
          members.push_back(number[static_cast<size_t>(node)]);
        }
        if (stop_.After(kNodeWork * members.size())) return;
        part.cover.AddSet(members);
      }
      visit(part);
    }
  }

 private:
  static constexpr size_t kNodeWork = 4;  // in units of Stop

  // Sorts by counting: there can be 20 million sets.
  void Gather(const std::vector<size_t>& open) {
    const auto count = static_cast<size_t>(cover_.nodes());
    set_starts_.assign(count + 1, 0);
    node_starts_.assign(count + 1, 0);
    const auto part_of = [this](size_t set) {
      return static_cast<size_t>(joined_.Find(cover_.set(set)[0]));
    };
    for (const size_t set : open) {
      if (stop_.After(kNodeWork)) return Forget();
      ++set_starts_[part_of(set) + 1];
    }
    const auto is_open = [this](size_t part) { return set_starts_[part + 1] != 0; };
    std::vector<int32_t> part_of_node(count, -1);
    for (size_t node = 0; node < count; ++node) {
      if (stop_.After(kNodeWork)) return Forget();
      const auto part = static_cast<size_t>(joined_.Find(static_cast<int32_t>(node)));
      if (!is_open(part)) continue;
      part_of_node[node] = static_cast<int32_t>(part);
      ++node_starts_[part + 1];
    }
    std::partial_sum(set_starts_.begin(), set_starts_.end(), set_starts_.begin());
    std::partial_sum(node_starts_.begin(), node_starts_.end(), node_starts_.begin());
    sets_.resize(open.size());
    nodes_.resize(node_starts_.back());
    auto next = set_starts_;
    for (const size_t set : open) {
      if (stop_.After(kNodeWork)) return Forget();
      sets_[next[part_of(set)]++] = set;
    }
    next = node_starts_;
    for (size_t node = 0; node < count; ++node) {
      if (stop_.After(kNodeWork)) return Forget();
      if (part_of_node[node] < 0) continue;
      nodes_[next[static_cast<size_t>(part_of_node[node])]++] = static_cast<int32_t>(node);
    }
  }

  // The work has to stop: there is nothing to visit.
  void Forget() { set_starts_.clear(); }

  const Cover& cover_;
  const Stop& stop_;
  JoinedNumbers joined_;
  // By part, where its sets and nodes start in the two that follow.
  std::vector<uint32_t> set_starts_;
  std::vector<uint32_t> node_starts_;
  std::vector<size_t> sets_;
  std::vector<int32_t> nodes_;
};

void Settle(const Part& part, const CoverAnswer& found, CoverAnswer& answer) {
  for (size_t i = 0; i < part.nodes.size(); ++i) {
    if (found.taken[i] != 0) answer.taken[static_cast<size_t>(part.nodes[i])] = 1;
  }
  answer.weight += found.weight;
  answer.least += found.least;
}

// Each part has this much, whatever others have used.
constexpr int64_t kLeastSteps = 4096;

std::optional<CoverAnswer> SolvePart(const Cover& part, int64_t& steps, const Stop& stop) {
  if (const auto line = AsLine(part, stop); line.has_value()) return SolveLine(part, *line);
  int64_t left = std::max(steps, kLeastSteps);
  const int64_t before = left;
  auto found = Eliminate(part, left, stop);
  steps -= before - left;
  return found;
}

// Settles every part that can be solved exactly and returns the others.
std::vector<Part> SettleParts(const Cover& cover, int64_t& steps, CoverAnswer& answer,
                              const Stop& stop) {
  std::vector<Part> wide;
  OpenParts(cover, answer.taken, stop).Visit([&](const Part& part) {
    if (const auto found = SolvePart(part.cover, steps, stop); found.has_value()) {
      Settle(part, *found, answer);
    } else {
      wide.push_back(part);
    }
  });
  return wide;
}

// A set of one leaves no choice.
CoverAnswer TakeSingles(const Cover& cover, const Stop& stop) {
  CoverAnswer answer;
  answer.taken.assign(static_cast<size_t>(cover.nodes()), 0);
  for (size_t i = 0; i < cover.sets() && !stop.After(1); ++i) {
    const auto set = cover.set(i);
    uint8_t& taken = answer.taken[static_cast<size_t>(set[0])];
    if (set.size() != 1 || taken != 0) continue;
    taken = 1;
    answer.weight += cover.weight(set[0]);
  }
  answer.least = answer.weight;
  return answer;
}

}  // namespace

int32_t Cover::AddNode(int32_t weight, int row, int stitch) {
  ROWPROOF_CHECK(weight >= 1);
  weights_.push_back(weight);
  places_.push_back({row, stitch});
  return nodes() - 1;
}

void Cover::AddSet(std::span<const int32_t> nodes) {
  ROWPROOF_CHECK(!nodes.empty());
  members_.insert(members_.end(), nodes.begin(), nodes.end());
  starts_.push_back(members_.size());
}

void Cover::Clear() {
  weights_.clear();
  places_.clear();
  starts_.assign(1, 0);
  members_.clear();
}

std::optional<CoverAnswer> SolveExactly(const Cover& cover, int64_t& steps, const Stop& stop) {
  CoverAnswer answer = TakeSingles(cover, stop);
  if (!SettleParts(cover, steps, answer, stop).empty() || !stop.status().ok()) return std::nullopt;
  return answer;
}

CoverAnswer Solve(const Cover& cover, int64_t steps, const Stop& stop) {
  CoverAnswer answer = TakeSingles(cover, stop);
  const std::vector<Part> wide = SettleParts(cover, steps, answer, stop);
  for (size_t i = 0; i < wide.size() && stop.status().ok(); ++i) {
    const int64_t share = std::max<int64_t>(0, steps) / static_cast<int64_t>(wide.size() - i);
    steps -= share;
    Settle(wide[i], SolveInStrips(wide[i].cover, share, stop), answer);
  }
  return answer;
}

}  // namespace rowproof::chart
