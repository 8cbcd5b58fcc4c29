// Seeded random designs of the spike technique: bands, sizes, colour orders, forms, facings, ends,
// both conventions; cells of several characters (scattered, nearly workable, in long runs).
#ifndef ROWPROOF_TESTS_DOMAIN_CHART_RANDOM_DESIGNS_H_
#define ROWPROOF_TESTS_DOMAIN_CHART_RANDOM_DESIGNS_H_

#include <cstdint>
#include <random>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

class RandomDesigns {
 public:
  explicit RandomDesigns(uint64_t seed) : engine_(seed) {}

  // A valid design of at most `most_rows` x `most_stitches` cells before its bands are repeated.
  Design Next(int most_rows, int most_stitches);

  // The same of every technique, with up to eight colours and worked foundations too.
  Design NextOfAll(int most_rows, int most_stitches);

  // A whole number from low to high, the same on every machine.
  int Pick(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<uint64_t>(high - low + 1));
  }
  bool Chance(int percent) { return Pick(1, 100) <= percent; }

 private:
  void ChooseBandsAndSizes(Design& design);
  void ChooseColours(Design& design);
  void ChooseManyColours(Design& design);
  void ChooseTechnique(Design& design);
  void FillMarks(Design& design);
  void NameColours(Design& design);
  void Misread(Design& design);

  std::mt19937_64 engine_;
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_TESTS_DOMAIN_CHART_RANDOM_DESIGNS_H_
