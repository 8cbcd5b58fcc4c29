#include "services/domain/chart/repair/tied_repair.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "services/domain/chart/repair/cover.h"
#include "services/domain/chart/row_windows.h"

namespace rowproof::chart {
namespace {

// Sets of marks are laid out in memory up to this many members, and only if that leaves steps to
// work on them.
constexpr size_t kMostMembers = 20'000'000;
constexpr size_t kStepsAMember = 8;
constexpr size_t kLeastMembers = 10'000;

// Nodes are numbers from 0; a cell can also have no mark, or a locked one.
constexpr int32_t kNoMark = -1;
constexpr int32_t kLocked = -2;

// Of some cells' nodes those that can go, each once.
void KeepRemovable(std::vector<int32_t>& nodes) {
  std::erase(nodes, kLocked);
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
}

class TiedRepair {
 public:
  TiedRepair(const RepairVariables& variables, const Stop& stop)
      : variables_(variables),
        stop_(stop),
        design_(variables.design()),
        rows_(design_.cells.rows()),
        stitches_(design_.cells.stitches()) {}

  MendedMarks Run() {
    mended_.marks = Grid(rows_, stitches_);
    for (const ColumnGroup& group : variables_.groups()) {
      if (!SolveGroup(group)) return std::move(mended_);
    }
    const int limit = variables_.options().longest_run;
    if (limit > 0) {
      lines_ = LinesOfStitches(design_, limit + 1);
      if (HasLongRun() && stop_.status().ok()) LimitRuns();
    }
    return std::move(mended_);
  }

 private:
  // Adds the group's marks to the cover; returns what its variables cost if all of these stay.
  int64_t AddNodes(const ColumnGroup& group, Cover& cover) {
    variables_.Describe(group, list_, stop_);
    node_of_.assign(list_.size(), kNoMark);
    int64_t cost = 0;
    for (const Variable& variable : list_) {
      cost += variable.is_mark() ? variable.mark_cost : variable.plain_cost;
    }
    for (int row = 1; row <= rows_; ++row) {
      if (stop_.After(group.stitches.size())) break;
      for (size_t place = 0; place < group.stitches.size(); ++place) {
        const auto index = static_cast<size_t>(group.variable(row, place));
        const Variable& variable = list_[index];
        if (node_of_[index] != kNoMark || !variable.is_mark()) continue;
        node_of_[index] = variable.locked_mark
                              ? kLocked
                              : cover.AddNode(variable.weight(), row, group.stitches[place]);
      }
    }
    return cost;
  }

  void AddPair(int32_t one, int32_t other, Cover& cover) {
    if (one == kNoMark || other == kNoMark) return;
    ROWPROOF_CHECK(one != kLocked || other != kLocked);
    pair_.assign({one, other});
    KeepRemovable(pair_);
    cover.AddSet(pair_);
  }

  // Marks one above the other; in a group of several columns most pairs come several times.
  void AddPairs(const ColumnGroup& group, Cover& cover) {
    const auto node = [&](int row, size_t place) {
      return node_of_[static_cast<size_t>(group.variable(row, place))];
    };
    for (size_t place = 0; place < group.stitches.size(); ++place) {
      if (stop_.After(rows_)) break;
      for (int row = 1; row < rows_; ++row) {
        AddPair(node(row, place), node(row + 1, place), cover);
      }
      if (variables_.limits().seam) {
        AddPair(node(design_.row_band->last, place), node(design_.row_band->first, place), cover);
      }
    }
  }

  // Calls `visit` with row, stitch and node of each cell of the group that AddNodes was called for.
  template <typename Visitor>
  void VisitCells(const ColumnGroup& group, Visitor visit) const {
    for (int row = 1; row <= rows_; ++row) {
      if (stop_.After(group.stitches.size())) break;
      for (size_t place = 0; place < group.stitches.size(); ++place) {
        visit(row, group.stitches[place],
              node_of_[static_cast<size_t>(group.variable(row, place))]);
      }
    }
  }

  // Without a limit on runs no rule joins two groups. Returns whether the work goes on.
  bool SolveGroup(const ColumnGroup& group) {
    cover_.Clear();
    const int64_t cost = AddNodes(group, cover_);
    if (!stop_.status().ok()) return false;
    AddPairs(group, cover_);
    const CoverAnswer answer = Solve(cover_, kRepairSteps, stop_);
    mended_.edits += cost + answer.weight;
    mended_.least += cost + answer.least;
    VisitCells(group, [&](int row, int stitch, int32_t node) {
      if (Stays(node, answer.taken)) mended_.marks.set(row, stitch, true);
    });
    return stop_.status().ok();
  }

  static bool Stays(int32_t node, const std::vector<uint8_t>& taken) {
    return node == kLocked || (node >= 0 && taken[static_cast<size_t>(node)] == 0);
  }

  bool HasLongRun() const {
    bool found = false;
    for (int row = 1; row <= rows_ && !found; ++row) {
      if (stop_.After(stitches_)) break;
      for (const auto& line : lines_) {
        VisitWindows(
            line, variables_.options().longest_run + 1,
            [&](int stitch) { return mended_.marks.at(row, stitch); },
            [&found](std::span<const int>) { return found = true; });
      }
    }
    return found;
  }

