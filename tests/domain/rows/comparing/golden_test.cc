// Whole texts as designers write them (invented), each beside its chart, and all that is reported,
// in tests/golden/compare_rows.txt: chart, text, report (golden_cases.h).
//
// A chart is a line of technique, facing, form, hand and terms as far as they are not spike,
// two-face, flat, right and as the text says; lines "sizes NAME STITCH-REPEATS ROW-REPEATS, ...",
// "stitch-band FIRST LAST", "row-band FIRST LAST", "foundation COLOUR", "first-row N"; and the rows
// of a working chart, top first, stitch 1 at the right: "." plain, "x" drop.
#include <sstream>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/sentences.h"
#include "tests/domain/rows/chart_rows.h"
#include "tests/domain/rows/golden_cases.h"

namespace rowproof::rows {
namespace {

struct Case {
  chart::Design design;
  ComparisonSettings settings;
};

void ReadWord(const std::string& word, Case& read) {
  if (word == "overlay") read.design.technique = chart::Technique::kOverlay;
  if (word == "inset") read.design.technique = chart::Technique::kInset;
  if (word == "one-face") read.design.facing = chart::Facing::kOneFace;
  if (word == "paired") read.design.facing = chart::Facing::kPaired;
  if (word == "tube") read.design.form = chart::Form::kTube;
  if (word == "left") read.settings.hand = chart::Hand::kLeft;
  if (word == "uk") read.settings.terms = chart::Terms::kUk;
  if (word == "us") read.settings.terms = chart::Terms::kUs;
}

void ReadSizes(std::istream& words, Case& read) {
  read.design.sizes.clear();
  chart::Size size;
  std::string rows;
  while (words >> size.name >> size.stitch_repeats >> rows) {
    size.row_repeats = std::stoi(rows);  // a comma may follow
    read.design.sizes.push_back(size);
  }
}

Case ReadCase(const std::string& text) {
  Case read;
  std::vector<std::string> cells;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.find_first_not_of(".x") == std::string::npos) {
      cells.push_back(line);
      continue;
    }
    std::istringstream words(line);
    std::string word;
    words >> word;
    chart::Band band;
    if (word == "sizes") {
      ReadSizes(words, read);
    } else if (word == "stitch-band" && words >> band.first >> band.last) {
      read.design.stitch_band = band;
    } else if (word == "row-band" && words >> band.first >> band.last) {
      read.design.row_band = band;
    } else if (word == "first-row") {
      words >> read.design.first_row_number;
    } else if (word == "foundation") {
      words >> word;
      read.design.foundation_colour = static_cast<chart::Colour>(word[0] - 'A');
    } else {
      do ReadWord(word, read);
      while (words >> word);
    }
  }
  read.design.convention = chart::Convention::kWorking;
  read.design.cells = Cells(cells);
  return read;
}

std::string Report(const std::string& chart, const std::string& text) {
  const Case read = ReadCase(chart);
  const auto compared = CompareRows(read.design, text, read.settings);
  if (!compared.ok()) return std::string(compared.status().message()) + '\n';
  std::string report;
  for (const TextFinding& finding : compared->reading) {
    report += fmt::format("{} {}: {}\n", chart::SeverityName(finding.severity),
                          CodeName(finding.code), Sentence(finding));
  }
  for (const ComparisonFinding& finding : compared->findings) {
    report += fmt::format("{} {}: {}\n", chart::SeverityName(finding.severity),
                          CodeName(finding.code), Sentence(finding, *compared));
    if (finding.severity == chart::Severity::kNote) continue;
    if (!finding.corrected.empty()) report += fmt::format("    {}\n", finding.corrected);
  }
  std::string agree;
  for (const ComparedRow& row : compared->rows) {
    if (row.agreement == Agreement::kAgrees) {
      agree += fmt::format("{}{}", agree.empty() ? "" : ", ", row.number);
    }
  }
  return report + fmt::format("Rows that agree: {}\n", agree.empty() ? "none" : agree);
}

TEST(CompareGolden, FaultsAreReportedAsTheyWereReviewed) {
  ExpectGolden("compare_rows.txt", 2, 6,
               [](const GoldenParts& parts) { return Report(parts[0], parts[1]); });
}

}  // namespace
}  // namespace rowproof::rows
