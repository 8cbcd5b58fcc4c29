#include "services/domain/rows/squares.h"

#include <algorithm>
#include <bit>

namespace rowproof::rows {
namespace {

using Bits = std::vector<uint64_t>;

// target &= source >> shift; bits past the end are zero.
void AndShifted(Bits& target, const Bits& source, size_t shift) {
  const size_t whole = shift / 64;
  const unsigned part = static_cast<unsigned>(shift % 64);
  for (size_t i = 0; i < target.size(); ++i) {
    uint64_t word = 0;
    if (i + whole < source.size()) {
      word = source[i + whole] >> part;
      if (part != 0 && i + whole + 1 < source.size()) word |= source[i + whole + 1] << (64 - part);
    }
    target[i] &= word;
  }
}

bool Any(const Bits& bits) {
  return std::any_of(bits.begin(), bits.end(), [](uint64_t word) { return word != 0; });
}

// Keeps the bits that start `length` set bits, `stride` apart. By doubling; ascending words, so
// that a shift to the right may read the vector that it writes.
void KeepStartsOfRuns(Bits& bits, size_t length, size_t stride) {
  for (size_t have = 1; have < length && Any(bits);) {
    const size_t step = std::min(have, length - have);
    AndShifted(bits, bits, step * stride);
    have += step;
  }
}

// Bit i: stitch i equals stitch i + distance.
Bits EqualAt(const Bits& row, size_t length, size_t distance) {
  Bits equal(row.size(), ~uint64_t{0});
  Bits shifted(row.size(), ~uint64_t{0});
  AndShifted(shifted, row, distance);
  const size_t valid = length - distance;
  for (size_t i = 0; i < equal.size(); ++i) {
    equal[i] = ~(row[i] ^ shifted[i]);
    if (64 * i >= valid) {
      equal[i] = 0;
    } else if (valid - 64 * i < 64) {
      equal[i] &= (uint64_t{1} << (valid - 64 * i)) - 1;
    }
  }
  return equal;
}

// Clears the squares of `unit` whose unit is a repeat: for some prime r dividing it, r copies of
// unit / r, which is r - 1 squares of that length one after another.
void ClearRepeats(Bits& found, const std::vector<Bits>& squares, size_t unit) {
  size_t rest = unit;
  for (size_t prime = 2; rest > 1; ++prime) {
    if (prime * prime > rest) prime = rest;
    if (rest % prime != 0) continue;
    while (rest % prime == 0) rest /= prime;
    Bits repeats = squares[unit / prime];
    KeepStartsOfRuns(repeats, prime - 1, unit / prime);
    for (size_t i = 0; i < found.size(); ++i) found[i] &= ~repeats[i];
  }
}

// The squares that are kept, one bit set a unit, by start.
std::vector<Square> ByStart(const std::vector<Bits>& kept, size_t length) {
  std::vector<Square> squares;
  std::vector<std::vector<int>> units(length);
  for (size_t unit = 2; unit < kept.size(); ++unit) {
    for (size_t i = 0; i < kept[unit].size(); ++i) {
      for (uint64_t word = kept[unit][i]; word != 0; word &= word - 1) {
        units[64 * i + static_cast<size_t>(std::countr_zero(word))].push_back(
            static_cast<int>(unit));
      }
    }
  }
  // The square one unit earlier was appended while `start` was smaller: find it by binary search.
  std::vector<size_t> offset(length + 1, 0);
  for (size_t start = 0; start < length; ++start) {
    offset[start] = squares.size();
    for (const int unit : units[start]) {
      Square square{static_cast<int>(start), unit, -1};
      if (const int before = square.start - unit; before >= 0) {
        const auto& list = units[static_cast<size_t>(before)];
        const auto at = std::lower_bound(list.begin(), list.end(), unit);
        if (at != list.end() && *at == unit) {
          square.previous = static_cast<int>(offset[static_cast<size_t>(before)] +
                                             static_cast<size_t>(at - list.begin()));
        }
      }
      squares.push_back(square);
    }
  }
  return squares;
}

}  // namespace

std::vector<Square> FindSquares(std::span<const Stitch> stitches, bool primitive_only) {
  const size_t length = stitches.size();
  if (length < 4) return {};
  Bits row((length + 63) / 64, 0);
  for (size_t i = 0; i < length; ++i) {
    if (stitches[i] == Stitch::kDrop) row[i / 64] |= uint64_t{1} << (i % 64);
  }
  std::vector<Bits> squares(length / 2 + 1);
  std::vector<Bits> kept(squares.size());
  for (size_t unit = 1; unit < squares.size(); ++unit) {
    squares[unit] = EqualAt(row, length, unit);
    KeepStartsOfRuns(squares[unit], unit, 1);
    if (unit == 1) continue;
    if (!Any(squares[unit])) continue;
    kept[unit] = squares[unit];
    if (primitive_only) {
      ClearRepeats(kept[unit], squares, unit);
    } else {
      Bits uniform = squares[1];
      KeepStartsOfRuns(uniform, unit - 1, 1);
      for (size_t i = 0; i < uniform.size(); ++i) kept[unit][i] &= ~uniform[i];
    }
  }
  return ByStart(kept, length);
}

int PrimitiveLength(std::span<const Stitch> stitches) {
  const size_t length = stitches.size();
  ROWPROOF_CHECK(length > 0);
  for (size_t unit = 1; 2 * unit <= length; ++unit) {
    if (length % unit == 0 && std::equal(stitches.begin() + static_cast<std::ptrdiff_t>(unit),
                                         stitches.end(), stitches.begin())) {
      return static_cast<int>(unit);
    }
  }
  return static_cast<int>(length);
}

}  // namespace rowproof::rows
