#include "storage/json/version_json.h"

#include <nlohmann/json.hpp>
#include <optional>

#include "services/domain/check.h"
#include "storage/json/json_text.h"
#include "storage/stored_enum.h"

namespace rowproof::storage {
namespace {

using Json = nlohmann::json;

constexpr size_t kUncertaintySources = 6;

template <typename T>
void TakeOptional(const Json& json, const char* key, std::optional<T>& value) {
  if (json.contains(key)) value = json.at(key).get<T>();
}

// A field that estimates of an earlier model do not have keeps its default.
template <typename T>
void TakeIfThere(const Json& json, const char* key, T& value) {
  if (json.contains(key)) json.at(key).get_to(value);
}

estimate::Interval IntervalFrom(const Json& json) {
  return {json.at("low").get<double>(), json.at("high").get<double>(),
          json.at("coverage").get<double>()};
}

void TakeIfThere(const Json& json, const char* key, estimate::Interval& interval) {
  if (json.contains(key)) interval = IntervalFrom(json.at(key));
}

std::vector<estimate::Contribution> ContributionsFrom(const Json& json) {
  std::vector<estimate::Contribution> contributions;
  for (const Json& entry : json) {
    contributions.push_back({EnumFrom<estimate::UncertaintySource>(
                                 entry.at("source").get<std::string>(), kUncertaintySources,
                                 [](estimate::UncertaintySource s) { return estimate::Name(s); }),
                             entry.at("uncertainty").get<double>()});
  }
  return contributions;
}

estimate::ColourEstimate ColourFrom(const Json& json) {
  estimate::ColourEstimate colour;
  colour.colour =
      EnumFrom<estimate::YarnColour>(json.at("colour").get<std::string>(), estimate::kYarnColours,
                                     [](estimate::YarnColour c) { return estimate::Name(c); });
  json.at("plain_stitches").get_to(colour.plain_stitches);
  json.at("drop_stitches").get_to(colour.drop_stitches);
  json.at("rows").get_to(colour.rows);
  TakeIfThere(json, "chain_stitches", colour.chain_stitches);
  for (const Json& part : json.at("parts")) {
    estimate::Part read;
    read.part =
        EnumFrom<estimate::PartKind>(part.at("part").get<std::string>(), estimate::kPartKinds,
                                     [](estimate::PartKind p) { return estimate::Name(p); });
    part.at("length_mm").get_to(read.length_mm);
    TakeIfThere(part, "share", read.share);
    colour.parts.push_back(read);
  }
  json.at("length_mm").get_to(colour.length_mm);
  json.at("length_uncertainty_mm").get_to(colour.length_uncertainty_mm);
  colour.length_contributions = ContributionsFrom(json.at("length_contributions"));
  json.at("length_low_mm").get_to(colour.length_interval_mm.low);
  json.at("length_high_mm").get_to(colour.length_interval_mm.high);
  json.at("length_coverage").get_to(colour.length_interval_mm.coverage);
  json.at("upper_length_mm").get_to(colour.upper_length_mm);
  json.at("published_length_m").get_to(colour.published_length_m);
  json.at("published_length_yd").get_to(colour.published_length_yd);
  TakeOptional(json, "mass_g", colour.mass_g);
  TakeOptional(json, "mass_uncertainty_g", colour.mass_uncertainty_g);
  TakeOptional(json, "published_mass_g", colour.published_mass_g);
  TakeOptional(json, "balls", colour.balls);
  TakeOptional(json, "left_over_m", colour.left_over_m);
  TakeIfThere(json, "one_stitch_more_mm", colour.one_stitch_more_mm);
  TakeIfThere(json, "one_row_more_mm", colour.one_row_more_mm);
  if (json.contains("mass_interval_g")) {
    colour.mass_interval_g = IntervalFrom(json.at("mass_interval_g"));
  }
  return colour;
}

estimate::Extent ExtentFrom(const Json& json) {
  estimate::Extent extent;
  json.at("width_mm").get_to(extent.width_mm);
  json.at("width_uncertainty_mm").get_to(extent.width_uncertainty_mm);
  json.at("height_mm").get_to(extent.height_mm);
  json.at("height_uncertainty_mm").get_to(extent.height_uncertainty_mm);
  TakeIfThere(json, "width_interval_mm", extent.width_interval_mm);
  TakeIfThere(json, "height_interval_mm", extent.height_interval_mm);
  extent.width_contributions = ContributionsFrom(json.at("width_contributions"));
  extent.height_contributions = ContributionsFrom(json.at("height_contributions"));
  return extent;
}

estimate::SizeEstimate SizeFrom(const Json& json) {
  estimate::SizeEstimate size;
  json.at("size").get_to(size.size);
  json.at("stitches").get_to(size.stitches);
  json.at("rows").get_to(size.rows);
  json.at("plain_stitches").get_to(size.plain_stitches);
  json.at("drop_stitches").get_to(size.drop_stitches);
  for (const Json& colour : json.at("colours")) size.colours.push_back(ColourFrom(colour));
  size.before_blocking = ExtentFrom(json.at("before_blocking"));
  if (json.contains("after_blocking")) size.after_blocking = ExtentFrom(json.at("after_blocking"));
  json.at("fringe_width_mm").get_to(size.fringe_width_mm);
  json.at("fringe_height_mm").get_to(size.fringe_height_mm);
  json.at("minutes").get_to(size.minutes);
  json.at("minutes_uncertainty").get_to(size.minutes_uncertainty);
  json.at("ends_to_weave_in").get_to(size.ends_to_weave_in);
  TakeIfThere(json, "chain_stitches", size.chain_stitches);
  TakeIfThere(json, "width_one_stitch_more_mm", size.width_one_stitch_more_mm);
  TakeIfThere(json, "height_one_row_more_mm", size.height_one_row_more_mm);
  TakeIfThere(json, "minutes_interval", size.minutes_interval);
  if (json.contains("minutes_contributions")) {
    size.minutes_contributions = ContributionsFrom(json.at("minutes_contributions"));
  }
  TakeOptional(json, "hook_mm", size.hook_mm);
  TakeIfThere(json, "hook_us_label", size.hook_us_label);
  TakeIfThere(json, "calibration", size.calibration);
  json.at("assumed").get_to(size.assumed);
  if (json.contains("notes")) {
    for (const Json& note : json.at("notes")) {
      size.notes.push_back(
          {EnumFrom<estimate::NoteCode>(note.at("code").get<std::string>(), estimate::kNoteCodes,
                                        [](estimate::NoteCode c) { return estimate::CodeName(c); }),
           note.at("sentence").get<std::string>()});
    }
  }
  for (const Json& caution : json.at("cautions")) {
    size.cautions.push_back({EnumFrom<estimate::CautionCode>(
                                 caution.at("code").get<std::string>(), estimate::kCautionCodes,
                                 [](estimate::CautionCode c) { return estimate::CodeName(c); }),
                             caution.at("sentence").get<std::string>()});
  }
  return size;
}

chart::Edit EditFrom(const Json& json) {
  chart::Edit edit;
  json.at("row").get_to(edit.row);
  json.at("stitch").get_to(edit.stitch);
  json.at("value").get_to(edit.value);
  if (json.contains("colour")) {
    edit.colour = EnumFrom<chart::Colour>(json.at("colour").get<std::string>(), chart::kMostColours,
                                          [](chart::Colour c) { return chart::Name(c); });
  }
  return edit;
}

chart::Finding FindingFrom(const Json& json) {
  chart::Finding finding;
  ROWPROOF_CHECK(chart::ParseCode(json.at("code").get<std::string>(), &finding.code));
  finding.severity =
      EnumFrom<chart::Severity>(json.at("severity").get<std::string>(), kSeverities,
                                [](chart::Severity s) { return chart::SeverityName(s); });
  json.at("row").get_to(finding.row);
  json.at("stitch").get_to(finding.stitch);
  json.at("last_stitch").get_to(finding.last_stitch);
  finding.seam = static_cast<chart::Seam>(json.at("seam").get<int>());
  json.at("size").get_to(finding.size);
  json.at("size_count").get_to(finding.size_count);
  if (json.contains("edit")) finding.edit = EditFrom(json.at("edit"));
  return finding;
}

}  // namespace
}  // namespace rowproof::storage

