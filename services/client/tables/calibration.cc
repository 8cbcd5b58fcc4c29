#include "services/client/tables/calibration.h"

#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/client/tables/measures.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/quantities/measured.h"

namespace rowproof::client {
namespace {

std::string Percent(double relative) { return fmt::format("{:.1f} %", 100 * relative); }

// "sl st" is two words.
std::string StitchWord(v1::StitchKind kind) {
  return kind == v1::STITCH_KIND_SL_ST ? "sl st" : Word(kind);
}

std::string StitchesText(const v1::KeptMeasurement& measurement) {
  std::string text;
  for (const v1::StitchCount& count : measurement.stitches()) {
    text += fmt::format("{}{} {:.0f}", text.empty() ? "" : ", ", StitchWord(count.stitch()),
                        count.count());
  }
  return text;
}

std::string MeasurementTable(const v1::CalibrationRevision& revision, Units units) {
  Table table;
  table.Column("No.", Table::Side::kRight).Column("Since", Table::Side::kRight);
  table.Column("Measured").Column("Stitches").Column("Yarn", Table::Side::kRight).Column("Note");
  for (const v1::KeptMeasurement& kept : revision.measurements()) {
    table.Row({std::to_string(kept.number()), std::to_string(kept.first_revision()),
               Word(kept.kind()), StitchesText(kept),
               quantities::YarnLength(kept.length_mm(), units),
               kept.note().empty() ? "-" : kept.note()});
  }
  return table.Text();
}

}  // namespace

std::string StitchTable(const v1::YarnCalibration& calibration, const Style& style) {
  Table table;
  table.Column("Stitch").Column("Yarn in one", Table::Side::kRight);
  table.Column("Change", Table::Side::kRight).Column("Good to", Table::Side::kRight);
  if (style.details) {
    table.Column("Assumed before", Table::Side::kRight).Column("Good to", Table::Side::kRight);
  }
  for (const v1::StitchPath& path : calibration.paths()) {
    std::vector<std::string> cells{
        StitchWord(path.stitch()), quantities::SmallLength(path.length_mm(), style.units),
        fmt::format("{:+.1f} %", 100 * (path.length_mm() / path.length_before_mm() - 1)),
        Percent(path.relative_uncertainty())};
    if (style.details) {
      cells.push_back(quantities::SmallLength(path.length_before_mm(), style.units));
      cells.push_back(Percent(path.relative_uncertainty_before()));
    }
    table.Row(std::move(cells));
  }
  return table.Text();
}

std::string ScopeText(const v1::CalibrationScope& scope) {
  std::string text;
  const auto add = [&](const std::string& word) { text += (text.empty() ? "" : ", ") + word; };
  if (scope.technique() != v1::TECHNIQUE_UNSPECIFIED) add(Word(scope.technique()));
  if (scope.facing() != v1::FACING_UNSPECIFIED) add(Word(scope.facing()));
  if (scope.ends() != v1::ENDS_UNSPECIFIED) add("ends " + Word(scope.ends()));
  if (scope.has_weight_class()) add(fmt::format("weight class {}", scope.weight_class()));
  return text.empty() ? "-" : text;
}

std::string TextOf(const v1::CalibrationRevision& revision, const Style& style) {
  std::string text = revision.name() + "\n";
  text += fmt::format("Made: {}, from {} in force\n", TimeText(revision.create_time()),
                      Counted(revision.measurement_count(), "measurement", "measurements"));
  if (!revision.note().empty()) text += Paragraph("Note: ", revision.note());
  text += "\nYarn in one stitch at the measured gauge, with its standard uncertainty:\n\n";
  text += StitchTable(revision.yarn_calibration(), style);
  if (!style.details) return text + "\n--details lists the measurements.\n";
  return text + "\nMeasurements (since which revision):\n\n" +
         MeasurementTable(revision, style.units);
}

std::string TextOf(const v1::Calibration& calibration, const Style& style) {
  std::string text = Paragraph("Calibration: ", calibration.title());
  text += "Name: " + calibration.name() + "\n";
  text += "Measured in: " + ScopeText(calibration.scope()) + "\n";
  text += "Etag: " + calibration.etag() + "\n\n";
  text += TextOf(calibration.newest_revision(), style);
  return text + "\n" +
         Paragraph("", "To estimate with it, give --calibration " + calibration.name() +
                           " (the newest revision), or the name of one revision.");
}

std::string TextOf(const v1::ListCalibrationsResponse& answer, const Style&) {
  if (answer.calibrations().empty()) return "None.\n";
  Table table;
  table.Column("Name").Column("Revisions", Table::Side::kRight).Column("Made");
  table.Column("Measured in").Column("Title");
  for (const v1::Calibration& calibration : answer.calibrations()) {
    table.Row({calibration.name(), std::to_string(calibration.revision_count()),
               TimeText(calibration.create_time()), ScopeText(calibration.scope()),
               calibration.title()});
  }
  return table.Text();
}

std::string TextOf(const v1::ListCalibrationRevisionsResponse& answer, const Style&) {
  return ListOf(answer.revisions(), {{"Name", "name"},
                                     {"Made", "create_time"},
                                     {"Measurements", "measurement_count"},
                                     {"Note", "note"}});
}

}  // namespace rowproof::client
