#include "services/rpc/converters/charts/estimate.h"

#include <google/protobuf/repeated_field.h>

#include "services/rpc/converters/charts/yarn_role.h"
#include "services/rpc/converters/enum_from_proto.h"

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
    added->set_source(EnumTo<v1::UncertaintySource>(contribution.source));
    added->set_uncertainty(contribution.uncertainty);
  }
}

void SetAmounts(const estimate::ColourEstimate& colour, v1::YarnEstimate* to) {
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
  if (colour.left_over_m.has_value()) to->set_remaining_length_m(*colour.left_over_m);
}

v1::YarnEstimate YarnToProto(const estimate::ColourEstimate& colour) {
  v1::YarnEstimate to;
  to.set_role(RoleOf(colour.colour));
  to.set_plain_stitch_count(colour.plain_stitches);
  to.set_drop_stitch_count(colour.drop_stitches);
  to.set_chain_stitch_count(colour.chain_stitches);
  to.set_row_count(colour.rows);
  for (const auto& part : colour.parts) {
    auto* added = to.add_parts();
    added->set_kind(EnumTo<v1::PartKind>(part.part));
    added->set_length_mm(part.length_mm);
    added->set_share(part.share);
  }
  to.set_length_mm(colour.length_mm);
  to.set_length_uncertainty_mm(colour.length_uncertainty_mm);
  AddContributions(colour.length_contributions, to.mutable_length_contributions());
  *to.mutable_length_interval_mm() = ToProto(colour.length_interval_mm);
  to.set_length_per_stitch_mm(colour.one_stitch_more_mm);
  to.set_length_per_row_mm(colour.one_row_more_mm);
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
  *to->mutable_before_blocking() = ToProto(size.before_blocking);
  if (size.after_blocking.has_value()) {
    *to->mutable_after_blocking() = ToProto(*size.after_blocking);
  }
  to->set_fringe_width_mm(size.fringe_width_mm);
  to->set_fringe_height_mm(size.fringe_height_mm);
  to->set_width_per_stitch_mm(size.width_one_stitch_more_mm);
  to->set_height_per_row_mm(size.height_one_row_more_mm);
}

void SetRemarks(const estimate::SizeEstimate& size, v1::SizeEstimate* to) {
  for (const auto& line : size.assumed) to->add_assumptions(line);
  for (const auto& note : size.notes) {
    auto* added = to->add_notes();
    added->set_code(EnumTo<v1::EstimateNoteCode>(note.code));
    added->set_sentence(note.sentence);
  }
  for (const auto& caution : size.cautions) {
    auto* added = to->add_cautions();
    added->set_code(EnumTo<v1::CautionCode>(caution.code));
    added->set_sentence(caution.sentence);
  }
}

v1::SizeCandidate ToProto(const estimate::SizeCandidate& candidate) {
  v1::SizeCandidate to;
  to.set_stitch_repeat_count(candidate.stitch_repeats);
  to.set_row_repeat_count(candidate.row_repeats);
  to.set_stitch_count(candidate.stitches);
  to.set_row_count(candidate.rows);
  to.set_size(candidate.size);
  *to.mutable_extent() = ToProto(candidate.extent);
  to.set_width_excess_mm(candidate.width_off_mm);
  to.set_height_excess_mm(candidate.height_off_mm);
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
  for (const auto& colour : size.colours) *to.add_yarns() = YarnToProto(colour);
  SetExtents(size, &to);
  to.set_working_time_minutes(size.minutes);
  to.set_working_time_uncertainty_minutes(size.minutes_uncertainty);
  *to.mutable_working_time_interval_minutes() = ToProto(size.minutes_interval);
  AddContributions(size.minutes_contributions, to.mutable_working_time_contributions());
  to.set_woven_end_count(size.ends_to_weave_in);
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
    auto* added = to.add_methods();
    added->set_ends(static_cast<v1::Ends>(static_cast<int>(way.ends) + 1));
    added->set_fits(way.fits);
    added->set_remark(way.remark);
    for (const auto& yarn : way.yarns) {
      auto* length = added->add_yarns();
      length->set_role(RoleOf(yarn.colour));
      length->set_length_mm(yarn.length_mm);
    }
    added->set_length_mm(way.length_mm);
    added->set_woven_end_count(way.ends_to_weave_in);
    added->set_working_time_minutes(way.minutes);
    added->set_weaving_time_minutes(way.weaving_minutes);
  }
  return to;
}

v1::SizeChoice ToProto(const estimate::SizeChoice& choice) {
  v1::SizeChoice to;
  for (const auto& candidate : choice.candidates) *to.add_candidates() = ToProto(candidate);
  for (const auto& candidate : choice.of_design) *to.add_design_sizes() = ToProto(candidate);
  return to;
}

}  // namespace rowproof::rpc