// What is written of each struct. JsonText finds it in the struct's own namespace, where it does
// not look into unnamed ones.
namespace rowproof::estimate {
static void Add(storage::JsonText& out, const Interval& interval) {
  out.Open('{');
  out.Put("low", interval.low);
  out.Put("high", interval.high);
  out.Put("coverage", interval.coverage);
  out.Close('}');
}

static void Add(storage::JsonText& out, const Contribution& contribution) {
  out.Open('{');
  out.Put("source", Name(contribution.source));
  out.Put("uncertainty", contribution.uncertainty);
  out.Close('}');
}

static void Add(storage::JsonText& out, const Part& part) {
  out.Open('{');
  out.Put("part", Name(part.part));
  out.Put("length_mm", part.length_mm);
  out.Put("share", part.share);
  out.Close('}');
}

static void Add(storage::JsonText& out, const ColourEstimate& colour) {
  out.Open('{');
  out.Put("colour", Name(colour.colour));
  out.Put("plain_stitches", colour.plain_stitches);
  out.Put("drop_stitches", colour.drop_stitches);
  out.Put("chain_stitches", colour.chain_stitches);
  out.Put("rows", colour.rows);
  out.Put("parts", colour.parts);
  out.Put("length_mm", colour.length_mm);
  out.Put("length_uncertainty_mm", colour.length_uncertainty_mm);
  out.Put("length_contributions", colour.length_contributions);
  out.Put("length_low_mm", colour.length_interval_mm.low);
  out.Put("length_high_mm", colour.length_interval_mm.high);
  out.Put("length_coverage", colour.length_interval_mm.coverage);
  out.Put("one_stitch_more_mm", colour.one_stitch_more_mm);
  out.Put("one_row_more_mm", colour.one_row_more_mm);
  out.Put("upper_length_mm", colour.upper_length_mm);
  out.Put("published_length_m", colour.published_length_m);
  out.Put("published_length_yd", colour.published_length_yd);
  out.Put("mass_g", colour.mass_g);
  out.Put("mass_uncertainty_g", colour.mass_uncertainty_g);
  out.Put("published_mass_g", colour.published_mass_g);
  out.Put("balls", colour.balls);
  out.Put("left_over_m", colour.left_over_m);
  out.Put("mass_interval_g", colour.mass_interval_g);
  out.Close('}');
}

static void Add(storage::JsonText& out, const Extent& extent) {
  out.Open('{');
  out.Put("width_mm", extent.width_mm);
  out.Put("width_uncertainty_mm", extent.width_uncertainty_mm);
  out.Put("height_mm", extent.height_mm);
  out.Put("height_uncertainty_mm", extent.height_uncertainty_mm);
  out.Put("width_interval_mm", extent.width_interval_mm);
  out.Put("height_interval_mm", extent.height_interval_mm);
  out.Put("width_contributions", extent.width_contributions);
  out.Put("height_contributions", extent.height_contributions);
  out.Close('}');
}

// A note or a caution.
template <typename Said>
requires requires(const Said& said) {
  CodeName(said.code);
  said.sentence;
}
static void Add(storage::JsonText& out, const Said& said) {
  out.Open('{');
  out.Put("code", CodeName(said.code));
  out.Put("sentence", said.sentence);
  out.Close('}');
}

static void Add(storage::JsonText& out, const SizeEstimate& size) {
  out.Open('{');
  out.Put("size", size.size);
  out.Put("stitches", size.stitches);
  out.Put("rows", size.rows);
  out.Put("plain_stitches", size.plain_stitches);
  out.Put("drop_stitches", size.drop_stitches);
  out.Put("chain_stitches", size.chain_stitches);
  out.Put("colours", size.colours);
  out.Put("before_blocking", size.before_blocking);
  out.Put("fringe_width_mm", size.fringe_width_mm);
  out.Put("fringe_height_mm", size.fringe_height_mm);
  out.Put("width_one_stitch_more_mm", size.width_one_stitch_more_mm);
  out.Put("height_one_row_more_mm", size.height_one_row_more_mm);
  out.Put("minutes", size.minutes);
  out.Put("minutes_uncertainty", size.minutes_uncertainty);
  out.Put("minutes_interval", size.minutes_interval);
  out.Put("minutes_contributions", size.minutes_contributions);
  out.Put("ends_to_weave_in", size.ends_to_weave_in);
  out.Put("hook_us_label", size.hook_us_label);
  out.Put("calibration", size.calibration);
  out.Put("assumed", size.assumed);
  out.Put("notes", size.notes);
  out.Put("cautions", size.cautions);
  out.Put("hook_mm", size.hook_mm);
  out.Put("after_blocking", size.after_blocking);
  out.Close('}');
}

}  // namespace rowproof::estimate

