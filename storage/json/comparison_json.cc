#include "storage/json/comparison_json.h"

#include <nlohmann/json.hpp>

#include "storage/json/json_text.h"
#include "storage/stored_enum.h"

namespace rowproof::storage {
namespace {

using Json = nlohmann::json;

constexpr size_t kTextFindingCodes = static_cast<size_t>(rows::TextFindingCode::kPassedOver) + 1;

chart::Severity SeverityFrom(const Json& json) {
  return EnumFrom<chart::Severity>(json.at("severity").get<std::string>(), kSeverities,
                                   [](chart::Severity s) { return chart::SeverityName(s); });
}

void AddPlace(JsonText& out, const rows::TextPlace& place) {
  out.Put("line", place.line);
  out.Put("column", place.column);
}

rows::TextPlace PlaceFrom(const Json& json) {
  return {json.at("line").get<int>(), json.at("column").get<int>()};
}

void AddReading(JsonText& out, const rows::TextFinding& finding) {
  out.Open('{');
  out.Put("code", rows::CodeName(finding.code));
  out.Put("severity", chart::SeverityName(finding.severity));
  AddPlace(out, finding.at);
  out.Put("row", finding.row);
  out.Put("met", finding.met);
  out.Put("fits", finding.fits);
  out.Close('}');
}

rows::TextFinding ReadingFrom(const Json& json) {
  rows::TextFinding finding;
  finding.code = EnumFrom<rows::TextFindingCode>(
      json.at("code").get<std::string>(), kTextFindingCodes,
      [](rows::TextFindingCode code) { return rows::CodeName(code); });
  finding.severity = SeverityFrom(json);
  finding.at = PlaceFrom(json);
  json.at("row").get_to(finding.row);
  json.at("met").get_to(finding.met);
  json.at("fits").get_to(finding.fits);
  return finding;
}

void AddFinding(JsonText& out, const rows::ComparisonFinding& finding, size_t& rows_left) {
  out.Open('{');
  out.Put("code", rows::CodeName(finding.code));
  out.Put("severity", chart::SeverityName(finding.severity));
  out.Put("sizes", finding.sizes);
  out.Put("row", finding.row);
  const bool kept = finding.rows.size() <= rows_left;
  if (kept) rows_left -= finding.rows.size();
  out.Put("rows", kept ? finding.rows : std::vector<int>{finding.row});
  out.Put("chart_row", finding.chart_row);
  out.Put("stitch", finding.stitch);
  out.Put("last_stitch", finding.last_stitch);
  out.Put("off_by", finding.off_by);
  out.Put("other_row", finding.other_row);
  out.Put("text_row", finding.line);
  AddPlace(out, finding.at);
  out.Put("text_says", finding.text_says);
  out.Put("chart_says", finding.chart_says);
  out.Close('}');
}

rows::ComparisonFinding ComparisonFindingFrom(const Json& json) {
  rows::ComparisonFinding finding;
  finding.code = EnumFrom<rows::ComparisonCode>(
      json.at("code").get<std::string>(), rows::kComparisonCodes,
      [](rows::ComparisonCode code) { return rows::CodeName(code); });
  finding.severity = SeverityFrom(json);
  json.at("sizes").get_to(finding.sizes);
  json.at("row").get_to(finding.row);
  json.at("rows").get_to(finding.rows);
  json.at("chart_row").get_to(finding.chart_row);
  json.at("stitch").get_to(finding.stitch);
  json.at("last_stitch").get_to(finding.last_stitch);
  json.at("off_by").get_to(finding.off_by);
  json.at("other_row").get_to(finding.other_row);
  json.at("text_row").get_to(finding.line);
  finding.at = PlaceFrom(json);
  json.at("text_says").get_to(finding.text_says);
  json.at("chart_says").get_to(finding.chart_says);
  return finding;
}

}  // namespace

std::string ComparisonToJson(const rows::Comparison& comparison) {
  JsonText out;
  out.Open('{');
  out.Put("terms", comparison.terms == chart::Terms::kUs ? "US" : "UK");
  out.Key("reading");
  out.Open('[');
  for (const rows::TextFinding& finding : comparison.reading) AddReading(out, finding);
  out.Close(']');
  out.Key("findings");
  out.Open('[');
  size_t rows_left = kMostRowsKept;
  for (const rows::ComparisonFinding& finding : comparison.findings) {
    AddFinding(out, finding, rows_left);
  }
  out.Close(']');
  out.Close('}');
  return out.Text();
}

void ComparisonFromJson(const std::string& text, rows::Comparison* comparison) {
  const Json json = Json::parse(text);
  comparison->terms =
      json.at("terms").get<std::string>() == "US" ? chart::Terms::kUs : chart::Terms::kUk;
  for (const Json& finding : json.at("reading")) {
    comparison->reading.push_back(ReadingFrom(finding));
  }
  for (const Json& finding : json.at("findings")) {
    comparison->findings.push_back(ComparisonFindingFrom(finding));
  }
}

}  // namespace rowproof::storage
