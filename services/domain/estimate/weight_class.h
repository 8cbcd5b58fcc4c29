// Yarn weight classes.
// Source: Craft Yarn Council, Standard Yarn Weight System (guidelines; neighbouring ranges touch or
// overlap, so that a gauge does not determine a class). Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_WEIGHT_CLASS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_WEIGHT_CLASS_H_

#include <cstddef>
#include <span>

namespace rowproof::estimate {

inline constexpr int kHeaviestWeightClass = 7;

// An end that the table leaves open is 0 ("16 and larger", "5 and fewer"); the wraps of "30-40+"
// stop at 40. If editions differ the range holds them all.
struct WeightClass {
  int number = 0;
  const char* name = "";
  // Single crochet stitches in 4 in (101.6 mm); class 0 is stated in double crochet.
  double fewest_stitches_in_4_in = 0;
  double most_stitches_in_4_in = 0;
  double thinnest_hook_mm = 0;
  double thickest_hook_mm = 0;
  double fewest_wraps_per_inch = 0;
  double most_wraps_per_inch = 0;
  // Metres in 100 g that are usual (common practice, not the table's; ranges overlap). 0: open.
  double least_m_per_100g = 0;
  double most_m_per_100g = 0;
  double middle_wraps_per_inch() const { return (fewest_wraps_per_inch + most_wraps_per_inch) / 2; }
};

// All classes, 0 to 7.
std::span<const WeightClass> WeightClasses();
// nullptr if there is no such class.
const WeightClass* FindWeightClass(int number);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_WEIGHT_CLASS_H_
