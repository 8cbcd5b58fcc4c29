// Where a row says something twice in succession: the places where a bracket can start.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SQUARES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SQUARES_H_

#include <cstdint>
#include <span>
#include <vector>

#include "services/domain/rows/instructions.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

// symbols[start, start + unit) equals symbols[start + unit, start + 2 * unit). From 0.
struct Square {
  int start = 0;
  int unit = 0;
  // Index of the square of the same unit that starts one unit earlier, so that there are three
  // copies; -1 if there is none.
  int previous = -1;
  bool operator==(const Square&) const = default;
};

// Elements numbered 0, 1, ... in the order of their first occurrence; equal numbers are equal
// elements.
std::vector<uint16_t> Numbered(std::span<const Element> elements);

// All squares whose unit holds more than one kind of symbol, by start, then by unit. With
// `primitive_only`, none whose unit is itself a repeat of a shorter one (at most O(n log n) remain:
// Crochemore and Rytter, "Squares, cubes, and time-space efficient string searching", 1995).
// Bit-parallel: O(n^2 (log n + log kinds) / 64) word operations. Thread-safe.
// Not all if the work has to stop.
std::vector<Square> FindSquares(std::span<const uint16_t> symbols, bool primitive_only,
                                const Stop* stop = nullptr);

// Length of the shortest unit of which the elements are a repeat; their own length if there is
// none shorter. The elements are not empty.
int PrimitiveLength(std::span<const Element> elements);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SQUARES_H_
