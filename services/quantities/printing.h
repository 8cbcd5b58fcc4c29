// Quantities in words, in both systems of units (1 in = 25.4 mm, 1 yd = 0.9144 m, 1 oz =
// 28.349523125 g, exact by definition). The system in which the value is the rounder number comes
// first, since that is how it was typed: values are stored metric, and 186 yd would otherwise be
// printed as 170.078 m. If both are equally round, metric comes first. Thread-safe.
#ifndef ROWPROOF_SERVICES_QUANTITIES_PRINTING_H_
#define ROWPROOF_SERVICES_QUANTITIES_PRINTING_H_

#include <string>

namespace rowproof::quantities {

// `digits`: significant digits of a metric number that comes first, from 1; the number in brackets
// has three. kAllDigits: as many as distinguish the number from every other.
inline constexpr int kShownDigits = 6;
inline constexpr int kAllDigits = 17;

// "55 mm (2.17 in)" below 100 mm, "62 cm (24.4 in)" below 10 m, else "240 m (262 yd)" or
// "186 yd (170 m)".
std::string BothLengths(double mm, int digits = kShownDigits);
// "50 g (1.76 oz)".
std::string BothMasses(double g, int digits = kShownDigits);
// A count in 100 mm, as such and in 4 in (101.6 mm): "16 rows in 100 mm (16.3 in 4 in)".
std::string BothGauges(double per_100mm, const char* unit, int digits = kShownDigits);
// "14.5"; no unit.
std::string Number(double value, int digits = kShownDigits);

}  // namespace rowproof::quantities

#endif  // ROWPROOF_SERVICES_QUANTITIES_PRINTING_H_
