// What a tester sends: how the piece was made and what came out. Reports are revised by appending;
// each revision is a whole report. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_REPORT_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_REPORT_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/clock.h"
#include "services/domain/estimate/gauge.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/faults/erratum.h"
#include "services/domain/identifiers.h"

namespace rowproof::testcalls {

inline constexpr size_t kMostErrata = 200;           // in one report
inline constexpr size_t kMostReportedReadings = 20;  // of gauge, before and after each
inline constexpr size_t kLongestHowBlocked = 200;    // bytes of UTF-8
inline constexpr size_t kLongestRemarks = 4'000;     // bytes of UTF-8
inline constexpr double kLeastStep = 0.001;          // of a scale or ruler, g, m or mm
inline constexpr double kMostYarnM = 100'000;        // of one colour
inline constexpr double kMostYarnG = 100'000;
inline constexpr double kMostSizeMm = 100'000;
inline constexpr double kMostMinutes = 600'000;  // 10,000 hours

enum class WorkedFrom : uint8_t { kChart = 1, kText = 2, kBoth = 3 };

// One yarn and how much of it went into the piece: a length, or its weight before and after; not
// both, and neither while the tester has not measured yet.
struct YarnUse {
  estimate::YarnColour colour = estimate::YarnColour::kA;
  std::optional<estimate::Yarn> yarn;  // absent: the yarn that the version names
  std::optional<double> length_m;
  double length_step_m = 1;  // to which the length was read
  // Of all balls of the yarn together; both or neither. `after` is below `before`.
  std::optional<double> mass_before_g;
  std::optional<double> mass_after_g;
  double scale_step_g = 1;   // a kitchen scale reads whole grams (common practice)
  bool with_swatch = false;  // what was used includes the swatch
  bool with_border = false;  // and the border
  bool operator==(const YarnUse&) const = default;
};

struct Report {
  std::string size;  // the seat's; one of the design's
  int version = 0;   // that was worked from, from 1
  WorkedFrom worked_from = WorkedFrom::kBoth;
  chart::Hand hand = chart::Hand::kRight;
  chart::Terms terms = chart::Terms::kUs;
  std::vector<YarnUse> yarn;  // at most one entry for a colour, in the order A to H, border
  std::optional<double> hook_mm;
  std::optional<chart::Ends> ends;  // as treated; absent: as the version says
  // Worked rows, counted in a plain column; spans in mm.
  std::vector<estimate::GaugeReading> gauge_before;
  std::vector<estimate::GaugeReading> gauge_after;
  std::string how_blocked;
  // Finished size, border and fringe included; tube: circumference and length.
  std::optional<double> width_before_mm;
  std::optional<double> height_before_mm;
  std::optional<double> width_after_mm;
  std::optional<double> height_after_mm;
  double tape_step_mm = 1;  // to which they were read
  std::optional<double> minutes;
  int last_row = 0;  // last worked row, from 1; 0: none yet
  bool finished = false;
  std::vector<faults::Erratum> errata;
  std::string remarks;  // line feeds allowed
  bool operator==(const Report&) const = default;
};

struct ReportRecord {
  PatternId pattern;
  CallId call;
  SeatId seat;
  int number = 0;
  AccountId entered_by;
  bool on_behalf = false;
  Moment created_at;
  Report report;
  std::vector<ErratumId> errata;  // one for each of report.errata
};

// Index of the size of that name in design.sizes; -1 if there is none.
int SizeIndex(const chart::Design& design, const std::string& size);
// Worked rows of a size: its chart rows, for inset two each.
int WorkedRowCount(const chart::Design& design, int size);

// How much of one yarn was used. The standard uncertainty is that of reading the scale or the tape
// alone: half a step over sqrt(3) for each reading, two of them for a difference of weights (JCGM
// 100:2008 4.3.7, 5.1); the ball band is treated as exact.
struct UsedYarn {
  estimate::YarnColour colour = estimate::YarnColour::kA;
  // Absent for a weight without a ball band, from which no metres follow.
  std::optional<double> length_m;
  std::optional<double> length_uncertainty_m;
  std::optional<double> mass_g;  // of weighed yarn
  std::optional<double> mass_uncertainty_g;
  bool with_swatch = false;
  bool with_border = false;
  bool operator==(const UsedYarn&) const = default;
};

// One entry for each measured yarn of a valid report, in its order. The ball band is that of the
// report's own yarn or else of the version's.
std::vector<UsedYarn> YarnUsed(const Report& report, const estimate::Materials& version_materials);
// The yarn that was used: the tester's own, or the version's; nullptr if neither is known.
const estimate::Yarn* YarnInUse(const YarnUse& use, const estimate::Materials& version_materials);

// The version's materials as this tester made it: own yarn, hook, ends and gauge in place of the
// version's. For one yarn (`yarn`), swatch and border are included only if the report says that the
// yarn used includes them; for size and time (no yarn), the border is included and the swatch is
// not. The report must be valid; the materials may still be refused by estimate::Validate.
struct TesterMaterials {
  estimate::Materials materials;
  bool gauge_assumed = false;   // no reading before blocking: the version's gauge stays
  bool swatch_unknown = false;  // a swatch is in the yarn used, but the version names no swatch
};
TesterMaterials MaterialsOf(const Report& report, const estimate::Materials& version_materials,
                            std::optional<estimate::YarnColour> yarn);

const char* Name(WorkedFrom worked_from);  // "chart", "text", "both"
const char* Name(chart::Hand hand);        // "right", "left"
const char* Name(chart::Terms terms);      // "US", "UK"

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_REPORT_H_
