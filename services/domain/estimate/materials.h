// What one version's estimate depends on beyond the chart: yarns, hook, gauge, ends, foundation,
// border, fringe, swatch, and the project's assumptions. The same value describes a designer's
// sample and a tester's own materials. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MATERIALS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MATERIALS_H_

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/estimate/calibration/calibration_scope.h"
#include "services/domain/estimate/calibration/path_covariance.h"
#include "services/domain/estimate/gauge.h"
#include "services/domain/estimate/stitch_path.h"

namespace rowproof::estimate {

inline constexpr size_t kLongestYarnText = 200;  // bytes of UTF-8
inline constexpr int kMostBorderRounds = 200;
inline constexpr int kMostFringeStrands = 100'000;
inline constexpr double kLongestTailMm = 5'000;
inline constexpr size_t kLongestCalibrationName = 200;  // bytes

struct Yarn {
  std::string name;
  std::string fibre;                     // as on the ball band, "80 % cotton, 20 % acrylic"
  std::optional<int> weight_class;       // 0 to 7
  std::optional<double> wraps_per_inch;  // 0.5 to 100
  // The ball band; both or neither.
  std::optional<double> ball_length_m;
  std::optional<double> ball_mass_g;
  // Linear density, g/km, 1 to 100,000, if it is known otherwise than from a band; not both.
  std::optional<double> tex = std::nullopt;
  bool operator==(const Yarn&) const = default;
};

// Which yarn: of a row colour, or one that only the border or fringe has. The numbers are stored
// and never change.
enum class YarnColour : uint8_t { kA, kB, kBorder, kC, kD, kE, kF, kG, kH };
inline constexpr size_t kYarnColours = 9;
inline constexpr size_t kMostMoreYarns = 6;  // C to H
// The order of every list: A to H, then the border's.
inline constexpr std::array<YarnColour, kYarnColours> kYarnColoursAsListed = {
    YarnColour::kA, YarnColour::kB, YarnColour::kC, YarnColour::kD,     YarnColour::kE,
    YarnColour::kF, YarnColour::kG, YarnColour::kH, YarnColour::kBorder};

enum class FoundationKind : uint8_t { kChain, kWorked };
// What becomes of the tails of cut rows.
enum class TailUse : uint8_t { kEnclosed, kFringe };
enum class FringeEdge : uint8_t { kRowEnds, kFoundationAndTop };
enum class ItemKind : uint8_t { kOther, kBlanket, kWrap, kCushion, kHotPad, kBabyItem };
// Who it is for, if the designer says so.
enum class IntendedUser : uint8_t { kAnyone, kSmallChild };

struct Foundation {
  FoundationKind kind = FoundationKind::kChain;
  std::optional<chart::Colour> colour;  // row 1's if absent
  bool operator==(const Foundation&) const = default;
};

struct Border {
  int rounds = 0;
  YarnColour colour = YarnColour::kA;
  // Every round in a front and a back layer, then a closing round through both.
  bool enclosing_double = false;
  bool operator==(const Border&) const = default;
};

// Strands of one yarn, each folded once and knotted into the edge.
struct AddedFringe {
  YarnColour colour = YarnColour::kA;
  int strands = 0;
  double length_mm = 0;  // hanging length
  FringeEdge edge = FringeEdge::kFoundationAndTop;
  bool operator==(const AddedFringe&) const = default;
};

struct Swatch {
  int stitches = 0;
  int rows = 0;
  bool operator==(const Swatch&) const = default;
};

// The project's own priors: each is an assumption that a user may replace by a measurement.
struct Assumptions {
  StitchPaths paths = kPriorPaths;
  double model_relative_uncertainty = 0.12;  // of a yarn length, common to all makers
  double size_relative_uncertainty = 0.03;   // of a width or height, common to all makers
  double time_relative_uncertainty = 0.5;
  double maker_relative_spread = 0.10;  // from maker to maker at one gauge; published amounts only
  double fringe_allowance_mm = 50;      // for knot and trimming, added to a fringe's length
  double enclosed_tail_mm = 150;        // 6 in, common practice
  double stitches_per_minute = 15;
  double minutes_per_row_start = 1;
  // How well measured yarn says `paths`; absent: they are the project's own, and
  // model_relative_uncertainty covers the whole length instead of what no stitch explains.
  std::optional<PathCovariance> path_covariance = std::nullopt;
  bool operator==(const Assumptions&) const = default;
};

struct Materials {
  Yarn yarn_a;
  Yarn yarn_b;
  std::optional<Yarn> border_yarn;  // needed if the border or fringe has YarnColour::kBorder
  std::vector<Yarn> more_yarns;     // of colours C to H, in their order; kMostMoreYarns at most
  std::optional<double> hook_mm;
  Gauge gauge;  // before blocking: yarn and the size before blocking follow from it
  std::optional<Gauge> gauge_after_blocking;
  // True if the gauge was counted in another technique, facing or way of treating the ends.
  bool gauge_is_of_another_fabric = false;
  // Set if a maker treats the ends differently from the design.
  std::optional<chart::Ends> ends;
  Foundation foundation;
  TailUse tail_use = TailUse::kEnclosed;  // of cut rows
  double fringe_length_mm = 0;            // if tail_use is kFringe
  std::optional<double> tail_mm;          // length of every cut tail, in place of the default
  double slack = 0.05;                    // of the carried strand, over the row's width
  Border border;
  std::vector<AddedFringe> added_fringe;  // at most one for a yarn
  std::optional<Swatch> swatch;
  // Declared rates in place of the assumed ones.
  std::optional<double> stitches_per_minute;
  std::optional<double> minutes_per_row_start;
  double assurance = 0.95;  // probability that a published amount suffices
  ItemKind item = ItemKind::kOther;
  IntendedUser intended_user = IntendedUser::kAnyone;
  Assumptions assumptions;
  // Name of the calibration that `assumptions` came from ("calibrations/x/revisions/2" if it is
  // kept); empty: the project's priors.
  std::string calibration;
  std::optional<CalibrationScope> calibration_scope;  // what it was measured in, if that is known
  bool operator==(const Materials&) const = default;
};

// g/km from the ball band or as declared; absent without both.
std::optional<double> TexOf(const Yarn& yarn);

// The same with its standard uncertainty; if neither is known, from the middle of the weight
// class's metres in 100 g (rectangular over its range, JCGM 100:2008 4.3.7). Absent without all
// three, and for classes 0, 6 and 7, whose range is open.
struct LinearDensity {
  double tex = 0;
  double uncertainty_tex = 0;  // 0 for a ball band or a declared value, which are treated as exact
  bool assumed = false;
};
std::optional<LinearDensity> LinearDensityOf(const Yarn& yarn);

// 25.4 / WPI, from the declared wraps or else the middle of the weight class, with its standard
// uncertainty: declared wraps to the nearest half (half-width 0.25), a class's range rectangular
// (JCGM 100:2008 4.3.7). The yarn must be valid.
struct YarnDiameter {
  double mm = 0;
  double uncertainty_mm = 0;
  bool assumed = false;  // from the weight class
};
YarnDiameter DiameterOf(const Yarn& yarn);

// The yarn that a colour names; nullptr if the materials have none.
const Yarn* FindYarn(const Materials& materials, YarnColour colour);
Yarn* FindYarn(Materials& materials, YarnColour colour);
// The same, if the materials must be valid for it.
const Yarn& YarnOf(const Materials& materials, YarnColour colour);
YarnColour YarnColourOf(chart::Colour colour);
// A colour's index in kYarnColoursAsListed.
size_t PlaceAsListed(YarnColour colour);
// What rows, foundation, border and fringe of a design made so are worked in, as listed.
std::vector<YarnColour> YarnsUsed(const chart::Design& design, const Materials& materials);
// The path of the yarn in materials, by what it is for: "yarns[A]", "yarns[C]", "yarns[border]".
std::string YarnField(YarnColour colour);

// Length of the tail of a cut row, and of every other tail (woven in), mm.
double RowTailMm(const Materials& materials);
double WovenTailMm(const Materials& materials);

const char* Name(YarnColour colour);    // "A" to "H", "border"
const char* Name(FoundationKind kind);  // "chain", "worked"
const char* Name(TailUse use);          // "enclosed", "fringe"
const char* Name(FringeEdge edge);      // "row-ends", "foundation-and-top"
const char* Name(ItemKind kind);        // "other", "blanket", "wrap", "cushion", "hot-pad", ...
const char* Name(IntendedUser user);    // "anyone", "small-child"

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MATERIALS_H_
