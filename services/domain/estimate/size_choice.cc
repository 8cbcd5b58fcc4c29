#include "services/domain/estimate/size_choice.h"

#include <algorithm>
#include <cmath>

#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/estimate/extents.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/estimate/part_lengths.h"
#include "services/domain/status_macros.h"

namespace rowproof::estimate {
namespace {

constexpr double kSmallestTargetMm = 1;
constexpr double kLargestTargetMm = 100'000;

absl::Status CheckTarget(const Materials& materials, const SizeTarget& target) {
  if (!target.width_mm.has_value() && !target.height_mm.has_value()) {
    return MissingField("width_mm", "given, unless height_mm is");
  }
  for (const auto& [field, value] :
       {std::pair{"width_mm", target.width_mm}, std::pair{"height_mm", target.height_mm}}) {
    if (!value.has_value()) continue;
    RETURN_IF_ERROR(CheckRange(field, *value, kSmallestTargetMm, kLargestTargetMm, "mm"));
  }
  if (target.after_blocking && !materials.gauge_after_blocking.has_value()) {
    return MissingField("materials.gauge_after_blocking",
                        "given: a size is chosen by the blocked gauge");
  }
  return absl::OkStatus();
}

class SizeChooser {
 public:
  SizeChooser(const chart::Design& design, const Materials& materials, const SizeTarget& target)
      : design_(design),
        materials_(materials),
        target_(target),
        pitches_(
            PitchesOf(target.after_blocking ? *materials.gauge_after_blocking : materials.gauge)) {}

  SizeChoice Choose() const {
    SizeChoice choice;
    for (const int stitch_repeats : StitchRepeats()) {
      for (const int row_repeats : RowRepeats()) {
        choice.candidates.push_back(CandidateOf(stitch_repeats, row_repeats));
      }
    }
    for (const chart::Size& size : design_.sizes) {
      choice.of_design.push_back(CandidateOf(size.stitch_repeats, size.row_repeats));
      choice.of_design.back().size = size.name;
    }
    for (auto* list : {&choice.candidates, &choice.of_design}) {
      std::stable_sort(list->begin(), list->end(),
                       [this](const SizeCandidate& left, const SizeCandidate& right) {
                         return Distance(left) < Distance(right);
                       });
    }
    return choice;
  }

 private:
  SizeCandidate CandidateOf(int stitch_repeats, int row_repeats) const {
    SizeCandidate candidate;
    candidate.stitch_repeats = stitch_repeats;
    candidate.row_repeats = row_repeats;
    candidate.stitches = Repeated(design_.cells.stitches(), design_.stitch_band, stitch_repeats);
    candidate.rows =
        chart::WorkedRows(design_) * Repeated(design_.cells.rows(), design_.row_band, row_repeats);
    for (const chart::Size& size : design_.sizes) {
      if (size.stitch_repeats == stitch_repeats && size.row_repeats == row_repeats) {
        candidate.size = size.name;
        break;
      }
    }
    Piece piece = {design_, materials_, {}, {}};
    piece.worked.stitches = candidate.stitches;
    piece.worked.rows = candidate.rows;
    piece.whole = piece.worked;
    candidate.extent = ExtentOf(piece, pitches_);
    if (target_.width_mm.has_value()) {
      candidate.width_off_mm = candidate.extent.width_mm - *target_.width_mm;
    }
    if (target_.height_mm.has_value()) {
      candidate.height_off_mm = candidate.extent.height_mm - *target_.height_mm;
    }
    return candidate;
  }

  static int Repeated(int drawn, const std::optional<chart::Band>& band, int repeats) {
    return band.has_value() ? drawn + (repeats - 1) * band->length() : drawn;
  }

  std::vector<int> StitchRepeats() const {
    const int first = design_.sizes.front().stitch_repeats;
    if (!target_.width_mm.has_value() || !design_.stitch_band.has_value()) return {first};
    const double off_mm = CandidateOf(1, 1).width_off_mm;
    return Around(
        off_mm, design_.stitch_band->length() * pitches_.w_mm,
        MostRepeats(design_.cells.stitches(), *design_.stitch_band, chart::kMostStitches));
  }

  std::vector<int> RowRepeats() const {
    const int first = design_.sizes.front().row_repeats;
    if (!target_.height_mm.has_value() || !design_.row_band.has_value()) return {first};
    const bool odd = design_.row_band->length() % 2 == 1 && design_.row_colours.empty();
    if (odd) return {1};
    const double off_mm = CandidateOf(1, 1).height_off_mm;
    return Around(off_mm, design_.row_band->length() * chart::WorkedRows(design_) * pitches_.h_mm,
                  MostRepeats(design_.cells.rows(), *design_.row_band, chart::kMostRows));
  }

  static int MostRepeats(int drawn, const chart::Band& band, int most) {
    return std::min(chart::kMostRepeats, (most - drawn) / band.length() + 1);
  }

  // The whole numbers of repeats on both sides of the wish, if one repeat is `off_mm` too large.
  static std::vector<int> Around(double off_mm, double repeat_mm, int most) {
    const double exact = std::clamp(1 - off_mm / repeat_mm, 1.0, static_cast<double>(most));
    const int below = static_cast<int>(std::floor(exact));
    const int above = static_cast<int>(std::ceil(exact));
    return below == above ? std::vector{below} : std::vector{below, above};
  }

  double Distance(const SizeCandidate& candidate) const {
    const double width =
        target_.width_mm.has_value() ? candidate.width_off_mm / *target_.width_mm : 0;
    const double height =
        target_.height_mm.has_value() ? candidate.height_off_mm / *target_.height_mm : 0;
    return width * width + height * height;
  }

  const chart::Design& design_;
  const Materials& materials_;
  const SizeTarget& target_;
  const Pitches pitches_;
};

}  // namespace

absl::StatusOr<SizeChoice> ChooseSize(const chart::Design& design, const Materials& materials,
                                      const SizeTarget& target) {
  RETURN_IF_ERROR(chart::Validate(design));
  if (auto status = ValidateFor(design, materials); !status.ok()) {
    return UnderField(status, "materials");
  }
  RETURN_IF_ERROR(CheckTarget(materials, target));
  return SizeChooser(design, materials, target).Choose();
}

}  // namespace rowproof::estimate
