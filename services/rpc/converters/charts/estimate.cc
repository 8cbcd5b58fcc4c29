#include "services/rpc/converters/charts/estimate.h"

#include <google/protobuf/repeated_field.h>

namespace rowproof::rpc {
namespace {

v1::Interval ToProto(const estimate::Interval& interval) {
  v1::Interval to;
  to.set_low(interval.low);
  to.set_high(interval.high);
  to.set_coverage(interval.coverage);
  return to;
}

void AddContributions(const std::vector<estimate::Contribution>& contributions,
                      google::protobuf::RepeatedPtrField<v1::Contribution>* to) {
  for (const auto& contribution : contributions) {
    auto* added = to->Add();
    added->set_source(estimate::Name(contribution.source));
    added->set_uncertainty(contribution.uncertainty);
  }
}

void SetAmounts(const estimate::ColourEstimate& colour, v1::ColourEstimate* to) {
  if (colour.mass_g.has_value()) to->set_mass_g(*colour.mass_g);
  if (colour.mass_uncertainty_g.has_value()) {
    to->set_mass_uncertainty_g(*colour.mass_uncertainty_g);
  }
  if (colour.mass_interval_g.has_value()) {
    *to->mutable_mass_interval_g() = ToProto(*colour.mass_interval_g);
  }
  to->set_upper_length_mm(colour.upper_length_mm);
  to->set_published_length_m(colour.published_length_m);
  to->set_published_length_yd(colour.published_length_yd);
  if (colour.published_mass_g.has_value()) to->set_published_mass_g(*colour.published_mass_g);
  if (colour.balls.has_value()) to->set_ball_count(*colour.balls);
  if (colour.left_over_m.has_value()) to->set_left_over_m(*colour.left_over_m);
}

v1::ColourEstimate ColourToProto(const estimate::ColourEstimate& colour) {
  v1::ColourEstimate to;
  to.set_colour(estimate::Name(colour.colour));
  to.set_plain_stitch_count(colour.plain_stitches);
  to.set_drop_stitch_count(colour.drop_stitches);
  to.set_chain_stitch_count(colour.chain_stitches);
  to.set_row_count(colour.rows);
  for (const auto& part : colour.parts) {
    auto* added = to.add_parts();
    added->set_part(estimate::Name(part.part));
    added->set_length_mm(part.length_mm);
    added->set_share(part.share);
  }
  to.set_length_mm(colour.length_mm);
  to.set_length_uncertainty_mm(colour.length_uncertainty_mm);
  AddContributions(colour.length_contributions, to.mutable_length_contributions());
  to.set_length_low_mm(colour.length_interval_mm.low);
  to.set_length_high_mm(colour.length_interval_mm.high);
  to.set_length_coverage(colour.length_interval_mm.coverage);
  to.set_one_stitch_more_mm(colour.one_stitch_more_mm);
  to.set_one_row_more_mm(colour.one_row_more_mm);
  SetAmounts(colour, &to);
  return to;
}

v1::Extent ToProto(const estimate::Extent& extent) {
  v1::Extent to;
  to.set_width_mm(extent.width_mm);
  to.set_width_uncertainty_mm(extent.width_uncertainty_mm);
  to.set_height_mm(extent.height_mm);
  to.set_height_uncertainty_mm(extent.height_uncertainty_mm);
  *to.mutable_width_interval_mm() = ToProto(extent.width_interval_mm);
  *to.mutable_height_interval_mm() = ToProto(extent.height_interval_mm);
  AddContributions(extent.width_contributions, to.mutable_width_contributions());
  AddContributions(extent.height_contributions, to.mutable_height_contributions());
  return to;
}

void SetExtents(const estimate::SizeEstimate& size, v1::SizeEstimate* to) {
  const v1::Extent before = ToProto(size.before_blocking);
  to->set_width_mm(before.width_mm());
  to->set_width_uncertainty_mm(before.width_uncertainty_mm());
  to->set_height_mm(before.height_mm());
  to->set_height_uncertainty_mm(before.height_uncertainty_mm());
  *to->mutable_width_interval_mm() = before.width_interval_mm();
  *to->mutable_height_interval_mm() = before.height_interval_mm();
  *to->mutable_width_contributions() = before.width_contributions();
  *to->mutable_height_contributions() = before.height_contributions();
  if (size.after_blocking.has_value()) {
    *to->mutable_after_blocking() = ToProto(*size.after_blocking);
  }
  to->set_fringe_width_mm(size.fringe_width_mm);
  to->set_fringe_height_mm(size.fringe_height_mm);
  to->set_width_one_stitch_more_mm(size.width_one_stitch_more_mm);
  to->set_height_one_row_more_mm(size.height_one_row_more_mm);
}

void SetRemarks(const estimate::SizeEstimate& size, v1::SizeEstimate* to) {
  for (const auto& line : size.assumed) to->add_assumed(line);
  for (const auto& note : size.notes) {
    auto* added = to->add_notes();
    added->set_code(estimate::CodeName(note.code));
    added->set_sentence(note.sentence);
  }
  for (const auto& caution : size.cautions) {
    auto* added = to->add_cautions();
    added->set_code(estimate::CodeName(caution.code));
    added->set_sentence(caution.sentence);
  }
}

v1::SizeCandidate ToProto(const estimate::SizeCandidate& candidate) {
  v1::SizeCandidate to;
  to.set_stitch_repeats(candidate.stitch_repeats);
  to.set_row_repeats(candidate.row_repeats);
  to.set_stitch_count(candidate.stitches);
  to.set_row_count(candidate.rows);
  to.set_size(candidate.size);
  *to.mutable_extent() = ToProto(candidate.extent);
  to.set_width_off_mm(candidate.width_off_mm);
  to.set_height_off_mm(candidate.height_off_mm);
  return to;
}

}  // namespace

v1::SizeEstimate ToProto(const estimate::SizeEstimate& size) {
  v1::SizeEstimate to;
  to.set_size(size.size);
  to.set_stitch_count(size.stitches);
  to.set_row_count(size.rows);
  to.set_plain_stitch_count(size.plain_stitches);
  to.set_drop_stitch_count(size.drop_stitches);
  to.set_chain_stitch_count(size.chain_stitches);
  for (const auto& colour : size.colours) *to.add_colours() = ColourToProto(colour);
  SetExtents(size, &to);
  to.set_minutes(size.minutes);
  to.set_minutes_uncertainty(size.minutes_uncertainty);
  *to.mutable_minutes_interval() = ToProto(size.minutes_interval);
  AddContributions(size.minutes_contributions, to.mutable_minutes_contributions());
  to.set_ends_to_weave_in_count(size.ends_to_weave_in);
  if (size.hook_mm.has_value()) to.set_hook_mm(*size.hook_mm);
  to.set_hook_us_label(size.hook_us_label);
  to.set_calibration(size.calibration);
  SetRemarks(size, &to);
  return to;
}

v1::EndsComparison ToProto(const std::string& size, const std::vector<estimate::EndsMethod>& ways,
                           double minutes_per_end) {
  v1::EndsComparison to;
  to.set_size(size);
  to.set_minutes_per_end(minutes_per_end);
  for (const auto& way : ways) {
    auto* added = to.add_ways();
    added->set_ends(static_cast<v1::Ends>(static_cast<int>(way.ends) + 1));
    added->set_fits(way.fits);
    added->set_remark(way.remark);
    for (const auto& yarn : way.yarns) {
      auto* length = added->add_yarns();
      length->set_colour(estimate::Name(yarn.colour));
      length->set_length_mm(yarn.length_mm);
    }
    added->set_length_mm(way.length_mm);
    added->set_ends_to_weave_in_count(way.ends_to_weave_in);
    added->set_minutes(way.minutes);
    added->set_weaving_minutes(way.weaving_minutes);
  }
  return to;
}

v1::SizeChoice ToProto(const estimate::SizeChoice& choice) {
  v1::SizeChoice to;
  for (const auto& candidate : choice.candidates) *to.add_candidates() = ToProto(candidate);
  for (const auto& candidate : choice.of_design) *to.add_of_design() = ToProto(candidate);
  return to;
}

}  // namespace rowproof::rpc
