#include "services/domain/estimate/estimate.h"

#include <algorithm>
#include <cmath>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/extents.h"
#include "services/domain/estimate/hook_labels.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/estimate/part_lengths.h"
#include "services/domain/estimate/purchase.h"
#include "services/domain/estimate/stitch_counts.h"
#include "services/domain/estimate/stitch_shares.h"
#include "services/domain/status_macros.h"
#include "services/quantities/units.h"

namespace rowproof::estimate {
namespace {

absl::Status CheckInputs(const chart::Design& design, const Materials& materials) {
  RETURN_IF_ERROR(chart::Validate(design));
  return ValidateFor(design, materials);
}

// 100 mm over the gauge plus one.
double WithOneMore(double pitch_mm) { return 100 / (100 / pitch_mm + 1); }

class SizeEstimator {
 public:
  SizeEstimator(const Piece& piece, std::string name)
      : piece_(piece),
        materials_(piece.materials),
        pitches_(PitchesOf(materials_.gauge)),
        rows_(RowsWithFoundation(piece)) {
    if (materials_.assumptions.path_covariance.has_value()) shares_ = StitchSharesOf(piece);
    estimate_.size = std::move(name);
  }

  absl::StatusOr<SizeEstimate> Make(bool with_words) {
    AddCounts();
    const PartLengths parts = PartsOf(piece_);
    for (const YarnColour colour : kYarnColoursAsListed) {
      if (!AddColour(colour, parts[static_cast<size_t>(colour)])) {
        return OverLimit(fmt::format("the estimate of yarn {}", Name(colour)),
                         fmt::format("{:g} m, g or balls", kMostPublished));
      }
    }
    AddExtents();
    AddTime();
    AddEnds();
    estimate_.hook_mm = materials_.hook_mm;
    if (materials_.hook_mm.has_value()) estimate_.hook_us_label = HookUsLabel(*materials_.hook_mm);
    estimate_.calibration = materials_.calibration;
    if (with_words) {
      estimate_.assumed = Assumed(piece_);
      estimate_.notes = Notes(piece_.design, materials_);
      estimate_.cautions = Cautions(piece_.design, materials_);
    }
    return std::move(estimate_);
  }

 private:
  void AddCounts() {
    estimate_.stitches = piece_.worked.stitches;
    estimate_.rows = piece_.worked.rows;
    for (const ColourCounts& counts : piece_.worked.colours) {
      estimate_.plain_stitches += counts.plain;
      estimate_.drop_stitches += counts.drops;
      estimate_.chain_stitches += counts.chains;
    }
  }

  bool AddColour(YarnColour which, const std::array<LinearLength, kPartKinds>& parts) {
    LinearLength total;
    for (const LinearLength& part : parts) total += part;
    if (total == LinearLength{}) return true;
    const Yarn& yarn = YarnOf(materials_, which);
    const YarnDiameter diameter = DiameterOf(yarn);
    ColourEstimate colour;
    colour.colour = which;
    for (const chart::Colour row_colour : kRowColours) {
      if (YarnColourOf(row_colour) != which) continue;
      const auto index = static_cast<size_t>(row_colour);
      colour.plain_stitches = piece_.worked.colours[index].plain;
      colour.drop_stitches = piece_.worked.colours[index].drops;
      colour.chain_stitches = piece_.worked.colours[index].chains;
      colour.rows = rows_[index].rows;
    }
    for (size_t i = 0; i < kPartKinds; ++i) {
      const double length_mm = parts[i].Mm(pitches_.w_mm, pitches_.h_mm, diameter.mm);
      if (length_mm > 0) colour.parts.push_back({static_cast<PartKind>(i), length_mm, 0});
    }
    const double length_mm = total.Mm(pitches_.w_mm, pitches_.h_mm, diameter.mm);
    const double joins_mm = JoinsMm(yarn, length_mm, &joins_);
    if (joins_mm > 0) colour.parts.push_back({PartKind::kJoins, joins_mm, 0});
    SetLength(total, diameter, colour);
    const auto changed_by = [&](double w_mm, double h_mm) {
      const double changed_mm = total.Mm(w_mm, h_mm, diameter.mm);
      return changed_mm + JoinsMm(yarn, changed_mm, nullptr) - colour.length_mm;
    };
    colour.one_stitch_more_mm = changed_by(WithOneMore(pitches_.w_mm), pitches_.h_mm);
    colour.one_row_more_mm = changed_by(pitches_.w_mm, WithOneMore(pitches_.h_mm));
    SetMass(yarn, colour);
    if (!Publish(yarn, materials_, colour)) return false;
    estimate_.colours.push_back(std::move(colour));
    return true;
  }

