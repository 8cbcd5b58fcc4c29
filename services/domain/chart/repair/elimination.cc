#include "services/domain/chart/repair/elimination.h"

#include <algorithm>
#include <array>
#include <bit>
#include <set>
#include <utility>

#include "services/domain/check.h"

namespace rowproof::chart {
namespace {

constexpr uint32_t kNever = uint32_t{1} << 29;
constexpr size_t kWidest = 22;  // nodes of one table at most

// The least cost of what has been eliminated, for each choice of the nodes of `scope`: bit i of an
// index says that scope[i] is removed.
struct Table {
  std::vector<int32_t> scope;  // ascending
  std::vector<uint32_t> cost;
};

// Of a node's share in the vectors, in units of Stop.
constexpr size_t kNodeWork = 8;

// In which order nodes go, and which nodes a node's table depends on.
struct Order {
  std::vector<int32_t> nodes;
  std::vector<std::vector<int32_t>> scopes;  // by node, ascending
};

// The cost of eliminating a node, besides an entry of its table: the nodes around it are joined.
int64_t OrderSteps(size_t degree) {
  constexpr size_t kNode = 32;
  return static_cast<int64_t>(kNode + 8 * degree * degree);
}

// Least degree first; among equals, the highest node. None if the tables would be too large.
std::optional<Order> OrderOf(const Cover& cover, int64_t& steps, const Stop& stop) {
  const auto count = static_cast<size_t>(cover.nodes());
  // Each node takes this much, whatever is around it.
  if (static_cast<int64_t>(count) * (1 + OrderSteps(0)) > steps) return std::nullopt;
  Order order;
  order.scopes.resize(count);
  auto& around = order.scopes;
  for (size_t i = 0; i < cover.sets(); ++i) {
    const auto set = cover.set(i);
    if (set.size() > kWidest) return std::nullopt;
    steps -= OrderSteps(set.size());
    if (steps < 0 || stop.After(set.size() * set.size())) return std::nullopt;
    for (const int32_t node : set) {
      for (const int32_t other : set) {
        if (other != node) around[static_cast<size_t>(node)].push_back(other);
      }
    }
  }
  std::set<std::pair<size_t, int32_t>> waiting;  // degree, minus the node
  for (size_t node = 0; node < count; ++node) {
    auto& near = around[node];
    if (stop.After(kNodeWork + near.size())) return std::nullopt;
    std::sort(near.begin(), near.end());
    near.erase(std::unique(near.begin(), near.end()), near.end());
    waiting.emplace(near.size(), -static_cast<int32_t>(node));
  }
  std::vector<int32_t> joined;
  while (!waiting.empty()) {
    const auto [degree, minus_node] = *waiting.begin();
    waiting.erase(waiting.begin());
    const int32_t node = -minus_node;
    if (degree > kWidest) return std::nullopt;
    steps -= (int64_t{1} << degree) + OrderSteps(degree);
    if (steps < 0 || stop.After(OrderSteps(degree))) return std::nullopt;
    order.nodes.push_back(node);
    const auto& scope = around[static_cast<size_t>(node)];
    for (const int32_t other : scope) {
      auto& near = around[static_cast<size_t>(other)];
      waiting.erase({near.size(), -other});
      joined.clear();
      std::set_union(near.begin(), near.end(), scope.begin(), scope.end(),
                     std::back_inserter(joined));
      std::erase_if(joined, [&](int32_t n) { return n == node || n == other; });
      near = joined;
      waiting.emplace(near.size(), -other);
    }
  }
  return order;
}

class Elimination {
 public:
  Elimination(const Cover& cover, const Order& order, const Stop& stop)
      : cover_(cover), order_(order), stop_(stop) {
    const auto count = static_cast<size_t>(cover.nodes());
    place_.resize(count);
    for (size_t i = 0; i < count; ++i) place_[static_cast<size_t>(order.nodes[i])] = i;
    sets_.resize(count);
    for (size_t i = 0; i < cover.sets(); ++i) {
      if (stop.After(kNodeWork + cover.set(i).size())) return;
      sets_[FirstToGo(cover.set(i))].push_back(i);
    }
    tables_.resize(count);
    take_.resize(count);
  }

