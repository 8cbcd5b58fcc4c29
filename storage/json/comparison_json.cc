#include "storage/json/comparison_json.h"

#include "storage/json/json_reader.h"
#include "storage/json/json_text.h"

namespace rowproof::storage {

template <typename Archive>
void Fields(Archive& a, StructOf<rows::TextFinding> auto& finding) {
  a.Field("code", finding.code);
  a.Field("severity", finding.severity);
  a.Field("line", finding.at.line);
  a.Field("column", finding.at.column);
  a.Field("row", finding.row);
  a.Field("met", finding.met);
  a.Field("fits", finding.fits);
}

template <typename Archive>
void Fields(Archive& a, StructOf<rows::ComparisonFinding> auto& finding) {
  a.Field("code", finding.code);
  a.Field("severity", finding.severity);
  a.Field("sizes", finding.sizes);
  a.Field("row", finding.row);
  a.Field("rows", finding.rows);
  a.Field("chart_row", finding.chart_row);
  a.Field("stitch", finding.stitch);
  a.Field("last_stitch", finding.last_stitch);
  a.Field("off_by", finding.off_by);
  a.Field("other_row", finding.other_row);
  a.Field("text_row", finding.line);
  a.Field("line", finding.at.line);
  a.Field("column", finding.at.column);
  a.Field("text_says", finding.text_says);
  a.Field("chart_says", finding.chart_says);
}

template <typename Archive>
void Fields(Archive& a, StructOf<rows::Comparison> auto& comparison) {
  a.Field("terms", comparison.terms);
  a.Field("reading", comparison.reading);
  a.Field("findings", comparison.findings);
}

namespace {

size_t RowsNamed(const rows::Comparison& comparison) {
  size_t rows = 0;
  for (const auto& finding : comparison.findings) rows += finding.rows.size();
  return rows;
}

// Each finding keeps its rows while there is room for them.
void CutRows(rows::Comparison* comparison) {
  size_t left = kMostRowsKept;
  for (auto& finding : comparison->findings) {
    if (finding.rows.size() <= left) {
      left -= finding.rows.size();
    } else {
      finding.rows = {finding.row};
    }
  }
}

}  // namespace

std::string ComparisonToJson(const rows::Comparison& comparison) {
  JsonText out;
  if (RowsNamed(comparison) <= kMostRowsKept) {
    out.Value(comparison);
    return out.Text();
  }
  rows::Comparison cut;
  cut.terms = comparison.terms;
  cut.reading = comparison.reading;
  cut.findings = comparison.findings;
  CutRows(&cut);
  out.Value(cut);
  return out.Text();
}

void ComparisonFromJson(const std::string& text, rows::Comparison* comparison) {
  JsonReader::Read(JsonReader::Parse(text), *comparison);
}

}  // namespace rowproof::storage
