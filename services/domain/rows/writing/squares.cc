#include "services/domain/rows/writing/squares.h"

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

// Bit i of a plane: that bit of symbol i.
std::vector<Bits> Planes(std::span<const uint16_t> symbols) {
  const auto most = *std::max_element(symbols.begin(), symbols.end());
  const auto count = std::max<size_t>(1, static_cast<size_t>(std::bit_width(most)));
  std::vector<Bits> planes(count, Bits((symbols.size() + 63) / 64, 0));
  for (size_t i = 0; i < symbols.size(); ++i) {
    for (size_t bit = 0; bit < count; ++bit) {
      planes[bit][i / 64] |= uint64_t{static_cast<uint64_t>(symbols[i]) >> bit & 1} << (i % 64);
    }
  }
  return planes;
}

// Bit i: symbol i equals symbol i + distance.
Bits EqualAt(const std::vector<Bits>& planes, size_t length, size_t distance) {
  Bits equal(planes[0].size(), ~uint64_t{0});
  Bits shifted(equal.size());
  for (const Bits& plane : planes) {
    std::fill(shifted.begin(), shifted.end(), ~uint64_t{0});
    AndShifted(shifted, plane, distance);
    for (size_t i = 0; i < equal.size(); ++i) equal[i] &= ~(plane[i] ^ shifted[i]);
  }
  const size_t valid = length - distance;
  for (size_t i = 0; i < equal.size(); ++i) {
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

std::vector<uint16_t> Numbered(std::span<const Element> elements) {
  std::vector<uint16_t> numbers;
  numbers.reserve(elements.size());
  std::vector<Element> kinds;
  for (const Element& element : elements) {
    const auto known = std::find(kinds.begin(), kinds.end(), element);
    numbers.push_back(static_cast<uint16_t>(known - kinds.begin()));
    if (known == kinds.end()) kinds.push_back(element);
  }
  return numbers;
}

std::vector<Square> FindSquares(std::span<const uint16_t> symbols, bool primitive_only,
                                const Stop* stop) {
  const size_t length = symbols.size();
  if (length < 4) return {};
  const std::vector<Bits> planes = Planes(symbols);
  std::vector<Bits> squares(length / 2 + 1);
  std::vector<Bits> kept(squares.size());
  for (size_t unit = 1; unit < squares.size(); ++unit) {
    if (stop != nullptr && stop->After(planes.front().size())) break;
    squares[unit] = EqualAt(planes, length, unit);
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

int PrimitiveLength(std::span<const Element> elements) {
  const size_t length = elements.size();
  ROWPROOF_CHECK(length > 0);
  for (size_t unit = 1; 2 * unit <= length; ++unit) {
    if (length % unit == 0 && std::equal(elements.begin() + static_cast<std::ptrdiff_t>(unit),
                                         elements.end(), elements.begin())) {
      return static_cast<int>(unit);
    }
  }
  return static_cast<int>(length);
}

}  // namespace rowproof::rows