  std::optional<CoverAnswer> Run() {
    for (const int32_t node : order_.nodes) {
      if (stop_.After(kNodeWork)) return std::nullopt;
      GoOn(node);
    }
    if (!stop_.status().ok()) return std::nullopt;
    CoverAnswer answer;
    answer.taken.assign(place_.size(), 0);
    for (size_t i = order_.nodes.size(); i-- > 0;) {
      const auto node = static_cast<size_t>(order_.nodes[i]);
      const auto& scope = order_.scopes[node];
      size_t index = 0;
      for (size_t k = 0; k < scope.size(); ++k) {
        index |= size_t{answer.taken[static_cast<size_t>(scope[k])]} << k;
      }
      answer.taken[node] = take_[node][index] ? 1 : 0;
    }
    answer.weight = total_;
    answer.least = total_;
    return answer;
  }

 private:
  // Calls `visit` for each entry of a table, which can have millions; not for all if the work has
  // to stop.
  template <typename Visitor>
  void VisitEntries(size_t entries, Visitor visit) const {
    constexpr size_t kAtOnce = size_t{1} << 16;
    for (size_t begin = 0; begin < entries; begin += kAtOnce) {
      const size_t end = std::min(entries, begin + kAtOnce);
      if (stop_.After(end - begin)) return;
      for (size_t a = begin; a < end; ++a) visit(a);
    }
  }

  size_t FirstToGo(std::span<const int32_t> nodes) const {
    const int32_t first =
        *std::min_element(nodes.begin(), nodes.end(), [this](int32_t one, int32_t other) {
          return place_[static_cast<size_t>(one)] < place_[static_cast<size_t>(other)];
        });
    return static_cast<size_t>(first);
  }

  // Adds a table that depends on `node` to the costs of keeping it and of taking it.
  void AddTable(const Table& table, int32_t node, const std::vector<int32_t>& scope) {
    uint32_t own = 0;
    std::array<uint32_t, kWidest> bits{};
    for (size_t k = 0; k < table.scope.size(); ++k) {
      const uint32_t bit = uint32_t{1} << k;
      if (table.scope[k] == node) {
        own = bit;
      } else {
        const auto at = std::lower_bound(scope.begin(), scope.end(), table.scope[k]);
        bits[static_cast<size_t>(at - scope.begin())] = bit;
      }
    }
    index_[0] = 0;
    VisitEntries(keep_.size(), [&](size_t a) {
      if (a != 0) {
        index_[a] = index_[a & (a - 1)] | bits[static_cast<size_t>(std::countr_zero(a))];
      }
      keep_[a] = std::min(kNever, keep_[a] + table.cost[index_[a]]);
      taking_[a] = std::min(kNever, taking_[a] + table.cost[index_[a] | own]);
    });
  }

  void GoOn(int32_t node) {
    const auto own = static_cast<size_t>(node);
    const auto& scope = order_.scopes[own];
    const size_t size = size_t{1} << scope.size();
    keep_.assign(size, 0);
    taking_.assign(size, static_cast<uint32_t>(cover_.weight(node)));
    if (index_.size() < size) index_.resize(size);
    for (const Table& table : tables_[own]) AddTable(table, node, scope);
    tables_[own].clear();
    tables_[own].shrink_to_fit();
    for (const size_t set : sets_[own]) {
      size_t mask = 0;
      for (const int32_t other : cover_.set(set)) {
        if (other == node) continue;
        const auto at = std::lower_bound(scope.begin(), scope.end(), other);
        mask |= size_t{1} << (at - scope.begin());
      }
      VisitEntries(size, [&](size_t a) {
        if ((a & mask) == 0) keep_[a] = kNever;
      });
    }
    auto& take = take_[own];
    take.resize(size);
    VisitEntries(size, [&](size_t a) {
      take[a] = taking_[a] < keep_[a];
      keep_[a] = std::min(keep_[a], taking_[a]);
    });
    if (scope.empty()) {
      total_ += keep_[0];
    } else {
      tables_[FirstToGo(scope)].push_back({scope, keep_});
    }
  }

