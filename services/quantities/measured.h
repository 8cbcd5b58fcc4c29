// Measured and estimated quantities: in the reader's system of units first, the other in brackets,
// and with no more digits than the uncertainty allows. Thread-safe.
#ifndef ROWPROOF_SERVICES_QUANTITIES_MEASURED_H_
#define ROWPROOF_SERVICES_QUANTITIES_MEASURED_H_

#include <string>

namespace rowproof::quantities {

enum class Units { kMetric, kImperial };

// Rounded to the smallest of 1, 2 and 5 times a power of ten that is at least half the standard
// uncertainty; 0: to three significant digits.
std::string Rounded(double value, double uncertainty);

// "235 m (255 yd)", "255 yd (235 m)".
std::string YarnLength(double mm, Units units, double uncertainty_mm = 0);
// "45 cm (18 in)".
std::string Extent(double mm, Units units, double uncertainty_mm = 0);
// "71 x 48 cm (28 x 19 in)"; the larger uncertainty rounds both.
std::string WidthAndHeight(double width_mm, double height_mm, Units units, double uncertainty_mm);
// "3.4 mm (0.13 in)": of a gauge or one stitch.
std::string SmallLength(double mm, Units units);
// "52 g (1.8 oz)".
std::string Mass(double g, Units units);
// "40 min", "7 1/2 h", "23 h": an estimate.
std::string WorkingTime(double minutes);
// "1 h 45 min": of a time that somebody stated, to the minute.
std::string StatedTime(double minutes);
// "210-260 m".
std::string YarnRange(double low_mm, double high_mm, Units units, double uncertainty_mm);
// "12.3".
std::string OneDecimal(double value);
double Yards(double mm);

}  // namespace rowproof::quantities

#endif  // ROWPROOF_SERVICES_QUANTITIES_MEASURED_H_
