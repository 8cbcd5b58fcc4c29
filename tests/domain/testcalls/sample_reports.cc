#include "tests/domain/testcalls/sample_reports.h"

#include <cmath>
#include <vector>

#include "services/domain/testcalls/forms/lines.h"
#include "services/domain/testcalls/forms/writer.h"

namespace rowproof::testcalls {
namespace {

int Below(std::mt19937& random, int n) {
  return static_cast<int>(random() % static_cast<unsigned>(n));
}

bool Coin(std::mt19937& random) { return Below(random, 2) == 0; }

// From low to high, with all digits or with few.
double Amount(std::mt19937& random, double low, double high) {
  const double value = low * std::pow(high / low, std::generate_canonical<double, 53>(random));
  return Coin(random) ? value : std::max(low, std::floor(value * 100) / 100);
}

std::optional<double> Maybe(std::mt19937& random, double low, double high) {
  return Coin(random) ? std::optional(Amount(random, low, high)) : std::nullopt;
}

// Words that a reader could take for something else among them.
std::string Words(std::mt19937& random, size_t longest, bool lines) {
  static const std::vector<std::string> kWords = {
      "sc",
      "3,",
      "[ssc,",
      "sc 3]",
      "12 times",
      "#",
      "# 7",
      ">",
      ">>",
      "--",
      "-- ",
      "was:",
      "should be:",
      "row: 5",
      "Row 7:",
      "erratum:",
      "note:",
      "hook:",
      "remarks:",
      "end of form:",
      "\u201cquoted\u201d",
      "caf\u00e9",
      "\u00bd",
      "\u65e5\u672c",
      "seat:",
      "yarn A name:",
      "10:30",
      "notte:",
      "  ",
      "\u00a0",
      "a-rather-long-word-without-any-blank-in-it-that-goes-on-and-on-and-on-until-the-line-ends"};
  std::string text;
  const int count = Below(random, 40);
  for (int i = 0; i < count; ++i) {
    std::string next = kWords[static_cast<size_t>(Below(random, static_cast<int>(kWords.size())))];
    next += lines && Below(random, 8) == 0 ? "\n" : " ";
    if (text.size() + next.size() > longest) break;
    text += next;
  }
  return text;
}

estimate::Yarn RandomYarn(std::mt19937& random) {
  estimate::Yarn yarn;
  yarn.name = Words(random, estimate::kLongestYarnText, false);
  yarn.fibre = Words(random, estimate::kLongestYarnText, false);
  if (Coin(random)) yarn.weight_class = Below(random, 8);
  if (!yarn.weight_class.has_value() || Coin(random)) {
    yarn.wraps_per_inch = Amount(random, 1, 90);
  }
  if (Coin(random)) {
    yarn.ball_length_m = Amount(random, 10, 900);
    yarn.ball_mass_g = *yarn.ball_length_m * Amount(random, 0.02, 4);
  } else if (Coin(random)) {
    yarn.tex = Amount(random, 20, 4000);
  }
  return yarn;
}

YarnUse RandomUse(std::mt19937& random, estimate::YarnColour colour) {
  YarnUse use;
  use.colour = colour;
  const int kind = Below(random, 3);
  if (kind == 0) use.length_m = Amount(random, 0.01, 5000);
  if (kind == 1) {
    use.mass_after_g = Coin(random) ? 0 : Amount(random, 0.01, 500);
    use.mass_before_g = *use.mass_after_g + Amount(random, 1, 500);
  }
  if (kind == 2 || Coin(random)) use.yarn = RandomYarn(random);
  use.length_step_m = Amount(random, 0.01, 5);
  use.scale_step_g = Amount(random, 0.01, 5);
  use.with_swatch = Coin(random);
  use.with_border = Coin(random);
  return use;
}

std::vector<estimate::GaugeReading> RandomReadings(std::mt19937& random) {
  std::vector<estimate::GaugeReading> readings;
  for (int n = Below(random, 4); n > 0; --n) {
    estimate::GaugeReading reading;
    reading.stitch_span_mm = Amount(random, 80, 200);
    reading.row_span_mm = Amount(random, 80, 200);
    // Near one gauge, so that their scatter stays credible.
    reading.stitches = std::floor(reading.stitch_span_mm * 0.4) / 2;
    reading.rows = std::floor(reading.row_span_mm * 0.5) / 2;
    reading.scale_step_mm = Amount(random, 0.01, 2);
    readings.push_back(reading);
  }
  return readings;
}

faults::Erratum RandomErratum(std::mt19937& random, const chart::Design& design, int size) {
  faults::Erratum erratum;
  erratum.row = Below(random, WorkedRowCount(design, size) + 1);
  if (erratum.row > 0 && Coin(random)) {
    erratum.first_stitch = 1 + Below(random, 24);
    erratum.last_stitch = erratum.first_stitch + Below(random, 25 - erratum.first_stitch);
  }
  erratum.counted_from = static_cast<faults::CountedFrom>(Below(random, 2));
  erratum.seen_in = static_cast<faults::SeenIn>(Below(random, 4));
  erratum.kind =
      static_cast<faults::ErratumKind>(Below(random, static_cast<int>(faults::kErratumKinds)));
  erratum.was = Words(random, faults::kLongestErratumText, false);
  erratum.should_be = Words(random, faults::kLongestErratumText, false);
  erratum.remark = "seen " + Words(random, faults::kLongestErratumText - 5, false);
  return erratum;
}

}  // namespace

chart::Design SampleDesign() {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(20, 24);
  for (int row = 3; row <= 19; row += 2) design.cells.set(row, 1 + row, true);
  design.stitch_band = chart::Band{5, 12};
  design.row_band = chart::Band{5, 8};
  design.sizes = {{"S", 1, 1}, {"L", 3, 2}};
  return design;
}

estimate::Materials MaterialsOfAllYarns() {
  estimate::Materials materials;
  materials.border = {1, estimate::YarnColour::kBorder, false};
  for (const auto colour : estimate::kYarnColoursAsListed) {
    materials.added_fringe.push_back({colour, 10, 80.0, {}});
  }
  return materials;
}

Report SampleReport() {
  Report report;
  report.size = "L";
  report.version = 3;
  report.worked_from = WorkedFrom::kChart;
  YarnUse a;
  a.yarn = estimate::Yarn{"Invented Wool", "100 % wool", 4, 10.0, 125.0, 50.0};
  a.mass_before_g = 100;
  a.mass_after_g = 38;
  a.with_border = true;
  YarnUse b;
  b.colour = estimate::YarnColour::kB;
  b.length_m = 120.5;
  report.yarn = {a, b};
  report.hook_mm = 4.5;
  report.ends = chart::Ends::kCarried;
  report.gauge_before = {{21, 24, 100, 100, 1}};
  report.gauge_after = {{20, 23.5, 100, 101.6, 1}};
  report.how_blocked = "wet, pinned";
  report.width_before_mm = 200;
  report.height_before_mm = 100;
  report.minutes = 1890;
  report.last_row = 24;
  report.finished = true;
  report.errata = {{7, 5, 8, faults::CountedFrom::kRowStart, faults::SeenIn::kText,
                    faults::ErratumKind::kStitch, "sc 4", "sc 3, ssc", "the chart has the drop"}};
  report.remarks = "A pleasure.\nThe border curls.";
  return report;
}

FormHeading SampleHeading() { return {"patterns/lake7/testCalls/spring/seats/s4", 3, "L", 1}; }

FormNotes SampleNotes() {
  FormNotes notes;
  notes.pattern_title = "Lake Tiles (invented)";
  notes.call_title = "Spring test (invented)";
  notes.deadline = "2027-04-30";
  notes.rows = 24;
  notes.stitches = 40;
  notes.border = estimate::YarnColour::kA;
  notes.terms = {"You may choose your own yarn."};
  notes.cautions = {"Fringe and loose strands are hazards for small children."};
  return notes;
}

Report RandomReport(std::mt19937& random) {
  const chart::Design design = SampleDesign();
  const int size = Below(random, 2);
  Report report;
  report.size = design.sizes[static_cast<size_t>(size)].name;
  report.version = 1 + Below(random, 50);
  report.worked_from = static_cast<WorkedFrom>(1 + Below(random, 3));
  report.hand = static_cast<chart::Hand>(Below(random, 2));
  report.terms = static_cast<chart::Terms>(Below(random, 2));
  for (const auto colour : estimate::kYarnColoursAsListed) {
    if (Coin(random)) report.yarn.push_back(RandomUse(random, colour));
  }
  report.hook_mm = Maybe(random, 0.5, 20);
  if (Coin(random)) report.ends = static_cast<chart::Ends>(Below(random, 3));
  report.gauge_before = RandomReadings(random);
  report.gauge_after = RandomReadings(random);
  report.how_blocked = Words(random, kLongestHowBlocked, false);
  report.width_before_mm = Maybe(random, 10, 5000);
  report.height_before_mm = Maybe(random, 10, 5000);
  report.width_after_mm = Maybe(random, 10, 5000);
  report.height_after_mm = Maybe(random, 10, 5000);
  report.tape_step_mm = Amount(random, 0.01, 10);
  report.minutes = Maybe(random, 1, 100000);
  report.last_row = Below(random, WorkedRowCount(design, size) + 1);
  report.finished = report.last_row == WorkedRowCount(design, size);
  for (int n = Below(random, 5); n > 0; --n) {
    report.errata.push_back(RandomErratum(random, design, size));
  }
  report.remarks = Words(random, kLongestRemarks, true);
  return report;
}

Report AsCarried(Report report, const FormHeading& heading) {
  report.size = heading.size;
  report.version = heading.version;
  for (YarnUse& use : report.yarn) {
    if (!use.yarn.has_value()) continue;
    use.yarn->name = NormalisedText(use.yarn->name, false);
    use.yarn->fibre = NormalisedText(use.yarn->fibre, false);
  }
  report.how_blocked = NormalisedText(report.how_blocked, false);
  for (faults::Erratum& erratum : report.errata) {
    erratum.was = NormalisedText(erratum.was, false);
    erratum.should_be = NormalisedText(erratum.should_be, false);
    erratum.remark = NormalisedText(erratum.remark, false);
  }
  report.remarks = NormalisedText(report.remarks, true);
  return report;
}

}  // namespace rowproof::testcalls
