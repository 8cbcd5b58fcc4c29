// Yarn, size and time of a design, by size, with standard uncertainties, before anything was
// measured. Formulas: the parts below, each a sum of a*w + b*h + c*d + constant with stitch pitch
// w = 100/G_st, row pitch h = 100/G_row and yarn diameter d. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ESTIMATE_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ESTIMATE_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/estimate/cautions.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/estimate/notes.h"
#include "services/domain/estimate/uncertainty.h"

namespace rowproof::estimate {

// Raised whenever the same design and materials could give another estimate; stored with them.
inline constexpr int kModelVersion = 2;
inline constexpr double kIntervalCoverage = 0.95;
inline constexpr double kMostPublished = 1e8;

enum class PartKind : uint8_t {
  kStitches,    // the chart's stitches
  kTails,       // of rows
  kCarried,     // the resting colour's strand inside the other's rows
  kClimb,       // from one row of a colour to its next, along the edge (inset: chart row)
  kStarts,      // slip knot or ch 1 of each worked row; in a tube also the joining sl st
  kFoundation,  // chain or worked
  kBorder,      // with its own tails
  kSwatch,      // with its own tails
  kFringe,      // added strands
  kJoins,       // two tails for each ball after the first
};
inline constexpr size_t kPartKinds = 10;

struct Part {
  PartKind part = PartKind::kStitches;
  double length_mm = 0;
  double share = 0;  // of the yarn's length, 0 to 1
  bool operator==(const Part&) const = default;
};

// One yarn. A yarn that the size does not need is not listed.
struct ColourEstimate {
  YarnColour colour = YarnColour::kA;
  int64_t plain_stitches = 0;  // of the chart
  int64_t drop_stitches = 0;
  int64_t chain_stitches = 0;  // over skipped stitches; never counted as stitches of a row
  int rows = 0;                // worked rows of the colour, a worked foundation included
  std::vector<Part> parts;     // in the order of PartKind; parts of no length are left out
  double length_mm = 0;        // sum of the parts
  double length_uncertainty_mm = 0;
  std::vector<Contribution> length_contributions;  // mm, the largest first
  Interval length_interval_mm;
  // How the length changes with one stitch, or one row, more in 100 mm; below zero as a rule.
  double one_stitch_more_mm = 0;
  double one_row_more_mm = 0;
  // If the linear density is known, or the weight class says what is usual. A ball band is treated
  // as exact.
  std::optional<double> mass_g;
  std::optional<double> mass_uncertainty_g;
  std::optional<Interval> mass_interval_g;
  // What to print before any report: suffices for a maker at this gauge with probability
  // `assurance` (log-normal; standard uncertainty and the spread between makers in quadrature),
  // rounded up to 5 m and, apart, to 5 yd; the mass of published_length_m to a whole gram, up,
  // if the density is known (and not only usual for its class); balls if the band is.
  double upper_length_mm = 0;  // not rounded
  int published_length_m = 0;
  int published_length_yd = 0;
  std::optional<int> published_mass_g;
  std::optional<int> balls;           // for published_length_m
  std::optional<double> left_over_m;  // of those balls, if length_mm is used
  bool operator==(const ColourEstimate&) const = default;
};

struct Extent {
  double width_mm = 0;  // tube: circumference
  double width_uncertainty_mm = 0;
  double height_mm = 0;
  double height_uncertainty_mm = 0;
  Interval width_interval_mm;
  Interval height_interval_mm;
  std::vector<Contribution> width_contributions;  // mm, the largest first
  std::vector<Contribution> height_contributions;
  bool operator==(const Extent&) const = default;
};

struct SizeEstimate {
  std::string size;
  int stitches = 0;
  int rows = 0;  // worked rows of the chart
  int64_t plain_stitches = 0;
  int64_t drop_stitches = 0;
  int64_t chain_stitches = 0;
  std::vector<ColourEstimate> colours;  // A to H, border
  // Including border and fringe; the part that is fringe is given separately.
  Extent before_blocking;
  std::optional<Extent> after_blocking;
  double fringe_width_mm = 0;
  double fringe_height_mm = 0;
  // How the size before blocking changes with one stitch, or one row, more in 100 mm.
  double width_one_stitch_more_mm = 0;
  double height_one_row_more_mm = 0;
  double minutes = 0;  // of work, without rests
  double minutes_uncertainty = 0;
  Interval minutes_interval;
  std::vector<Contribution> minutes_contributions;
  int ends_to_weave_in = 0;
  std::optional<double> hook_mm;
  std::string hook_us_label;         // "I-9"; empty if no hook is named so
  std::string calibration;           // resource name of the one used; empty: the priors
  std::vector<std::string> assumed;  // a sentence each
  std::vector<Note> notes;           // contradictions
  std::vector<Caution> cautions;
  bool operator==(const SizeEstimate&) const = default;
};

// Every size of the design, in its order. INVALID_ARGUMENT if the design or the materials are
// not valid for it ("gauge.rows_per_decimetre", relative to its struct); RESOURCE_EXHAUSTED if
// one yarn passes kMostPublished metres, grams or balls. A design that is unworkable is estimated
// as drawn.
absl::StatusOr<std::vector<SizeEstimate>> EstimateSizes(const chart::Design& design,
                                                        const Materials& materials);

// One size (index into design.sizes), and only its worked rows 1..last_row, as if the piece ended
// there: what a maker who stopped early should have used. Below the size's last row there is
// neither border nor added fringe. INVALID_ARGUMENT also for "size" and "last_row" (1 to the size's
// rows).
absl::StatusOr<SizeEstimate> EstimateRows(const chart::Design& design, int size,
                                          const Materials& materials, int last_row);

// The same without words (assumed, notes, cautions), for what only reckons with the figures.
absl::StatusOr<SizeEstimate> EstimateFigures(const chart::Design& design, int size,
                                             const Materials& materials, int last_row);

// EstimateRows for all rows of the size.
absl::StatusOr<SizeEstimate> EstimateSize(const chart::Design& design, int size,
                                          const Materials& materials);

const char* Name(PartKind part);  // "stitches", "tails", "carried", ...

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ESTIMATE_H_