  int32_t& NodeAt(int row, int stitch) {
    return cells_[static_cast<size_t>(row - 1) * static_cast<size_t>(stitches_) +
                  static_cast<size_t>(stitch - 1)];
  }

  void LimitRuns() {
    cover_.Clear();
    most_members_ = std::min(
        kMostMembers,
        kLeastMembers + static_cast<size_t>(variables_.options().most_steps) / kStepsAMember);
    cells_.assign(static_cast<size_t>(rows_) * static_cast<size_t>(stitches_), kNoMark);
    int64_t cost = 0;
    for (const ColumnGroup& group : variables_.groups()) {
      cost += AddNodes(group, cover_);
      if (!stop_.status().ok()) return;
      VisitCells(group, [this](int row, int stitch, int32_t node) { NodeAt(row, stitch) = node; });
      if (cover_.members() < most_members_) AddPairs(group, cover_);
    }
    CoverAnswer best = BrokenRuns();
    if (stop_.status().ok() && AddRuns()) {
      CoverAnswer found = Solve(cover_, variables_.options().most_steps, stop_);
      best.least = found.least;
      if (found.weight < best.weight) {
        best.weight = found.weight;
        best.taken = std::move(found.taken);
      }
    }
    mended_.edits = cost + best.weight;
    mended_.least = std::max(mended_.least, cost + best.least);
    for (int row = 1; row <= rows_; ++row) {
      if (stop_.After(stitches_)) return;
      for (int stitch = 1; stitch <= stitches_; ++stitch) {
        mended_.marks.set(row, stitch, Stays(NodeAt(row, stitch), best.taken));
      }
    }
  }

  // The repair without a limit, and in each run that is too long the last mark that can go.
  CoverAnswer BrokenRuns() {
    CoverAnswer answer;
    answer.taken.assign(static_cast<size_t>(cover_.nodes()), 0);
    for (int row = 1; row <= rows_; ++row) {
      if (stop_.After(stitches_)) return answer;
      for (int stitch = 1; stitch <= stitches_; ++stitch) {
        const int32_t node = NodeAt(row, stitch);
        if (node >= 0 && !mended_.marks.at(row, stitch))
          answer.taken[static_cast<size_t>(node)] = 1;
      }
    }
    for (int row = 1; row <= rows_; ++row) {
      if (stop_.After(stitches_)) return answer;
      for (const auto& line : lines_) {
        VisitWindows(
            line, variables_.options().longest_run + 1,
            [&](int stitch) { return Stays(NodeAt(row, stitch), answer.taken); },
            [&](std::span<const int> window) {
              const auto last = std::find_if(window.rbegin(), window.rend(), [&](int stitch) {
                return NodeAt(row, stitch) != kLocked;
              });
              ROWPROOF_CHECK(last != window.rend());
              answer.taken[static_cast<size_t>(NodeAt(row, *last))] = 1;
              return false;
            });
      }
    }
    for (int32_t node = 0; node < cover_.nodes(); ++node) {
      if (answer.taken[static_cast<size_t>(node)] != 0) answer.weight += cover_.weight(node);
    }
    return answer;
  }

  // Returns whether all sets have been laid out.
  bool AddRuns() {
    // If stitches are in one line only and no cells are tied, no set occurs twice.
    const bool once = lines_.size() == 1 && lines_[0].size() == static_cast<size_t>(stitches_) &&
                      !variables_.options().symmetric();
    std::vector<std::vector<int32_t>> sets;
    std::vector<int32_t> nodes;
    for (int row = 1; row <= rows_; ++row) {
      if (stop_.After(stitches_)) return false;
      sets.clear();
      size_t members = cover_.members();
      for (const auto& line : lines_) {
        VisitWindows(
            line, variables_.options().longest_run + 1,
            [&](int stitch) { return NodeAt(row, stitch) != kNoMark; },
            [&](std::span<const int> window) {
              members += window.size();
              if (members > most_members_ || stop_.After(window.size())) return true;
              nodes.clear();
              for (const int stitch : window) nodes.push_back(NodeAt(row, stitch));
              KeepRemovable(nodes);
              if (once) {
                cover_.AddSet(nodes);
              } else {
                sets.push_back(nodes);
              }
              return true;
            });
      }
      if (members > most_members_) return false;
      std::sort(sets.begin(), sets.end());
      sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
      for (const auto& set : sets) cover_.AddSet(set);
    }
    return stop_.status().ok();
  }

  const RepairVariables& variables_;
  const Stop& stop_;
  const Design& design_;
  const int rows_;
  const int stitches_;
  MendedMarks mended_;
  Cover cover_;
  std::vector<Variable> list_;    // of the group at hand
  std::vector<int32_t> node_of_;  // by variable of the group at hand
  std::vector<int32_t> pair_;
  std::vector<std::vector<int>> lines_;
  std::vector<int32_t> cells_;  // node of each cell
  size_t most_members_ = 0;
};

}  // namespace

MendedMarks Mend(const RepairVariables& variables, const Stop& stop) {
  return TiedRepair(variables, stop).Run();
}

}  // namespace rowproof::chart
