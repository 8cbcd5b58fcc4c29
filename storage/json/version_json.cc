#include "storage/json/version_json.h"

#include "storage/json/json_reader.h"
#include "storage/json/json_text.h"

namespace rowproof::storage {

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::Interval> auto& interval) {
  a.Field("low", interval.low);
  a.Field("high", interval.high);
  a.Field("coverage", interval.coverage);
}

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::Contribution> auto& contribution) {
  a.Field("source", contribution.source);
  a.Field("uncertainty", contribution.uncertainty);
}

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::Part> auto& part) {
  a.Field("part", part.part);
  a.Field("length_mm", part.length_mm);
  a.Later("share", part.share);
}

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::ColourEstimate> auto& colour) {
  a.Field("colour", colour.colour);
  a.Field("plain_stitches", colour.plain_stitches);
  a.Field("drop_stitches", colour.drop_stitches);
  a.Later("chain_stitches", colour.chain_stitches);
  a.Field("rows", colour.rows);
  a.Field("parts", colour.parts);
  a.Field("length_mm", colour.length_mm);
  a.Field("length_uncertainty_mm", colour.length_uncertainty_mm);
  a.Field("length_contributions", colour.length_contributions);
  a.Field("length_low_mm", colour.length_interval_mm.low);
  a.Field("length_high_mm", colour.length_interval_mm.high);
  a.Field("length_coverage", colour.length_interval_mm.coverage);
  a.Later("one_stitch_more_mm", colour.one_stitch_more_mm);
  a.Later("one_row_more_mm", colour.one_row_more_mm);
  a.Field("upper_length_mm", colour.upper_length_mm);
  a.Field("published_length_m", colour.published_length_m);
  a.Field("published_length_yd", colour.published_length_yd);
  a.Field("mass_g", colour.mass_g);
  a.Field("mass_uncertainty_g", colour.mass_uncertainty_g);
  a.Field("published_mass_g", colour.published_mass_g);
  a.Field("balls", colour.balls);
  a.Field("left_over_m", colour.left_over_m);
  a.Field("mass_interval_g", colour.mass_interval_g);
}

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::Extent> auto& extent) {
  a.Field("width_mm", extent.width_mm);
  a.Field("width_uncertainty_mm", extent.width_uncertainty_mm);
  a.Field("height_mm", extent.height_mm);
  a.Field("height_uncertainty_mm", extent.height_uncertainty_mm);
  a.Later("width_interval_mm", extent.width_interval_mm);
  a.Later("height_interval_mm", extent.height_interval_mm);
  a.Field("width_contributions", extent.width_contributions);
  a.Field("height_contributions", extent.height_contributions);
}

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::Note> auto& note) {
  a.Field("code", note.code);
  a.Field("sentence", note.sentence);
}

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::Caution> auto& caution) {
  a.Field("code", caution.code);
  a.Field("sentence", caution.sentence);
}

template <typename Archive>
void Fields(Archive& a, StructOf<estimate::SizeEstimate> auto& size) {
  a.Field("size", size.size);
  a.Field("stitches", size.stitches);
  a.Field("rows", size.rows);
  a.Field("plain_stitches", size.plain_stitches);
  a.Field("drop_stitches", size.drop_stitches);
  a.Later("chain_stitches", size.chain_stitches);
  a.Field("colours", size.colours);
  a.Field("before_blocking", size.before_blocking);
  a.Field("fringe_width_mm", size.fringe_width_mm);
  a.Field("fringe_height_mm", size.fringe_height_mm);
  a.Later("width_one_stitch_more_mm", size.width_one_stitch_more_mm);
  a.Later("height_one_row_more_mm", size.height_one_row_more_mm);
  a.Field("minutes", size.minutes);
  a.Field("minutes_uncertainty", size.minutes_uncertainty);
  a.Later("minutes_interval", size.minutes_interval);
  a.Later("minutes_contributions", size.minutes_contributions);
  a.Field("ends_to_weave_in", size.ends_to_weave_in);
  a.Later("hook_us_label", size.hook_us_label);
  a.Later("calibration", size.calibration);
  a.Field("assumed", size.assumed);
  a.Later("notes", size.notes);
  a.Field("cautions", size.cautions);
  a.Field("hook_mm", size.hook_mm);
  a.Field("after_blocking", size.after_blocking);
}

template <typename Archive>
void Fields(Archive& a, StructOf<chart::Edit> auto& edit) {
  a.Field("row", edit.row);
  a.Field("stitch", edit.stitch);
  a.Field("value", edit.value);
  a.Field("colour", edit.colour);
}

template <typename Archive>
void Fields(Archive& a, StructOf<chart::Finding> auto& finding) {
  a.Field("code", finding.code);
  a.Field("severity", finding.severity);
  a.Field("row", finding.row);
  a.Field("stitch", finding.stitch);
  a.Field("last_stitch", finding.last_stitch);
  a.Numbered("seam", finding.seam);
  a.Field("size", finding.size);
  a.Field("size_count", finding.size_count);
  a.Field("edit", finding.edit);
}

// The totals by severity have columns of their own.
template <typename Archive>
void Fields(Archive& a, StructOf<chart::CheckResult> auto& check) {
  a.Field("findings", check.findings);
  a.template Counts<chart::FindingCode>("code_counts", check.code_counts);
}

std::string FindingsToJson(const chart::CheckResult& check) {
  JsonText out;
  out.Value(check);
  return out.Text();
}

std::string EstimatesToJson(const std::vector<estimate::SizeEstimate>& estimates) {
  JsonText out;
  out.Value(estimates);
  return out.Text();
}

void FindingsFromJson(const std::string& text, chart::CheckResult* check) {
  const auto json = JsonReader::Parse(text);
  if (!json.is_array()) return JsonReader::Read(json, *check);
  // Versions checked by the first rules have the list alone.
  JsonReader::Read(json, check->findings);
  check->code_counts = {};
  for (const auto& finding : check->findings) {
    ++check->code_counts[static_cast<size_t>(finding.code)];
  }
}

std::vector<estimate::SizeEstimate> EstimatesFromJson(const std::string& text) {
  std::vector<estimate::SizeEstimate> estimates;
  JsonReader::Read(JsonReader::Parse(text), estimates);
  return estimates;
}

}  // namespace rowproof::storage