  double JoinsMm(const Yarn& yarn, double length_mm, int64_t* joins) const {
    if (!yarn.ball_length_m.has_value()) return 0;
    const double tail_mm = WovenTailMm(materials_);
    const int64_t needed = JoinCount(length_mm, *yarn.ball_length_m * 1000, tail_mm);
    if (joins != nullptr) *joins += needed;
    return 2 * static_cast<double>(needed) * tail_mm;
  }

  void SetLength(const LinearLength& total, const YarnDiameter& diameter, ColourEstimate& colour) {
    colour.length_mm = 0;
    for (const Part& part : colour.parts) colour.length_mm += part.length_mm;
    for (Part& part : colour.parts) part.share = part.length_mm / colour.length_mm;
    const double model = materials_.assumptions.model_relative_uncertainty;
    double uncalibrated_mm = colour.length_mm;
    if (const auto& covariance = materials_.assumptions.path_covariance; covariance.has_value()) {
      const StitchShare& share = shares_[static_cast<size_t>(colour.colour)];
      const double stitches_mm = StitchesMm(materials_.assumptions.paths, share.stitches,
                                            {pitches_.w_mm, pitches_.h_mm, diameter.mm});
      uncalibrated_mm = std::max(0.0, colour.length_mm - stitches_mm);
      colour.length_contributions.push_back(
          {UncertaintySource::kCalibration,
           StitchesUncertaintyMm(*covariance, share.stitches,
                                 {pitches_.w_mm, pitches_.h_mm, diameter.mm})});
    }
    const Contribution others[] = {
        {UncertaintySource::kModel, model * uncalibrated_mm},
        {UncertaintySource::kStitchGauge, total.w * pitches_.w_uncertainty_mm},
        {UncertaintySource::kRowGauge, total.h * pitches_.h_uncertainty_mm},
        {UncertaintySource::kYarnDiameter, total.d * diameter.uncertainty_mm}};
    colour.length_contributions.insert(colour.length_contributions.end(), std::begin(others),
                                       std::end(others));
    SortLargestFirst(colour.length_contributions);
    colour.length_uncertainty_mm = Combined(colour.length_contributions);
    colour.length_interval_mm =
        LogNormalInterval(colour.length_mm, colour.length_uncertainty_mm, kIntervalCoverage);
  }

  // Length and density are independent: their relative uncertainties add in quadrature.
  void SetMass(const Yarn& yarn, ColourEstimate& colour) {
    const std::optional<LinearDensity> density = LinearDensityOf(yarn);
    if (!density.has_value()) return;
    colour.mass_g = quantities::MassG(colour.length_mm, density->tex);
    const double parts[] = {quantities::MassG(colour.length_uncertainty_mm, density->tex),
                            quantities::MassG(colour.length_mm, density->uncertainty_tex)};
    colour.mass_uncertainty_g = Combined(parts);
    colour.mass_interval_g =
        LogNormalInterval(*colour.mass_g, *colour.mass_uncertainty_g, kIntervalCoverage);
  }

  void AddExtents() {
    estimate_.before_blocking = ExtentOf(piece_, pitches_);
    if (materials_.gauge_after_blocking.has_value()) {
      estimate_.after_blocking = ExtentOf(piece_, PitchesOf(*materials_.gauge_after_blocking));
    }
    estimate_.fringe_width_mm = FringeWidthMm(piece_);
    estimate_.fringe_height_mm = FringeHeightMm(piece_);
    Pitches more = pitches_;
    more.w_mm = WithOneMore(pitches_.w_mm);
    estimate_.width_one_stitch_more_mm =
        ExtentOf(piece_, more).width_mm - estimate_.before_blocking.width_mm;
    more = pitches_;
    more.h_mm = WithOneMore(pitches_.h_mm);
    estimate_.height_one_row_more_mm =
        ExtentOf(piece_, more).height_mm - estimate_.before_blocking.height_mm;
  }

  // Chains over skipped stitches, foundation, border and swatch are worked at the same rate; a
  // border round starts like a row.
  void AddTime() {
    double stitches = static_cast<double>(estimate_.plain_stitches + estimate_.drop_stitches +
                                          estimate_.chain_stitches);
    stitches += estimate_.stitches;  // of the foundation
    stitches += static_cast<double>(BorderStitches(piece_));
    double starts = 0;
    for (const ColourCounts& colour : rows_) starts += colour.rows;
    starts += piece_.border_rounds() * piece_.border_layers();
    if (materials_.swatch.has_value()) {
      stitches += static_cast<double>(materials_.swatch->stitches) * materials_.swatch->rows;
      starts += materials_.swatch->rows;
    }
    const Assumptions& assumptions = materials_.assumptions;
    estimate_.minutes =
        stitches / materials_.stitches_per_minute.value_or(assumptions.stitches_per_minute) +
        starts * materials_.minutes_per_row_start.value_or(assumptions.minutes_per_row_start);
    estimate_.minutes_uncertainty = assumptions.time_relative_uncertainty * estimate_.minutes;
    estimate_.minutes_contributions = {{UncertaintySource::kRate, estimate_.minutes_uncertainty}};
    estimate_.minutes_interval =
        LogNormalInterval(estimate_.minutes, estimate_.minutes_uncertainty, kIntervalCoverage);
  }

