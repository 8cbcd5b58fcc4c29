#include "storage/version_json.h"

#include <nlohmann/json.hpp>
#include <optional>

#include "services/domain/check.h"

namespace rowproof::storage {
namespace {

using Json = nlohmann::json;

// An enum's value from its stable name, found among 0 .. count - 1.
template <typename Enum, typename NameOf>
Enum EnumFrom(const std::string& name, size_t count, NameOf name_of) {
  for (size_t i = 0; i < count; ++i) {
    if (name == name_of(static_cast<Enum>(i))) return static_cast<Enum>(i);
  }
  ROWPROOF_CHECK(!"an unknown enum name in the database");
  return {};
}

constexpr size_t kUncertaintySources = 5;
constexpr size_t kCautionCodes = 7;
constexpr size_t kSeverities = 3;

template <typename T>
void PutOptional(Json& json, const char* key, const std::optional<T>& value) {
  if (value.has_value()) json[key] = *value;
}

template <typename T>
void TakeOptional(const Json& json, const char* key, std::optional<T>& value) {
  if (json.contains(key)) value = json.at(key).get<T>();
}

Json ToJson(const std::vector<estimate::Contribution>& contributions) {
  Json json = Json::array();
  for (const auto& contribution : contributions) {
    json.push_back({{"source", estimate::Name(contribution.source)},
                    {"uncertainty", contribution.uncertainty}});
  }
  return json;
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

Json ToJson(const estimate::ColourEstimate& colour) {
  Json parts = Json::array();
  for (const auto& part : colour.parts) {
    parts.push_back({{"part", estimate::Name(part.part)}, {"length_mm", part.length_mm}});
  }
  Json json = {{"colour", estimate::Name(colour.colour)},
               {"plain_stitches", colour.plain_stitches},
               {"drop_stitches", colour.drop_stitches},
               {"rows", colour.rows},
               {"parts", parts},
               {"length_mm", colour.length_mm},
               {"length_uncertainty_mm", colour.length_uncertainty_mm},
               {"length_contributions", ToJson(colour.length_contributions)},
               {"length_low_mm", colour.length_interval_mm.low},
               {"length_high_mm", colour.length_interval_mm.high},
               {"length_coverage", colour.length_interval_mm.coverage},
               {"upper_length_mm", colour.upper_length_mm},
               {"published_length_m", colour.published_length_m},
               {"published_length_yd", colour.published_length_yd}};
  PutOptional(json, "mass_g", colour.mass_g);
  PutOptional(json, "mass_uncertainty_g", colour.mass_uncertainty_g);
  PutOptional(json, "published_mass_g", colour.published_mass_g);
  PutOptional(json, "balls", colour.balls);
  return json;
}

estimate::ColourEstimate ColourFrom(const Json& json) {
  estimate::ColourEstimate colour;
  colour.colour =
      EnumFrom<estimate::YarnColour>(json.at("colour").get<std::string>(), estimate::kYarnColours,
                                     [](estimate::YarnColour c) { return estimate::Name(c); });
  json.at("plain_stitches").get_to(colour.plain_stitches);
  json.at("drop_stitches").get_to(colour.drop_stitches);
  json.at("rows").get_to(colour.rows);
  for (const Json& part : json.at("parts")) {
    colour.parts.push_back(
        {EnumFrom<estimate::PartKind>(part.at("part").get<std::string>(), estimate::kPartKinds,
                                      [](estimate::PartKind p) { return estimate::Name(p); }),
         part.at("length_mm").get<double>()});
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
  return colour;
}

Json ToJson(const estimate::Extent& extent) {
  return {{"width_mm", extent.width_mm},
          {"width_uncertainty_mm", extent.width_uncertainty_mm},
          {"height_mm", extent.height_mm},
          {"height_uncertainty_mm", extent.height_uncertainty_mm},
          {"width_contributions", ToJson(extent.width_contributions)},
          {"height_contributions", ToJson(extent.height_contributions)}};
}

estimate::Extent ExtentFrom(const Json& json) {
  estimate::Extent extent;
  json.at("width_mm").get_to(extent.width_mm);
  json.at("width_uncertainty_mm").get_to(extent.width_uncertainty_mm);
  json.at("height_mm").get_to(extent.height_mm);
  json.at("height_uncertainty_mm").get_to(extent.height_uncertainty_mm);
  extent.width_contributions = ContributionsFrom(json.at("width_contributions"));
  extent.height_contributions = ContributionsFrom(json.at("height_contributions"));
  return extent;
}

Json ToJson(const estimate::SizeEstimate& size) {
  Json colours = Json::array();
  for (const auto& colour : size.colours) colours.push_back(ToJson(colour));
  Json cautions = Json::array();
  for (const auto& caution : size.cautions) {
    cautions.push_back(
        {{"code", estimate::CodeName(caution.code)}, {"sentence", caution.sentence}});
  }
  Json json = {{"size", size.size},
               {"stitches", size.stitches},
               {"rows", size.rows},
               {"plain_stitches", size.plain_stitches},
               {"drop_stitches", size.drop_stitches},
               {"colours", colours},
               {"before_blocking", ToJson(size.before_blocking)},
               {"fringe_width_mm", size.fringe_width_mm},
               {"fringe_height_mm", size.fringe_height_mm},
               {"minutes", size.minutes},
               {"minutes_uncertainty", size.minutes_uncertainty},
               {"ends_to_weave_in", size.ends_to_weave_in},
               {"assumed", size.assumed},
               {"cautions", cautions}};
  if (size.after_blocking.has_value()) json["after_blocking"] = ToJson(*size.after_blocking);
  return json;
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
  json.at("assumed").get_to(size.assumed);
  for (const Json& caution : json.at("cautions")) {
    size.cautions.push_back({EnumFrom<estimate::CautionCode>(
                                 caution.at("code").get<std::string>(), kCautionCodes,
                                 [](estimate::CautionCode c) { return estimate::CodeName(c); }),
                             caution.at("sentence").get<std::string>()});
  }
  return size;
}

}  // namespace

std::string FindingsToJson(const std::vector<chart::Finding>& findings) {
  Json json = Json::array();
  for (const auto& finding : findings) {
    json.push_back({{"code", chart::CodeName(finding.code)},
                    {"severity", chart::SeverityName(finding.severity)},
                    {"row", finding.row},
                    {"stitch", finding.stitch},
                    {"last_stitch", finding.last_stitch},
                    {"seam", static_cast<int>(finding.seam)},
                    {"size", finding.size},
                    {"size_count", finding.size_count}});
  }
  return json.dump();
}

std::string EstimatesToJson(const std::vector<estimate::SizeEstimate>& estimates) {
  Json json = Json::array();
  for (const auto& size : estimates) json.push_back(ToJson(size));
  return json.dump();
}

std::vector<chart::Finding> FindingsFromJson(const std::string& json) {
  std::vector<chart::Finding> findings;
  for (const Json& entry : Json::parse(json)) {
    chart::Finding finding;
    ROWPROOF_CHECK(chart::ParseCode(entry.at("code").get<std::string>(), &finding.code));
    finding.severity =
        EnumFrom<chart::Severity>(entry.at("severity").get<std::string>(), kSeverities,
                                  [](chart::Severity s) { return chart::SeverityName(s); });
    entry.at("row").get_to(finding.row);
    entry.at("stitch").get_to(finding.stitch);
    entry.at("last_stitch").get_to(finding.last_stitch);
    finding.seam = static_cast<chart::Seam>(entry.at("seam").get<int>());
    entry.at("size").get_to(finding.size);
    entry.at("size_count").get_to(finding.size_count);
    findings.push_back(finding);
  }
  return findings;
}

std::vector<estimate::SizeEstimate> EstimatesFromJson(const std::string& json) {
  std::vector<estimate::SizeEstimate> estimates;
  for (const Json& size : Json::parse(json)) estimates.push_back(SizeFrom(size));
  return estimates;
}

}  // namespace rowproof::storage
