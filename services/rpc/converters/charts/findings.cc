#include "services/rpc/converters/charts/findings.h"

#include <optional>
#include <string>

#include "fmt/format.h"
#include "services/domain/chart/cell_areas.h"
#include "services/domain/chart/check/other_reading.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/multiple.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

// Both begin with the place inside the chart.
v1::Seam SeamToProto(chart::Seam seam) { return static_cast<v1::Seam>(seam); }

v1::Finding FindingToProto(const chart::Finding& finding, const chart::Design& design) {
  v1::Finding to;
  to.set_code(EnumTo<v1::FindingCode>(finding.code));
  to.set_severity(static_cast<v1::Severity>(static_cast<int>(finding.severity) + 1));
  to.set_row(finding.row);
  to.set_stitch(finding.stitch);
  to.set_last_stitch(finding.last_stitch);
  to.set_seam(SeamToProto(finding.seam));
  if (finding.size_count < static_cast<int>(design.sizes.size())) {
    to.set_size(design.sizes[static_cast<size_t>(finding.size)].name);
  }
  to.set_sentence(chart::Sentence(finding, design));
  if (finding.edit.has_value()) *to.mutable_edit() = ToProto(*finding.edit, design);
  if (finding.row > 0) {
    const int worked = chart::WorkedRows(design);
    const int last = finding.row * worked + design.first_row_number - 1;
    to.set_first_worked_row(last - worked + 1);
    to.set_last_worked_row(last);
  }
  return to;
}

void OfferReading(const chart::CheckResult& check, const chart::Design& design,
                  v1::CheckResult* to) {
  for (const chart::FindingCode reading : chart::kOtherReadings) {
    if (check.count(reading) == 0) continue;
    to->set_reading_offered(EnumTo<v1::FindingCode>(reading));
    const chart::Convention meant = chart::InReading(design, reading).convention;
    if (meant != design.convention) to->set_convention_offered(EnumTo<v1::Convention>(meant));
    return;
  }
}

std::string WordsOf(const std::optional<chart::Multiple>& multiple) {
  return multiple.has_value() ? chart::Words(*multiple) : std::string();
}

absl::Status ReadRun(const char* field, int run, int* setting) {
  if (run < 0) {
    return InvalidField(std::string("settings.") + field, std::to_string(run),
                        "0 or more stitches");
  }
  *setting = run;
  return absl::OkStatus();
}

constexpr int kMostAreas = 10'000;

// `first` and `last` as an area has them; both 0: everything.
absl::Status ReadRange(const std::string& field, const char* unit, int first, int last, int length,
                       chart::Band* range) {
  if (first == 0 && last == 0) {
    *range = {1, length};
    return absl::OkStatus();
  }
  if (first < 1 || first > length) {
    return InvalidField(fmt::format("{}.first_{}", field, unit), std::to_string(first),
                        fmt::format("a {} from 1 to {}", unit, length));
  }
  *range = {first, last == 0 ? first : last};
  if (range->last < first || range->last > length) {
    return InvalidField(fmt::format("{}.last_{}", field, unit), std::to_string(last),
                        fmt::format("a {} from {} to {}", unit, first, length));
  }
  return absl::OkStatus();
}

absl::StatusOr<chart::CellArea> AreaFrom(const std::string& field, const v1::CellArea& area,
                                         const chart::Grid& cells) {
  chart::CellArea read;
  RETURN_IF_ERROR(
      ReadRange(field, "row", area.first_row(), area.last_row(), cells.rows(), &read.rows));
  RETURN_IF_ERROR(ReadRange(field, "stitch", area.first_stitch(), area.last_stitch(),
                            cells.stitches(), &read.stitches));
  return read;
}

absl::Status ReadSymmetry(int index, v1::Symmetry symmetry, chart::RepairOptions* options) {
  switch (symmetry) {
    case v1::SYMMETRY_LEFT_RIGHT:
      options->left_right = true;
      return absl::OkStatus();
    case v1::SYMMETRY_TOP_TO_BOTTOM:
      options->top_to_bottom = true;
      return absl::OkStatus();
    case v1::SYMMETRY_HALF_TURN:
      options->half_turn = true;
      return absl::OkStatus();
    default:
      return InvalidField(fmt::format("options.symmetries[{}]", index),
                          std::to_string(static_cast<int>(symmetry)),
                          "left to right, top to bottom or half turn");
  }
}

void SetBand(const std::optional<chart::Band>& band, v1::Band* (v1::RepeatAnswer::*mutable_band)(),
             v1::RepeatAnswer* to) {
  if (!band.has_value()) return;
  (to->*mutable_band)()->set_first(band->first);
  (to->*mutable_band)()->set_last(band->last);
}

}  // namespace

absl::StatusOr<chart::CheckSettings> FromProto(const v1::CheckSettings& settings) {
  chart::CheckSettings read;
  if (settings.has_longest_carried_run()) {
    RETURN_IF_ERROR(
        ReadRun("longest_carried_run", settings.longest_carried_run(), &read.longest_carried_run));
  }
  if (settings.has_longest_skip()) {
    RETURN_IF_ERROR(ReadRun("longest_skip", settings.longest_skip(), &read.longest_skip));
  }
  if (settings.has_longest_flap()) {
    RETURN_IF_ERROR(ReadRun("longest_flap", settings.longest_flap(), &read.longest_flap));
  }
  return read;
}

