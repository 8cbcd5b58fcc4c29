// Longest common subsequence of two sequences of numbers, exact. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_LONGEST_COMMON_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_LONGEST_COMMON_H_

#include <cstdint>
#include <span>
#include <utility>
#include <vector>

namespace rowproof::patterns {

// Limit of each sequence: keeps memory near kMostSequence^2 / 4 bytes.
inline constexpr size_t kMostSequence = 10'000;

// Pairs of indices (from 0) of equal elements, ascending in both. Equal beginnings and ends are
// always paired. At most kMostSequence elements each (a bug otherwise).
// Source: bit-parallel recurrence of H. Hyyro, "Bit-parallel LCS-length computation revisited"
// (AWOCA 2004): V' = (V + (V & M)) | (V & ~M), a zero bit standing for one more common element.
std::vector<std::pair<int, int>> LongestCommonSubsequence(std::span<const uint32_t> before,
                                                          std::span<const uint32_t> after);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_LONGEST_COMMON_H_
