#include "services/domain/estimate/estimate.h"

#include <algorithm>
#include <cmath>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/assumed.h"
#include "services/domain/estimate/extents.h"
#include "services/domain/estimate/part_lengths.h"
#include "services/domain/estimate/stitch_counts.h"
#include "services/domain/estimate/units.h"

namespace rowproof::estimate {
namespace {

using chart::Colour;

// Guards a quotient that is whole but for rounding against one step too many.
constexpr double kRounding = 1e-9;

double Ceiling(double value) { return std::ceil(value - kRounding); }
double RoundedUp(double value, double step) { return step * Ceiling(value / step); }

absl::Status CheckInputs(const chart::Design& design, const Making& making) {
  if (auto status = chart::Validate(design); !status.ok()) return status;
  if (auto status = Validate(making); !status.ok()) return status;
  if (design.technique == chart::Technique::kSpike) return absl::OkStatus();
  return NotSupported("technique", fmt::format("an estimate for {} is not made; accepted is spike",
                                               chart::Name(design.technique)));
}

// Joins that a length needs: n balls hold the rest and the two tails of each ball after the first.
int64_t JoinCount(double rest_mm, double ball_mm, double tail_mm) {
  const double balls = Ceiling((rest_mm - 2 * tail_mm) / (ball_mm - 2 * tail_mm));
  return balls <= 1 ? 0 : static_cast<int64_t>(balls) - 1;
}

// Fills `published_*` and `balls`; false where one passes kMostPublished.
bool Publish(const Yarn& yarn, const Making& making, ColourEstimate& colour) {
  const double spread = making.assumptions.maker_relative_spread * colour.length_mm;
  const double parts[] = {colour.length_uncertainty_mm, spread};
  colour.upper_length_mm = LogNormalUpperBound(colour.length_mm, Combined(parts), making.assurance);
  const double metres = RoundedUp(colour.upper_length_mm / 1000, 5);
  const double yards = RoundedUp(colour.upper_length_mm / 1000 / kMetresPerYard, 5);
  if (yards > kMostPublished) return false;
  colour.published_length_m = static_cast<int>(metres);
  colour.published_length_yd = static_cast<int>(yards);
  const std::optional<double> tex = TexOf(yarn);
  if (!tex.has_value()) return true;
  const double grams = Ceiling(MassG(metres * 1000, *tex));
  const double balls = Ceiling(metres / *yarn.ball_length_m);
  if (grams > kMostPublished || balls > kMostPublished) return false;
  colour.published_mass_g = static_cast<int>(grams);
  colour.balls = static_cast<int>(balls);
  return true;
}

void SetLength(const LinearLength& total, const Pitches& pitches, const YarnDiameter& diameter,
               double model, ColourEstimate& colour) {
  colour.length_mm = 0;
  for (const Part& part : colour.parts) colour.length_mm += part.length_mm;
  colour.length_contributions = {
      {UncertaintySource::kModel, model * colour.length_mm},
      {UncertaintySource::kStitchGauge, total.w * pitches.w_uncertainty_mm},
      {UncertaintySource::kRowGauge, total.h * pitches.h_uncertainty_mm},
      {UncertaintySource::kYarnDiameter, total.d * diameter.uncertainty_mm}};
  SortLargestFirst(colour.length_contributions);
  colour.length_uncertainty_mm = Combined(colour.length_contributions);
  colour.length_interval_mm =
      LogNormalInterval(colour.length_mm, colour.length_uncertainty_mm, kIntervalCoverage);
}

class SizeEstimator {
 public:
  SizeEstimator(const Piece& piece, std::string name)
      : piece_(piece),
        making_(piece.making),
        pitches_(PitchesOf(making_.gauge)),
        rows_(RowsWithFoundation(piece)) {
    estimate_.size = std::move(name);
  }

  absl::StatusOr<SizeEstimate> Make() {
    AddCounts();
    const PartLengths parts = PartsOf(piece_);
    for (const YarnColour colour : {YarnColour::kA, YarnColour::kB, YarnColour::kBorder}) {
      if (!AddColour(colour, parts[static_cast<size_t>(colour)])) {
        return OverLimit(fmt::format("yarn {}", Name(colour)),
                         fmt::format("{:g} m, g or balls", kMostPublished));
      }
    }
    estimate_.before_blocking = ExtentOf(piece_, pitches_);
    if (making_.gauge_after_blocking.has_value()) {
      estimate_.after_blocking = ExtentOf(piece_, PitchesOf(*making_.gauge_after_blocking));
    }
    estimate_.fringe_width_mm = FringeWidthMm(piece_);
    estimate_.fringe_height_mm = FringeHeightMm(piece_);
    AddTime();
    AddEnds();
    estimate_.assumed = Assumed(piece_);
    estimate_.cautions = Cautions(piece_.design, making_);
    return std::move(estimate_);
  }

 private:
  void AddCounts() {
    estimate_.stitches = piece_.worked.stitches;
    estimate_.rows = piece_.worked.rows;
    for (const ColourCounts& counts : piece_.worked.colours) {
      estimate_.plain_stitches += counts.plain;
      estimate_.drop_stitches += counts.drops;
    }
  }

