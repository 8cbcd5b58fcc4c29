// Units of the trade and exact conversions between them and the units used inside (mm, m, g, tex).
// All are exact by definition (international yard and pound agreement, 1959; NIST SP 811, appendix
// B). Thread-safe.
#ifndef ROWPROOF_SERVICES_QUANTITIES_UNITS_H_
#define ROWPROOF_SERVICES_QUANTITIES_UNITS_H_

namespace rowproof::quantities {

inline constexpr double kMmPerInch = 25.4;
inline constexpr double kMmPerYard = 914.4;
inline constexpr double kMetresPerYard = 0.9144;
inline constexpr double kGramsPerOunce = 28.349523125;
inline constexpr double kFourInchesMm = 4 * kMmPerInch;  // 101.6, which is not 100

// Linear density, g per 1000 m (ISO 1144, Tex System). Lengths and masses above zero.
constexpr double TexFromBall(double length_m, double mass_g) { return 1000.0 * mass_g / length_m; }

// Mass of a length of yarn and back.
constexpr double MassG(double length_mm, double tex) { return length_mm * tex * 1e-6; }
constexpr double LengthMm(double mass_g, double tex) { return mass_g / tex * 1e6; }

}  // namespace rowproof::quantities

#endif  // ROWPROOF_SERVICES_QUANTITIES_UNITS_H_
