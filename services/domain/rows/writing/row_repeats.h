// Where rows repeat earlier rows: what a plan of lines may choose from. The time grows with the
// rows and with the pairs of like rows that earlier rows leave open; the latter are few in a chart
// (a motif that is tiled, rows all alike: linear), at worst quadratic, and taken from the budget.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_REPEATS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_REPEATS_H_

#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include "absl/container/flat_hash_map.h"
#include "services/domain/rows/writing/shortest_form.h"

namespace rowproof::rows {

// All stretches of a row sequence, in a suffix automaton (Blumer et al., "The smallest automaton
// recognizing the subwords of a text", 1985). Not thread-safe while it is made.
class EarlierRows {
 public:
  // Rows that may be repeated, as kinds; rows that may not are numbers that no other row has.
  explicit EarlierRows(std::span<const int> source);

  // By row i of `target`: the most rows from i on that occur, in this order, entirely before row i
  // of the source. Linear.
  std::vector<int> LongestBefore(std::span<const int> target) const;

  // Where the rows first occur in the source (they do).
  int FirstOf(std::span<const int> rows) const;

 private:
  struct State {
    int length = 0;
    int link = -1;
    int first_end = 0;       // of its earliest place: index past the last row
    std::vector<int> kinds;  // that lead on from here
  };
  static uint64_t Key(int state, int kind) {
    return static_cast<uint64_t>(static_cast<uint32_t>(state)) << 32 | static_cast<uint32_t>(kind);
  }
  // -1: nowhere.
  int Next(int state, int kind) const;
  void Append(int kind, int end);
  void SetNext(int state, int kind, int next);

  std::vector<State> states_;
  absl::flat_hash_map<uint64_t, int> next_;
  int last_ = 0;
};

// A unit of rows that occurs at least twice running from a row on, up to `end` (past the last row
// that continues in the same way; the last copy may be incomplete).
struct RowSquare {
  int unit = 0;
  int end = 0;
};

// Finds squares row by row, from the last row to the first.
class RowSquares {
 public:
  explicit RowSquares(std::span<const int> rows);

  // The squares at row `at` whose unit is at most `longest` and no repeat of a shorter one, the
  // shortest first. Rows have to be asked for in descending order. Comparing uses up the budget;
  // when it runs out, nothing more is found.
  std::vector<RowSquare> At(int at, int longest, SearchBudget& budget);

 private:
  struct Stretch {
    int from = -1;  // rows from..end repeat with the unit, as far as was examined
    int end = 0;
  };
  std::span<const int> rows_;
  std::vector<std::vector<int>> alike_;  // the rows of each kind, ascending
  // By row: index of its kind's rows in alike_, and its own place among them.
  std::vector<size_t> kind_;
  std::vector<size_t> place_;
  std::vector<Stretch> stretches_;  // by unit: the one last looked at
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_REPEATS_H_