  bool AddColour(YarnColour which, const std::array<LinearLength, kPartKinds>& parts) {
    LinearLength total;
    for (const LinearLength& part : parts) total += part;
    if (total == LinearLength{}) return true;
    const Yarn& yarn = YarnOf(making_, which);
    const YarnDiameter diameter = DiameterOf(yarn);
    ColourEstimate colour;
    colour.colour = which;
    if (which != YarnColour::kBorder) {
      colour.plain_stitches = piece_.worked.colours[static_cast<size_t>(which)].plain;
      colour.drop_stitches = piece_.worked.colours[static_cast<size_t>(which)].drops;
      colour.rows = rows_[static_cast<size_t>(which)].rows;
    }
    for (size_t i = 0; i < kPartKinds; ++i) {
      const double length_mm = parts[i].Mm(pitches_.w_mm, pitches_.h_mm, diameter.mm);
      if (length_mm > 0) colour.parts.push_back({static_cast<PartKind>(i), length_mm});
    }
    AddJoins(yarn, total.Mm(pitches_.w_mm, pitches_.h_mm, diameter.mm), colour);
    SetLength(total, pitches_, diameter, making_.assumptions.model_relative_uncertainty, colour);
    if (const std::optional<double> tex = TexOf(yarn); tex.has_value()) {
      colour.mass_g = MassG(colour.length_mm, *tex);
      colour.mass_uncertainty_g = MassG(colour.length_uncertainty_mm, *tex);
    }
    if (!Publish(yarn, making_, colour)) return false;
    estimate_.colours.push_back(std::move(colour));
    return true;
  }

  void AddJoins(const Yarn& yarn, double rest_mm, ColourEstimate& colour) {
    if (!yarn.ball_length_m.has_value()) return;
    const double tail_mm = WovenTailMm(making_);
    const int64_t joins = JoinCount(rest_mm, *yarn.ball_length_m * 1000, tail_mm);
    joins_ += joins;
    const double length_mm = 2 * static_cast<double>(joins) * tail_mm;
    if (length_mm > 0) colour.parts.push_back({PartKind::kJoins, length_mm});
  }

  // Foundation, border and swatch are worked at the same rate; a border round starts like a row.
  void AddTime() {
    double stitches = static_cast<double>(estimate_.plain_stitches + estimate_.drop_stitches);
    stitches += estimate_.stitches;  // of the foundation
    stitches += static_cast<double>(BorderStitches(piece_));
    double starts = rows_[0].rows + rows_[1].rows;
    starts += piece_.border_rounds() * piece_.border_layers();
    if (making_.swatch.has_value()) {
      stitches += static_cast<double>(making_.swatch->stitches) * making_.swatch->rows;
      starts += making_.swatch->rows;
    }
    const Assumptions& assumptions = making_.assumptions;
    estimate_.minutes =
        stitches / making_.stitches_per_minute.value_or(assumptions.stitches_per_minute) +
        starts * making_.minutes_per_row_start.value_or(assumptions.minutes_per_row_start);
    estimate_.minutes_uncertainty = assumptions.time_relative_uncertainty * estimate_.minutes;
  }

  // Tails that are neither fringe nor shut into a double border have to be woven in.
  void AddEnds() {
    int64_t ends = 2 * joins_;
    const bool enclosed = making_.border.enclosing_double && piece_.border_rounds() > 0;
    if (piece_.ends() != chart::Ends::kCut) {
      for (const Colour colour : {Colour::kA, Colour::kB}) ends += Uses(piece_, colour) ? 2 : 0;
    } else if (making_.tail_use == TailUse::kEnclosed && !enclosed) {
      ends += int64_t{2} * (rows_[0].rows + rows_[1].rows);
    }
    if (piece_.border_rounds() > 0) ends += int64_t{2} * piece_.border_layers();
    estimate_.ends_to_weave_in = static_cast<int>(ends);
  }

  const Piece& piece_;
  const Making& making_;
  const Pitches pitches_;
  const std::array<ColourCounts, 2> rows_;
  int64_t joins_ = 0;
  SizeEstimate estimate_;
};

absl::StatusOr<SizeEstimate> EstimatePiece(const chart::Design& design, const Making& making,
                                           const StitchCounter& counter, int size, int last_row) {
  const int rows = chart::ExpandedRows(design, size);
  Piece piece = {design, making, counter.Count(size, last_row), {}};
  piece.whole = last_row == rows ? piece.worked : counter.Count(size, rows);
  return SizeEstimator(piece, design.sizes[static_cast<size_t>(size)].name).Make();
}

}  // namespace

absl::StatusOr<std::vector<SizeEstimate>> EstimateSizes(const chart::Design& design,
                                                        const Making& making) {
  if (auto status = CheckInputs(design, making); !status.ok()) return status;
  const StitchCounter counter(design);
  std::vector<SizeEstimate> estimates;
  estimates.reserve(design.sizes.size());
  for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
    auto estimate = EstimatePiece(design, making, counter, size, chart::ExpandedRows(design, size));
    if (!estimate.ok()) return estimate.status();
    estimates.push_back(*std::move(estimate));
  }
  return estimates;
}

absl::StatusOr<SizeEstimate> EstimateRows(const chart::Design& design, int size,
                                          const Making& making, int last_row) {
  if (auto status = CheckInputs(design, making); !status.ok()) return status;
  if (size < 0 || static_cast<size_t>(size) >= design.sizes.size()) {
    return InvalidField("size", std::to_string(size),
                        fmt::format("a whole number from 0 to {}", design.sizes.size() - 1));
  }
  const int rows = chart::ExpandedRows(design, size);
  if (last_row < 1 || last_row > rows) {
    return InvalidField("last_row", std::to_string(last_row),
                        fmt::format("a row from 1 to {}", rows));
  }
  return EstimatePiece(design, making, StitchCounter(design), size, last_row);
}

const char* Name(PartKind part) {
  constexpr const char* kNames[] = {"stitches",   "tails",  "carried", "climb",  "starts",
                                    "foundation", "border", "swatch",  "fringe", "joins"};
  return kNames[static_cast<size_t>(part)];
}

const char* Name(StitchKind kind) {
  constexpr const char* kNames[] = {"ch", "sc", "ssc", "dc2", "dc3", "sl st"};
  return kNames[static_cast<size_t>(kind)];
}

}  // namespace rowproof::estimate
