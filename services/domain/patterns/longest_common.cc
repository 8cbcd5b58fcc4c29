#include "services/domain/patterns/longest_common.h"

#include <algorithm>

#include "absl/container/flat_hash_map.h"
#include "services/domain/check.h"

namespace rowproof::patterns {
namespace {

// One bit an element of `before`, for each distinct element.
class Positions {
 public:
  Positions(std::span<const uint32_t> before, size_t words) : none_(words, 0) {
    for (size_t i = 0; i < before.size(); ++i) {
      const auto [at, fresh] = offset_.try_emplace(before[i], bits_.size());
      if (fresh) bits_.resize(bits_.size() + words, 0);
      bits_[at->second + i / 64] |= uint64_t{1} << i % 64;
    }
  }
  const uint64_t* of(uint32_t element) const {
    const auto at = offset_.find(element);
    return at == offset_.end() ? none_.data() : bits_.data() + at->second;
  }

 private:
  std::vector<uint64_t> none_;
  std::vector<uint64_t> bits_;
  absl::flat_hash_map<uint32_t, size_t> offset_;
};

void Step(const uint64_t* from, const uint64_t* match, size_t words, uint64_t* to) {
  uint64_t carry = 0;
  for (size_t w = 0; w < words; ++w) {
    const uint64_t v = from[w];
    const uint64_t u = v & match[w];
    const uint64_t part = v + u;
    const uint64_t sum = part + carry;
    carry = static_cast<uint64_t>(part < v) | static_cast<uint64_t>(sum < part);
    to[w] = sum | (v & ~u);
  }
}

// Both not empty; appends pairs, offset by `skipped`, in descending order.
void Middle(std::span<const uint32_t> before, std::span<const uint32_t> after, int skipped,
            std::vector<std::pair<int, int>>& descending) {
  const size_t words = (before.size() + 63) / 64;
  const Positions positions(before, words);
  // Row 0 belongs to no element of `after`.
  std::vector<uint64_t> table((after.size() + 1) * words, ~uint64_t{0});
  for (size_t j = 0; j < after.size(); ++j) {
    Step(&table[j * words], positions.of(after[j]), words, &table[(j + 1) * words]);
  }
  const auto is_one = [&](size_t j, size_t i) {
    return (table[j * words + (i - 1) / 64] >> (i - 1) % 64 & 1) != 0;
  };
  size_t i = before.size();
  size_t j = after.size();
  while (i > 0 && j > 0) {
    if (is_one(j, i)) {
      --i;
    } else if (!is_one(j - 1, i)) {
      // The element of `after` adds nothing here.
      --j;
    } else {
      --i;
      --j;
      descending.emplace_back(skipped + static_cast<int>(i), skipped + static_cast<int>(j));
    }
  }
}

}  // namespace

std::vector<std::pair<int, int>> LongestCommonSubsequence(std::span<const uint32_t> before,
                                                          std::span<const uint32_t> after) {
  ROWPROOF_CHECK(before.size() <= kMostSequence && after.size() <= kMostSequence);
  const size_t shorter = std::min(before.size(), after.size());
  size_t head = 0;
  while (head < shorter && before[head] == after[head]) ++head;
  size_t tail = 0;
  while (tail < shorter - head &&
         before[before.size() - 1 - tail] == after[after.size() - 1 - tail]) {
    ++tail;
  }
  std::vector<std::pair<int, int>> pairs;
  pairs.reserve(shorter);
  for (size_t n = 1; n <= tail; ++n) {
    pairs.emplace_back(static_cast<int>(before.size() - n), static_cast<int>(after.size() - n));
  }
  const auto inner_before = before.subspan(head, before.size() - head - tail);
  const auto inner_after = after.subspan(head, after.size() - head - tail);
  if (!inner_before.empty() && !inner_after.empty()) {
    Middle(inner_before, inner_after, static_cast<int>(head), pairs);
  }
  for (size_t n = head; n > 0; --n) {
    pairs.emplace_back(static_cast<int>(n - 1), static_cast<int>(n - 1));
  }
  std::reverse(pairs.begin(), pairs.end());
  return pairs;
}

}  // namespace rowproof::patterns
