#include "services/domain/estimate/weight_class.h"

#include <array>

namespace rowproof::estimate {
namespace {

// If the table leaves an end open ("30-40+", "5 and fewer", "16 and larger") the stated number
// is taken; if editions differ (classes 6 and 7), the wider range.
constexpr std::array<WeightClass, 8> kClasses = {{
    {0, "Lace", 32, 42, 1.4, 2.25, 30, 40, 600, 0},
    {1, "Super Fine", 21, 32, 2.25, 3.5, 14, 30, 350, 600},
    {2, "Fine", 16, 20, 3.5, 4.5, 12, 18, 250, 350},
    {3, "Light", 12, 17, 4.5, 5.5, 11, 15, 200, 250},
    {4, "Medium", 11, 14, 5.5, 6.5, 9, 12, 120, 200},
    {5, "Bulky", 8, 11, 6.5, 9, 6, 9, 100, 130},
    {6, "Super Bulky", 5, 9, 9, 16, 5, 6, 0, 100},
    {7, "Jumbo", 0, 5, 15, 0, 1, 4, 0, 100},
}};

}  // namespace

std::span<const WeightClass> WeightClasses() { return kClasses; }

const WeightClass* FindWeightClass(int number) {
  if (number < 0 || number > kHeaviestWeightClass) return nullptr;
  return &kClasses[static_cast<size_t>(number)];
}

}  // namespace rowproof::estimate
