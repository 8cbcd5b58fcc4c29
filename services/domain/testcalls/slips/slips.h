// Slips that are often made when measurements are written down. Each is a question back to the
// tester with a suggestion; nothing is ever changed. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_SLIPS_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_SLIPS_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "services/domain/testcalls/report.h"

namespace rowproof::testcalls {

enum class SlipCode : uint8_t {
  kInchesAsCentimetres,  // a length near expected / 2.54
  kCentimetresAsInches,  // near expected * 2.54
  kYardsAsMetres,        // near expected * 1.094; a hint only
  kMetresAsYards,        // near expected * 0.914; a hint only
  kGaugeSwapped,         // stitches given as rows and rows as stitches
  kRidgesCounted,        // ridges, stripes or chart rows in place of worked rows
  kShortSpan,            // gauge counted over less than kShortestGoodSpanMm
  kColoursSwapped,       // one colour's yarn given as another's, and that one's as its
  kYarnLeft,             // what was left in place of what was used
  kGramsAsMetres,
  kNoBallBand,     // weighed yarn whose metres per gram are not known
  kRowBehindYarn,  // yarn for the whole piece, but an early last row
  kHookLabel,      // a US hook number in place of millimetres
  kHoursAsMinutes,
  kOutOfProportion,  // far from the expected, and nothing else explains it
};
inline constexpr size_t kSlipCodes = 15;

// The project's own settings.
inline constexpr double kShortestGoodSpanMm = 50;
// Out of proportion: so many times the expected, or less than one of so many parts of it. Finished
// sizes are judged at the design's gauge, so that they may be off as far as a gauge may.
inline constexpr double kGrossYarn = 2;
inline constexpr double kGrossTime = 4;
inline constexpr double kGrossGauge = 1.5;
inline constexpr double kGrossSize = 1.5;

// How sure it is: a hint is within what makers differ by anyway.
enum class SlipStrength : uint8_t { kQuestion, kHint };

struct Slip {
  SlipCode code = SlipCode::kShortSpan;
  SlipStrength strength = SlipStrength::kQuestion;
  std::string field;                // path in Report: "yarn[0].length_m"
  std::string sentence;             // a question to the tester, with the value and the suggestion
  std::optional<double> suggested;  // in the field's unit
  bool operator==(const Slip&) const = default;
};

// What the estimate expects of this tester. A value that is not known is left out, and the checks
// that need it are not made. All above zero.
struct Expected {
  struct Colour {
    estimate::YarnColour colour = estimate::YarnColour::kA;
    double length_m = 0;                  // for the rows that the report says were worked
    double whole_length_m = 0;            // for the whole size
    std::optional<double> ball_length_m;  // of the yarn used
    std::optional<double> ball_mass_g;
    std::optional<double> tex;  // if it is not known from a ball band
    bool operator==(const Colour&) const = default;
  };
  std::vector<Colour> colours;
  std::optional<double> width_mm;                // of the whole size at the design's gauge
  std::optional<double> height_mm;               // of the rows worked
  std::optional<double> stitches_per_decimetre;  // the design's gauge
  std::optional<double> rows_per_decimetre;
  std::optional<double> hook_mm;  // the design's
  std::optional<double> minutes;  // for the rows worked
  int rows = 0;                   // worked rows of the size; 0: not known
};

// Questions in the order of the report's fields. The report must be valid.
std::vector<Slip> FindSlips(const Report& report, const Expected& expected);

// Stable code: "inches-as-centimetres", "centimetres-as-inches", "yards-as-metres",
// "metres-as-yards", "gauge-swapped", "ridges-counted", "short-span", "colours-swapped",
// "yarn-left", "grams-as-metres", "no-ball-band", "row-behind-yarn", "hook-label",
// "hours-as-minutes", "out-of-proportion".
const char* CodeName(SlipCode code);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_SLIPS_H_
