#include "services/domain/testcalls/report_validation.h"

#include <algorithm>
#include <array>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/text.h"

namespace rowproof::testcalls {
namespace {

using estimate::CheckCount;
using estimate::CheckRange;

constexpr size_t kMostViolations = 100;
constexpr double kMostStep = 1'000;

// All that is wrong, so that a volunteer has to answer once only.
class Violations {
 public:
  void Add(const absl::Status& status) {
    if (status.ok()) return;
    for (FieldViolation& violation : DetailOf(status).fields) {
      if (found_.size() < kMostViolations) found_.push_back(std::move(violation));
    }
  }
  absl::Status Result() {
    return found_.empty() ? absl::OkStatus() : InvalidFields(std::move(found_));
  }

 private:
  std::vector<FieldViolation> found_;
};

void CheckOptional(Violations& wrong, const std::string& field, const std::optional<double>& value,
                   double low, double high, const char* unit) {
  if (value.has_value()) wrong.Add(CheckRange(field, *value, low, high, unit));
}

void CheckWeights(Violations& wrong, const YarnUse& use, const std::string& field) {
  const std::string before = field + ".mass_before_g";
  const std::string after = field + ".mass_after_g";
  if (use.mass_before_g.has_value() != use.mass_after_g.has_value()) {
    wrong.Add(MissingField(use.mass_before_g.has_value() ? after : before,
                           "given with the other weight, or both left out"));
    return;
  }
  if (!use.mass_before_g.has_value()) return;
  CheckOptional(wrong, before, use.mass_before_g, 0.1, kMostYarnG, "g");
  CheckOptional(wrong, after, use.mass_after_g, 0, kMostYarnG, "g");
  if (*use.mass_after_g >= *use.mass_before_g) {
    wrong.Add(InvalidField(after, fmt::format("{}", *use.mass_after_g),
                           fmt::format("less than the {} g before", *use.mass_before_g)));
  }
}

void CheckYarnUse(Violations& wrong, const YarnUse& use, const std::string& field) {
  const bool weighed = use.mass_before_g.has_value() || use.mass_after_g.has_value();
  if (use.yarn.has_value()) wrong.Add(estimate::ValidateYarn(*use.yarn, field + ".yarn"));
  if (!use.yarn.has_value() && !use.length_m.has_value() && !weighed) {
    wrong.Add(MissingField(field + ".length_m", "given, unless two weights or a yarn are"));
  }
  if (use.length_m.has_value() && weighed) {
    wrong.Add(InvalidField(field + ".length_m", fmt::format("{}", *use.length_m),
                           "unset if the weights before and after are given"));
  }
  CheckOptional(wrong, field + ".length_m", use.length_m, 0.01, kMostYarnM, "m");
  CheckWeights(wrong, use, field);
  wrong.Add(CheckRange(field + ".length_step_m", use.length_step_m, kLeastStep, kMostStep, "m"));
  wrong.Add(CheckRange(field + ".scale_step_g", use.scale_step_g, kLeastStep, kMostStep, "g"));
}

// "A, B, C and border".
std::string Names(const std::vector<estimate::YarnColour>& colours) {
  std::string names;
  for (size_t i = 0; i < colours.size(); ++i) {
    if (i > 0) names += i + 1 == colours.size() ? " and " : ", ";
    names += estimate::Name(colours[i]);
  }
  return names;
}

void CheckYarns(Violations& wrong, const Report& report,
                const std::vector<estimate::YarnColour>& used) {
  for (size_t i = 0; i < report.yarn.size(); ++i) {
    const YarnUse& use = report.yarn[i];
    const std::string field = fmt::format("yarn[{}]", i);
    if (i > 0 &&
        estimate::PlaceAsListed(use.colour) <= estimate::PlaceAsListed(report.yarn[i - 1].colour)) {
      wrong.Add(InvalidField(field + ".role", estimate::Name(use.colour),
                             "listed once, in the order A to H, border"));
      return;
    }
    // A, B and the tester's own border may always be reported.
    if (use.colour >= estimate::YarnColour::kC &&
        std::find(used.begin(), used.end(), use.colour) == used.end()) {
      wrong.Add(InvalidField(field + ".role", estimate::Name(use.colour),
                             fmt::format("one of the pattern's yarns: {}", Names(used))));
    }
    CheckYarnUse(wrong, use, field);
  }
}

void CheckGauge(Violations& wrong, const std::vector<estimate::GaugeReading>& readings,
                const std::string& field) {
  if (readings.empty()) return;
  if (readings.size() > kMostReportedReadings) {
    wrong.Add(InvalidField(field, fmt::format("{} readings", readings.size()),
                           fmt::format("at most {} readings", kMostReportedReadings)));
    return;
  }
  const auto gauge = estimate::GaugeFromReadings(readings, field);
  wrong.Add(gauge.ok() ? estimate::ValidateGauge(*gauge, field) : gauge.status());
}

void CheckFinishedSize(Violations& wrong, const Report& report) {
  const std::array<std::pair<const char*, const std::optional<double>*>, 4> sizes = {
      {{"width_before_mm", &report.width_before_mm},
       {"height_before_mm", &report.height_before_mm},
       {"width_after_mm", &report.width_after_mm},
       {"height_after_mm", &report.height_after_mm}}};
  for (const auto& [field, value] : sizes)
    CheckOptional(wrong, field, *value, 1, kMostSizeMm, "mm");
  wrong.Add(CheckRange("tape_step_mm", report.tape_step_mm, kLeastStep, kMostStep, "mm"));
}

void CheckRows(Violations& wrong, const Report& report, const chart::Design& design, int size) {
  const int rows = WorkedRowCount(design, size);
  wrong.Add(CheckCount("last_row", report.last_row, 0, rows, "(the size's worked rows)"));
  if (report.finished && report.last_row >= 0 && report.last_row < rows) {
    wrong.Add(InvalidField("last_row", std::to_string(report.last_row),
                           fmt::format("{}, the size's last row, if the piece is finished", rows)));
  }
  for (size_t i = 0; i < report.errata.size() && i < kMostErrata; ++i) {
    wrong.Add(
        faults::ValidateErratum(report.errata[i], design, size, fmt::format("errata[{}]", i)));
  }
}

std::string SizeNames(const chart::Design& design) {
  std::string names;
  for (const chart::Size& size : design.sizes) {
    names += fmt::format("{}\"{}\"", names.empty() ? "one of " : ", ", size.name);
  }
  return names;
}

}  // namespace

absl::Status Validate(const Report& report, const chart::Design& design,
                      const estimate::Materials& materials) {
  Violations wrong;
  const int size = SizeIndex(design, report.size);
  if (size < 0) wrong.Add(InvalidField("size", report.size, SizeNames(design)));
  if (report.version < 1) {
    wrong.Add(InvalidField("version", std::to_string(report.version), "at least 1"));
  }
  CheckYarns(wrong, report, estimate::YarnsUsed(design, materials));
  CheckOptional(wrong, "hook_mm", report.hook_mm, 0.3, 50, "mm");
  CheckGauge(wrong, report.gauge_before, "gauge_before");
  CheckGauge(wrong, report.gauge_after, "gauge_after");
  wrong.Add(ValidateText("how_blocked", report.how_blocked, kLongestHowBlocked, false));
  CheckFinishedSize(wrong, report);
  CheckOptional(wrong, "minutes", report.minutes, 0.1, kMostMinutes, "minutes");
  if (report.errata.size() > kMostErrata) {
    wrong.Add(InvalidField("errata", fmt::format("{} errata", report.errata.size()),
                           fmt::format("at most {} errata", kMostErrata)));
  }
  if (size >= 0) CheckRows(wrong, report, design, size);
  wrong.Add(ValidateText("remarks", report.remarks, kLongestRemarks, true));
  return wrong.Result();
}

}  // namespace rowproof::testcalls
