// Check takes at most four bits a cell beside the chart, counted at the heap. A program of its own:
// the counting slows whatever allocates.
#include <malloc.h>

#include <atomic>
#include <cstdlib>
#include <new>

#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "tests/domain/chart/random_designs.h"

namespace {

std::atomic<size_t> held{0};
std::atomic<size_t> most_held{0};

void* Take(size_t size) {
  void* const memory = std::malloc(size);
  if (memory == nullptr) std::abort();
  const size_t now = held += malloc_usable_size(memory);
  size_t most = most_held;
  while (now > most && !most_held.compare_exchange_weak(most, now)) {
  }
  return memory;
}

void Give(void* memory) {
  held -= malloc_usable_size(memory);
  std::free(memory);
}

}  // namespace

void* operator new(size_t size) { return Take(size); }
void* operator new[](size_t size) { return Take(size); }
void operator delete(void* memory) noexcept { Give(memory); }
void operator delete[](void* memory) noexcept { Give(memory); }
void operator delete(void* memory, size_t) noexcept { Give(memory); }
void operator delete[](void* memory, size_t) noexcept { Give(memory); }

namespace rowproof::chart {
namespace {

constexpr int kSide = 1000;
constexpr size_t kFourBitsACell = size_t{kSide} * kSide * 4 / 8;

// The most that was held at a time during a check, the result among it, beyond what was before.
size_t HeldByCheck(const Design& design, CheckResult* result) {
  const size_t before = held;
  most_held = before;
  *result = Check(design);
  return most_held - before;
}

// Marks where `wished`, never above another, from row 3 on; the edges are plain.
template <typename Wished>
Design MadeOf(Wished wished) {
  Design design;
  design.convention = Convention::kWorking;
  design.cells = Grid(kSide, kSide);
  for (int row = 3; row <= kSide; ++row) {
    for (int stitch = 2; stitch < kSide; ++stitch) {
      design.cells.set(row, stitch, !design.cells.at(row - 1, stitch) && wished(row, stitch));
    }
  }
  return design;
}

TEST(MemoryOfACheck, IsAtMostFourBitsACellForAWorkableChart) {
  RandomDesigns random(3);
  Design design = MadeOf([&](int, int) { return random.Chance(33); });
  for (const Technique technique : {Technique::kSpike, Technique::kOverlay, Technique::kInset}) {
    design.technique = technique;
    design.ends = technique == Technique::kInset ? Ends::kWaiting : Ends::kCut;
    CheckResult result;
    const size_t bytes = HeldByCheck(design, &result);
    EXPECT_TRUE(result.workable());
    EXPECT_LE(bytes, kFourBitsACell);
    EXPECT_GT(bytes, 1000U);  // the count counts
    RecordProperty(std::string("bytes_") + Name(technique), static_cast<int>(bytes));
  }
}

TEST(MemoryOfACheck, IsAtMostFourBitsACellForManyWarnings) {
  Design design = MadeOf([](int row, int stitch) { return row % 2 == 1 && stitch % 8 != 0; });
  design.ends = Ends::kCarried;
  CheckResult result;
  EXPECT_LE(HeldByCheck(design, &result), kFourBitsACell);
  EXPECT_GT(result.warning_count, 50'000);
}

TEST(MemoryOfACheck, IsAtMostFourBitsACellForAnUnworkableChartInManySizes) {
  RandomDesigns random(4);
  Design design = MadeOf([&](int, int) { return random.Chance(50); });
  for (int row = 1; row <= kSide; ++row) {
    for (int stitch = 1; stitch <= kSide; stitch += 3) design.cells.set(row, stitch, true);
  }
  design.row_band = Band{101, 900};
  design.stitch_band = Band{101, 900};
  design.sizes.clear();
  for (int size = 1; size <= 4; ++size) design.sizes.push_back({std::to_string(size), size, size});
  design.ends = Ends::kCarried;
  CheckResult result;
  EXPECT_LE(HeldByCheck(design, &result), kFourBitsACell);
  EXPECT_GT(result.error_count, 100'000);
}

}  // namespace
}  // namespace rowproof::chart
