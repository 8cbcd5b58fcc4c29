#include "services/domain/rows/writing/row_repeats.h"

#include <algorithm>

#include "services/domain/rows/index.h"

namespace rowproof::rows {
EarlierRows::EarlierRows(std::span<const int> source) {
  states_.reserve(2 * source.size() + 1);
  states_.emplace_back();
  int end = 0;
  for (const int kind : source) Append(kind, ++end);
}

int EarlierRows::Next(int state, int kind) const {
  const auto found = next_.find(Key(state, kind));
  return found == next_.end() ? -1 : found->second;
}

void EarlierRows::SetNext(int state, int kind, int next) {
  const auto [found, added] = next_.insert_or_assign(Key(state, kind), next);
  if (added) states_[Index(state)].kinds.push_back(kind);
}

void EarlierRows::Append(int kind, int end) {
  const int added = static_cast<int>(states_.size());
  states_.push_back({states_[Index(last_)].length + 1, 0, end, {}});
  int state = last_;
  last_ = added;
  for (; state >= 0 && Next(state, kind) < 0; state = states_[Index(state)].link) {
    SetNext(state, kind, added);
  }
  if (state < 0) return;
  const int next = Next(state, kind);
  if (states_[Index(next)].length == states_[Index(state)].length + 1) {
    states_[Index(added)].link = next;
    return;
  }
  // Shorter stretches of `next` have a place more from now on: a state of their own.
  const int clone = static_cast<int>(states_.size());
  states_.push_back(states_[Index(next)]);
  states_[Index(clone)].length = states_[Index(state)].length + 1;
  states_[Index(clone)].kinds.clear();
  const std::vector<int> kinds = states_[Index(next)].kinds;
  for (const int on : kinds) SetNext(clone, on, Next(next, on));
  for (; state >= 0 && Next(state, kind) == next; state = states_[Index(state)].link) {
    SetNext(state, kind, clone);
  }
  states_[Index(next)].link = clone;
  states_[Index(added)].link = clone;
}

std::vector<int> EarlierRows::LongestBefore(std::span<const int> target) const {
  std::vector<int> longest(target.size(), 0);
  int state = 0;
  int length = 0;
  for (int i = 0; i < static_cast<int>(target.size()); ++i) {
    while (i + length < static_cast<int>(target.size())) {
      const int next = Next(state, target[Index(i + length)]);
      if (next < 0 || states_[Index(next)].first_end > i) break;
      state = next;
      ++length;
    }
    longest[Index(i)] = length;
    if (length == 0) continue;
    --length;
    while (state > 0 && states_[Index(states_[Index(state)].link)].length >= length) {
      state = states_[Index(state)].link;
    }
  }
  return longest;
}

int EarlierRows::FirstOf(std::span<const int> rows) const {
  int state = 0;
  for (const int kind : rows) {
    state = Next(state, kind);
    ROWPROOF_CHECK(state >= 0);
  }
  return states_[Index(state)].first_end - static_cast<int>(rows.size());
}

RowSquares::RowSquares(std::span<const int> rows)
    : rows_(rows), kind_(rows.size()), place_(rows.size()), stretches_(rows.size() + 1) {
  absl::flat_hash_map<int, size_t> kinds;
  for (size_t i = 0; i < rows.size(); ++i) {
    kind_[i] = kinds.try_emplace(rows[i], alike_.size()).first->second;
    if (kind_[i] == alike_.size()) alike_.emplace_back();
    place_[i] = alike_[kind_[i]].size();
    alike_[kind_[i]].push_back(static_cast<int>(i));
  }
}

std::vector<RowSquare> RowSquares::At(int at, int longest, SearchBudget& budget) {
  const int count = static_cast<int>(rows_.size());
  const std::vector<int>& alike = alike_[kind_[Index(at)]];
  std::vector<RowSquare> squares;
  // A longer unit that begins again within a stretch, a unit of the stretch before its end, is a
  // repeat of the stretch's unit (Fine and Wilf, "Uniqueness theorems for periodic functions",
  // 1965).
  int first_copy = at + 1;
  auto next = alike.begin() + static_cast<std::ptrdiff_t>(place_[Index(at)]) + 1;
  for (; next != alike.end(); ++next) {
    next = std::lower_bound(next, alike.end(), first_copy);
    if (next == alike.end()) break;
    const int copy = *next;
    const int unit = copy - at;
    if (unit > longest || at + 2 * unit > count) break;
    if (!budget.Take(1)) {
      budget.RunOut();
      break;
    }
    Stretch& stretch = stretches_[Index(unit)];
    if (stretch.from != at + 1) {
      int end = copy + 1;
      while (end < count && rows_[Index(end)] == rows_[Index(end - unit)]) ++end;
      budget.Take(end - copy);
      stretch.end = end;
    }
    stretch.from = at;
    if (stretch.end >= at + 2 * unit) {
      squares.push_back({unit, stretch.end});
      first_copy = stretch.end - unit + 1;
    }
  }
  return squares;
}

}  // namespace rowproof::rows