  // Tails that are neither fringe nor enclosed in a double border have to be woven in.
  void AddEnds() {
    int64_t ends = 2 * joins_;
    const bool enclosed = materials_.border.enclosing_double && piece_.border_rounds() > 0;
    for (const chart::Colour colour : kRowColours) {
      if (piece_.ends() != chart::Ends::kCut) {
        ends += Uses(piece_, colour) ? 2 : 0;
      } else if (materials_.tail_use == TailUse::kEnclosed && !enclosed) {
        ends += int64_t{2} * rows_[static_cast<size_t>(colour)].rows;
      }
    }
    if (piece_.border_rounds() > 0) ends += int64_t{2} * piece_.border_layers();
    estimate_.ends_to_weave_in = static_cast<int>(ends);
  }

  const Piece& piece_;
  const Materials& materials_;
  const Pitches pitches_;
  const std::array<ColourCounts, chart::kMostColours> rows_;
  StitchShares shares_ = {};  // if the paths are calibrated
  int64_t joins_ = 0;
  SizeEstimate estimate_;
};

int WorkedRowsOf(const chart::Design& design, int size) {
  return chart::WorkedRows(design) * chart::ExpandedRows(design, size);
}

absl::StatusOr<SizeEstimate> EstimatePiece(const chart::Design& design, const Materials& materials,
                                           const StitchCounter& counter, int size, int last_row,
                                           bool with_words = true) {
  const int rows = WorkedRowsOf(design, size);
  Piece piece = {design, materials, counter.Count(size, last_row), {}};
  piece.whole = last_row == rows ? piece.worked : counter.Count(size, rows);
  return SizeEstimator(piece, design.sizes[static_cast<size_t>(size)].name).Make(with_words);
}

absl::Status CheckSize(const chart::Design& design, int size) {
  if (size >= 0 && static_cast<size_t>(size) < design.sizes.size()) return absl::OkStatus();
  return InvalidField("size", std::to_string(size),
                      fmt::format("a whole number from 0 to {}", design.sizes.size() - 1));
}

absl::StatusOr<SizeEstimate> EstimateUpTo(const chart::Design& design, int size,
                                          const Materials& materials, int last_row,
                                          bool with_words) {
  RETURN_IF_ERROR(CheckInputs(design, materials));
  RETURN_IF_ERROR(CheckSize(design, size));
  const int rows = WorkedRowsOf(design, size);
  if (last_row < 1 || last_row > rows) {
    return InvalidField("last_row", std::to_string(last_row),
                        fmt::format("a row from 1 to {}", rows));
  }
  return EstimatePiece(design, materials, StitchCounter(design), size, last_row, with_words);
}

}  // namespace

absl::StatusOr<std::vector<SizeEstimate>> EstimateSizes(const chart::Design& design,
                                                        const Materials& materials) {
  RETURN_IF_ERROR(CheckInputs(design, materials));
  const StitchCounter counter(design);
  std::vector<SizeEstimate> estimates;
  estimates.reserve(design.sizes.size());
  for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
    ASSIGN_OR_RETURN(auto estimate,
                     EstimatePiece(design, materials, counter, size, WorkedRowsOf(design, size)));
    estimates.push_back(std::move(estimate));
  }
  return estimates;
}

absl::StatusOr<SizeEstimate> EstimateRows(const chart::Design& design, int size,
                                          const Materials& materials, int last_row) {
  return EstimateUpTo(design, size, materials, last_row, true);
}

absl::StatusOr<SizeEstimate> EstimateFigures(const chart::Design& design, int size,
                                             const Materials& materials, int last_row) {
  return EstimateUpTo(design, size, materials, last_row, false);
}

absl::StatusOr<SizeEstimate> EstimateSize(const chart::Design& design, int size,
                                          const Materials& materials) {
  RETURN_IF_ERROR(CheckInputs(design, materials));
  RETURN_IF_ERROR(CheckSize(design, size));
  return EstimatePiece(design, materials, StitchCounter(design), size, WorkedRowsOf(design, size));
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