namespace rowproof::chart {
static void Add(storage::JsonText& out, const Edit& edit) {
  out.Open('{');
  out.Put("row", edit.row);
  out.Put("stitch", edit.stitch);
  out.Put("value", edit.value);
  if (edit.colour.has_value()) out.Put("colour", Name(*edit.colour));
  out.Close('}');
}

static void Add(storage::JsonText& out, const Finding& finding) {
  out.Open('{');
  out.Put("code", CodeName(finding.code));
  out.Put("severity", SeverityName(finding.severity));
  out.Put("row", finding.row);
  out.Put("stitch", finding.stitch);
  out.Put("last_stitch", finding.last_stitch);
  out.Put("seam", static_cast<int>(finding.seam));
  out.Put("size", finding.size);
  out.Put("size_count", finding.size_count);
  out.Put("edit", finding.edit);
  out.Close('}');
}

}  // namespace rowproof::chart

namespace rowproof::storage {

std::string FindingsToJson(const chart::CheckResult& check) {
  JsonText out;
  out.Open('{');
  out.Put("findings", check.findings);
  out.Key("code_counts");
  out.Open('{');
  for (size_t i = 0; i < chart::kFindingCodes; ++i) {
    if (check.code_counts[i] == 0) continue;
    out.Put(chart::CodeName(static_cast<chart::FindingCode>(i)), check.code_counts[i]);
  }
  out.Close('}');
  out.Close('}');
  return out.Text();
}

std::string EstimatesToJson(const std::vector<estimate::SizeEstimate>& estimates) {
  JsonText out;
  out.Value(estimates);
  return out.Text();
}

void FindingsFromJson(const std::string& json, chart::CheckResult* check) {
  const Json read = Json::parse(json);
  // Versions checked by the first rules have the list alone.
  const bool list_alone = read.is_array();
  check->findings.clear();
  for (const Json& entry : list_alone ? read : read.at("findings")) {
    check->findings.push_back(FindingFrom(entry));
  }
  check->code_counts = {};
  if (list_alone) {
    for (const auto& finding : check->findings) {
      ++check->code_counts[static_cast<size_t>(finding.code)];
    }
    return;
  }
  for (const auto& [name, count] : read.at("code_counts").items()) {
    chart::FindingCode code{};
    ROWPROOF_CHECK(chart::ParseCode(name, &code));
    count.get_to(check->code_counts[static_cast<size_t>(code)]);
  }
}

std::vector<estimate::SizeEstimate> EstimatesFromJson(const std::string& json) {
  std::vector<estimate::SizeEstimate> estimates;
  for (const Json& size : Json::parse(json)) estimates.push_back(SizeFrom(size));
  return estimates;
}

}  // namespace rowproof::storage