  const Cover& cover_;
  const Order& order_;
  const Stop& stop_;
  std::vector<size_t> place_;               // by node, in the order
  std::vector<std::vector<size_t>> sets_;   // by the node of the set that goes first
  std::vector<std::vector<Table>> tables_;  // by the node of the scope that goes first
  std::vector<std::vector<bool>> take_;     // by node and choice of its scope
  std::vector<uint32_t> keep_;
  std::vector<uint32_t> taking_;
  std::vector<uint32_t> index_;
  int64_t total_ = 0;
};

}  // namespace

std::optional<std::vector<int32_t>> AsLine(const Cover& cover, const Stop& stop) {
  const auto count = static_cast<size_t>(cover.nodes());
  constexpr int32_t kNone = -1;
  std::vector<std::array<int32_t, 2>> near(count, {kNone, kNone});
  size_t pairs = 0;
  for (size_t i = 0; i < cover.sets(); ++i) {
    const auto set = cover.set(i);
    if (set.size() != 2 || stop.After(kNodeWork)) return std::nullopt;
    auto& one = near[static_cast<size_t>(set[0])];
    auto& other = near[static_cast<size_t>(set[1])];
    if (one[0] == set[1] || one[1] == set[1]) continue;  // the same pair again
    if (one[1] != kNone || other[1] != kNone) return std::nullopt;
    one[one[0] == kNone ? 0 : 1] = set[1];
    other[other[0] == kNone ? 0 : 1] = set[0];
    ++pairs;
  }
  if (pairs + 1 != count) return std::nullopt;
  std::vector<int32_t> line;
  for (size_t node = 0; node < count && line.empty(); ++node) {
    if (near[node][1] == kNone) line.push_back(static_cast<int32_t>(node));
  }
  int32_t before = kNone;
  while (line.size() < count) {
    const auto& ends = near[static_cast<size_t>(line.back())];
    const int32_t next = ends[0] == before ? ends[1] : ends[0];
    if (stop.After(1)) return std::nullopt;
    if (next == kNone) return std::nullopt;  // a ring next to a shorter line
    before = line.back();
    line.push_back(next);
  }
  return line;
}

CoverAnswer SolveLine(const Cover& cover, std::span<const int32_t> line) {
  struct Rest {
    int64_t keep = 0;  // least weight from here on, if this node stays
    int64_t take = 0;
  };
  std::vector<Rest> rest(line.size());
  for (size_t i = line.size(); i-- > 0;) {
    const Rest next = i + 1 < line.size() ? rest[i + 1] : Rest{};
    rest[i] = {next.take, cover.weight(line[i]) + std::min(next.keep, next.take)};
  }
  CoverAnswer answer;
  answer.taken.assign(line.size(), 0);
  answer.weight = std::min(rest[0].keep, rest[0].take);
  answer.least = answer.weight;
  bool kept_before = false;
  for (size_t i = 0; i < line.size(); ++i) {
    const bool take = kept_before || rest[i].take < rest[i].keep;
    answer.taken[static_cast<size_t>(line[i])] = take ? 1 : 0;
    kept_before = !take;
  }
  return answer;
}

std::optional<CoverAnswer> Eliminate(const Cover& cover, int64_t& steps, const Stop& stop) {
  int64_t left = steps;
  const std::optional<Order> order = OrderOf(cover, left, stop);
  if (!order.has_value()) return std::nullopt;
  steps = left;
  return Elimination(cover, *order, stop).Run();
}

}  // namespace rowproof::chart
