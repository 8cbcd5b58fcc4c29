#include "services/domain/chart/repair/cover.h"

#include <algorithm>
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

// Calls `visit` for each part of what is left when the nodes of `taken` are gone.
template <typename Visitor>
void VisitParts(const Cover& cover, const std::vector<uint8_t>& taken, Visitor visit) {
  const auto is_met = [&](std::span<const int32_t> set) {
    return std::any_of(set.begin(), set.end(),
                       [&](int32_t node) { return taken[static_cast<size_t>(node)] != 0; });
  };
  JoinedNumbers joined(static_cast<size_t>(cover.nodes()));
  std::vector<std::pair<int32_t, size_t>> open;  // part, set
  for (size_t i = 0; i < cover.sets(); ++i) {
    const auto set = cover.set(i);
    if (is_met(set)) continue;
    for (const int32_t node : set) joined.Join(set[0], node);
    open.emplace_back(set[0], i);
  }
  for (auto& [part, set] : open) part = joined.Find(part);
  std::sort(open.begin(), open.end());
  std::vector<int32_t> number(static_cast<size_t>(cover.nodes()), -1);
  Part part;
  std::vector<int32_t> members;
  for (size_t begin = 0; begin < open.size();) {
    size_t end = begin;
    part.cover.Clear();
    part.nodes.clear();
    for (; end < open.size() && open[end].first == open[begin].first; ++end) {
      const auto set = cover.set(open[end].second);
      part.nodes.insert(part.nodes.end(), set.begin(), set.end());
    }
    std::sort(part.nodes.begin(), part.nodes.end());
    part.nodes.erase(std::unique(part.nodes.begin(), part.nodes.end()), part.nodes.end());
    for (const int32_t node : part.nodes) {
      number[static_cast<size_t>(node)] =
          part.cover.AddNode(cover.weight(node), cover.row(node), cover.stitch(node));
    }
    for (; begin < end; ++begin) {
      members.clear();
      for (const int32_t node : cover.set(open[begin].second)) {
        members.push_back(number[static_cast<size_t>(node)]);
      }
      part.cover.AddSet(members);
    }
    visit(part);
  }
}

void Settle(const Part& part, const CoverAnswer& found, CoverAnswer& answer) {
  for (size_t i = 0; i < part.nodes.size(); ++i) {
    if (found.taken[i] != 0) answer.taken[static_cast<size_t>(part.nodes[i])] = 1;
  }
  answer.weight += found.weight;
  answer.least += found.least;
}

// Each part has this much, whatever others have used.
constexpr int64_t kLeastSteps = 4096;

std::optional<CoverAnswer> SolvePart(const Cover& part, int64_t& steps) {
  if (const auto line = AsLine(part); line.has_value()) return SolveLine(part, *line);
  int64_t left = std::max(steps, kLeastSteps);
  const int64_t before = left;
  auto found = Eliminate(part, left);
  steps -= before - left;
  return found;
}

// Settles every part that can be solved exactly and returns the others.
std::vector<Part> SettleParts(const Cover& cover, int64_t& steps, CoverAnswer& answer) {
  std::vector<Part> wide;
  VisitParts(cover, answer.taken, [&](const Part& part) {
    if (const auto found = SolvePart(part.cover, steps); found.has_value()) {
      Settle(part, *found, answer);
    } else {
      wide.push_back(part);
    }
  });
  return wide;
}

// A set of one leaves no choice.
CoverAnswer TakeSingles(const Cover& cover) {
  CoverAnswer answer;
  answer.taken.assign(static_cast<size_t>(cover.nodes()), 0);
  for (size_t i = 0; i < cover.sets(); ++i) {
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

std::optional<CoverAnswer> SolveExactly(const Cover& cover, int64_t& steps) {
  CoverAnswer answer = TakeSingles(cover);
  if (!SettleParts(cover, steps, answer).empty()) return std::nullopt;
  return answer;
}

CoverAnswer Solve(const Cover& cover, int64_t steps) {
  CoverAnswer answer = TakeSingles(cover);
  const std::vector<Part> wide = SettleParts(cover, steps, answer);
  for (size_t i = 0; i < wide.size(); ++i) {
    const int64_t share = std::max<int64_t>(0, steps) / static_cast<int64_t>(wide.size() - i);
    steps -= share;
    Settle(wide[i], SolveInStrips(wide[i].cover, share), answer);
  }
  return answer;
}

}  // namespace rowproof::chart
