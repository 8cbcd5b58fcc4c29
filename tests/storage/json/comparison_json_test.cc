// What a comparison found comes back from the database as it went in.
#include "storage/json/comparison_json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace rowproof::storage {
namespace {

rows::Comparison ReadBack(const rows::Comparison& comparison) {
  const std::string json = ComparisonToJson(comparison);
  EXPECT_TRUE(nlohmann::json::accept(json)) << json;
  rows::Comparison read;
  ComparisonFromJson(json, &read);
  return read;
}

// Every code, each with other numbers in every field.
rows::Comparison Everything() {
  rows::Comparison comparison;
  comparison.terms = chart::Terms::kUk;
  for (size_t code = 0; code < rows::kComparisonCodes; ++code) {
    const int n = static_cast<int>(code);
    rows::ComparisonFinding finding;
    finding.code = static_cast<rows::ComparisonCode>(code);
    finding.severity = static_cast<chart::Severity>(n % 3);
    finding.sizes = {n % 5, n % 5 + 1};
    finding.row = n;
    finding.rows = {n, n + 2, n + 40};
    finding.chart_row = n + 1;
    finding.stitch = n + 2;
    finding.last_stitch = n + 3;
    finding.off_by = {n - 10, n};
    finding.other_row = n + 4;
    finding.line = n - 1;
    finding.at = {n + 5, n + 6};
    finding.text_says = "sc \"3\" \\ \t\xc3\xa9";
    finding.chart_says = "ssc";
    comparison.findings.push_back(finding);
  }
  for (int n = 0; n <= static_cast<int>(rows::TextFindingCode::kPassedOver); ++n) {
    comparison.reading.push_back({static_cast<rows::TextFindingCode>(n),
                                  static_cast<chart::Severity>(n % 3),
                                  {n + 1, n + 2},
                                  n - 1,
                                  "met \n",
                                  "fits"});
  }
  return comparison;
}

TEST(ComparisonJson, ReadsBackEveryCodeAndField) {
  const rows::Comparison comparison = Everything();
  EXPECT_EQ(ReadBack(comparison), comparison);
  EXPECT_EQ(ReadBack(rows::Comparison()), rows::Comparison());
}

TEST(ComparisonJson, LeavesOutWhatIsMadeAgainFromTheVersion) {
  rows::Comparison comparison = Everything();
  comparison.findings[0].corrected = "Row 1 (RS, A): sc 5.";
  comparison.rows.resize(3);
  EXPECT_EQ(ReadBack(comparison), Everything());
}

// So that a row which is repeated thousands of times cannot fill the database.
TEST(ComparisonJson, KeepsTheFirstRowOfFindingsBeyondTheMostThatAreNamed) {
  rows::Comparison comparison;
  rows::ComparisonFinding finding;
  finding.row = 7;
  finding.rows.assign(8000, 7);
  comparison.findings.assign(20, finding);
  const auto read = ReadBack(comparison).findings;
  size_t rows = 0;
  for (const auto& kept : read) rows += kept.rows.size();
  EXPECT_LE(rows, kMostRowsKept + read.size());
  EXPECT_EQ(read.front().rows.size(), 8000u);
  EXPECT_EQ(read.back().rows, std::vector<int>{7});
}

}  // namespace
}  // namespace rowproof::storage
