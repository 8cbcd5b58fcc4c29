// Copies a run of bits between rows of words.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_BIT_COPY_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_BIT_COPY_H_

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>

namespace rowproof::chart {

// Copies `count` bits starting at bit `from` of `source` to bit `to` of `target` (zero there).
inline void CopyBits(std::span<const uint64_t> source, size_t from, size_t count,
                     std::span<uint64_t> target, size_t to) {
  while (count > 0) {
    const size_t source_bit = from % 64;
    const size_t target_bit = to % 64;
    const size_t step = std::min({count, 64 - source_bit, 64 - target_bit});
    const uint64_t mask = step == 64 ? ~uint64_t{0} : (uint64_t{1} << step) - 1;
    target[to / 64] |= (source[from / 64] >> source_bit & mask) << target_bit;
    from += step;
    to += step;
    count -= step;
  }
}

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_BIT_COPY_H_