v1::CheckResult ToProto(const chart::CheckResult& check, const chart::Design& design,
                        int rules_version, bool swap_colours_offered) {
  v1::CheckResult to;
  for (const auto& finding : check.findings) *to.add_findings() = FindingToProto(finding, design);
  to.set_error_count(check.error_count);
  to.set_warning_count(check.warning_count);
  to.set_note_count(check.note_count);
  to.set_workable(check.workable());
  to.set_rules_version(rules_version);
  to.set_swap_colours_offered(swap_colours_offered ||
                              check.count(chart::FindingCode::kColoursSwapped) > 0);
  for (size_t i = 0; i < chart::kFindingCodes; ++i) {
    if (check.code_counts[i] == 0) continue;
    auto* added = to.add_code_counts();
    added->set_code(EnumTo<v1::FindingCode>(static_cast<chart::FindingCode>(i)));
    added->set_count(check.code_counts[i]);
  }
  OfferReading(check, design, &to);
  to.set_stitch_multiple(WordsOf(chart::StitchMultiple(design)));
  to.set_row_multiple(WordsOf(chart::RowMultiple(design)));
  return to;
}

v1::Edit ToProto(const chart::Edit& edit, const chart::Design& design) {
  v1::Edit to;
  to.set_row(edit.row);
  to.set_stitch(edit.stitch);
  to.set_value(edit.value);
  if (design.convention != chart::Convention::kPicture) return to;
  to.set_colour(ToProto(edit.colour.value_or(edit.value ? chart::Colour::kB : chart::Colour::kA)));
  return to;
}

google::protobuf::RepeatedPtrField<v1::Edit> ToProto(const std::vector<chart::Edit>& edits,
                                                     const chart::Design& design,
                                                     const Stop& stop) {
  google::protobuf::RepeatedPtrField<v1::Edit> to;
  to.Reserve(static_cast<int>(edits.size()));
  for (const auto& edit : edits) {
    if (stop.After(10)) break;
    *to.Add() = ToProto(edit, design);
  }
  return to;
}

absl::StatusOr<chart::RepairOptions> FromProto(const v1::RepairOptions& options,
                                               const chart::Design& design, const Stop& stop) {
  chart::RepairOptions read;
  for (int i = 0; i < options.symmetries_size(); ++i) {
    RETURN_IF_ERROR(ReadSymmetry(i, options.symmetries(i), &read));
  }
  if (options.longest_run() < 0 || options.longest_run() > chart::kMostStitches) {
    return InvalidField("options.longest_run", std::to_string(options.longest_run()),
                        fmt::format("1 to {}, or 0 for no limit", chart::kMostStitches));
  }
  read.longest_run = options.longest_run();
  if (options.locked_areas_size() > kMostAreas) {
    return InvalidField("options.locked_areas",
                        fmt::format("{} areas", options.locked_areas_size()),
                        fmt::format("at most {} areas", kMostAreas));
  }
  if (options.locked_areas_size() == 0) return read;
  std::vector<chart::CellArea> areas;
  for (int i = 0; i < options.locked_areas_size(); ++i) {
    ASSIGN_OR_RETURN(const auto area, AreaFrom(fmt::format("options.locked_areas[{}]", i),
                                               options.locked_areas(i), design.cells));
    areas.push_back(area);
  }
  read.locked = chart::CellsOf(areas, design.cells.rows(), design.cells.stitches(), stop);
  RETURN_IF_ERROR(stop.status());
  return read;
}

v1::RepairResult ToProto(const chart::Repair& repair, const chart::Design& design,
                         const Stop& stop) {
  v1::RepairResult to;
  *to.mutable_edits() = ToProto(repair.edits, design, stop);
  to.set_edit_count(repair.edit_count);
  to.set_lower_bound(repair.lower_bound);
  to.set_optimal(repair.optimal);
  for (const auto& alternative : repair.alternatives) {
    auto* added = to.add_alternatives();
    added->set_kind(EnumTo<v1::RepairAlternativeKind>(alternative.kind));
    added->set_row_shift(alternative.rows_moved);
    added->set_remaining_edit_count(alternative.edits_left);
    added->set_optimal(alternative.optimal);
  }
  chart::Design repaired = design;
  repaired.cells = repair.repaired;
  repaired.picture_colours = repair.picture_colours;
  *to.mutable_repaired() = ChartToProto(repaired);
  return to;
}

v1::Repeats ToProto(const chart::Repeats& repeats) {
  v1::Repeats to;
  to.set_answer_count(repeats.count);
  for (const auto& answer : repeats.answers) {
    auto* added = to.add_answers();
    SetBand(answer.stitch_band, &v1::RepeatAnswer::mutable_stitch_band, added);
    SetBand(answer.row_band, &v1::RepeatAnswer::mutable_row_band, added);
    added->set_stitch_repeat_count(answer.stitch_repeats);
    added->set_row_repeat_count(answer.row_repeats);
    *added->mutable_reduced() = ToProto(answer.reduced);
    added->set_stitch_multiple(WordsOf(chart::StitchMultiple(answer.reduced)));
    added->set_row_multiple(WordsOf(chart::RowMultiple(answer.reduced)));
  }
  return to;
}

}  // namespace rowproof::rpc
