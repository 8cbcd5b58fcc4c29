#include "services/rpc/converters/report.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/materials.h"
#include "services/rpc/converters/charts/yarn_role.h"
#include "services/rpc/converters/enum_from_proto.h"
#include "services/rpc/converters/pattern.h"

namespace rowproof::rpc {
namespace {

// Proto enums begin at 1 in the domain's order; `first` is the domain's value of 1.
template <typename Enum, typename ProtoEnum>
absl::Status ReadEnum(const std::string& field, ProtoEnum value, int first, int count, Enum* to) {
  const int number = static_cast<int>(value);
  if (number == 0) return absl::OkStatus();  // the domain's default stays
  if (number < 0 || number > count) {
    return InvalidField(field, std::to_string(number), "a value of its enum");
  }
  *to = static_cast<Enum>(number - 1 + first);
  return absl::OkStatus();
}

absl::Status ReadYarnUse(const std::string& field, const v1::YarnUse& from,
                         testcalls::YarnUse* use) {
  ASSIGN_OR_RETURN(const auto colour, ColourOf(field + ".role", from.role()));
  use->colour = colour;
  if (from.has_yarn()) use->yarn = FromProto(from.yarn());
  if (from.has_length_m()) use->length_m = from.length_m();
  if (from.has_length_step_m()) use->length_step_m = from.length_step_m();
  if (from.has_mass_before_g()) use->mass_before_g = from.mass_before_g();
  if (from.has_mass_after_g()) use->mass_after_g = from.mass_after_g();
  if (from.has_scale_step_g()) use->scale_step_g = from.scale_step_g();
  use->with_swatch = from.with_swatch();
  use->with_border = from.with_border();
  return absl::OkStatus();
}

template <typename Readings>
std::vector<estimate::GaugeReading> ReadingsFrom(const Readings& readings) {
  std::vector<estimate::GaugeReading> read;
  for (const v1::GaugeReading& from : readings) read.push_back(FromProto(from));
  return read;
}

absl::Status ReadErratum(const std::string& field, const v1::ErratumEntry& from,
                         faults::Erratum* erratum) {
  erratum->row = from.row();
  erratum->first_stitch = from.first_stitch();
  erratum->last_stitch = from.last_stitch();
  RETURN_IF_ERROR(
      ReadEnum(field + ".counted_from", from.counted_from(), 0, 2, &erratum->counted_from));
  RETURN_IF_ERROR(ReadEnum(field + ".seen_in", from.seen_in(), 0, 4, &erratum->seen_in));
  RETURN_IF_ERROR(ReadEnum(field + ".kind", from.kind(), 0, static_cast<int>(faults::kErratumKinds),
                           &erratum->kind));
  erratum->was = from.was();
  erratum->should_be = from.should_be();
  erratum->remark = from.remark();
  return absl::OkStatus();
}

absl::Status ReadHow(const v1::ReportContent& from, testcalls::Report* report) {
  RETURN_IF_ERROR(ReadEnum("content.worked_from", from.worked_from(), 1, 3, &report->worked_from));
  RETURN_IF_ERROR(ReadEnum("content.hand", from.hand(), 0, 2, &report->hand));
  RETURN_IF_ERROR(ReadEnum("content.terms", from.terms(), 0, 2, &report->terms));
  if (from.ends() != v1::ENDS_UNSPECIFIED) {
    report->ends = chart::Ends::kCut;
    RETURN_IF_ERROR(ReadEnum("content.ends", from.ends(), 0, 3, &*report->ends));
  }
  if (from.has_hook_mm()) report->hook_mm = from.hook_mm();
  return absl::OkStatus();
}

void ReadMeasurements(const v1::ReportContent& from, testcalls::Report* report) {
  report->gauge_before = ReadingsFrom(from.gauge_before());
  report->gauge_after = ReadingsFrom(from.gauge_after());
  report->how_blocked = from.how_blocked();
  if (from.has_width_before_mm()) report->width_before_mm = from.width_before_mm();
  if (from.has_height_before_mm()) report->height_before_mm = from.height_before_mm();
  if (from.has_width_after_mm()) report->width_after_mm = from.width_after_mm();
  if (from.has_height_after_mm()) report->height_after_mm = from.height_after_mm();
  if (from.has_tape_step_mm()) report->tape_step_mm = from.tape_step_mm();
  if (from.has_minutes()) report->minutes = from.minutes();
  report->last_row = from.last_row();
  report->finished = from.finished();
}

v1::YarnUse ToProto(const testcalls::YarnUse& use) {
  v1::YarnUse to;
  to.set_role(RoleOf(use.colour));
  if (use.yarn.has_value()) *to.mutable_yarn() = rpc::ToProto(*use.yarn);
  if (use.length_m.has_value()) to.set_length_m(*use.length_m);
  to.set_length_step_m(use.length_step_m);
  if (use.mass_before_g.has_value()) to.set_mass_before_g(*use.mass_before_g);
  if (use.mass_after_g.has_value()) to.set_mass_after_g(*use.mass_after_g);
  to.set_scale_step_g(use.scale_step_g);
  to.set_with_swatch(use.with_swatch);
  to.set_with_border(use.with_border);
  return to;
}

v1::GaugeReading ToProto(const estimate::GaugeReading& reading) {
  v1::GaugeReading to;
  to.set_stitches(reading.stitches);
  to.set_rows(reading.rows);
  to.set_stitch_span_mm(reading.stitch_span_mm);
  to.set_row_span_mm(reading.row_span_mm);
  to.set_scale_step_mm(reading.scale_step_mm);
  return to;
}

v1::ErratumEntry ToProto(const faults::Erratum& erratum) {
  v1::ErratumEntry to;
  to.set_row(erratum.row);
  to.set_first_stitch(erratum.first_stitch);
  to.set_last_stitch(erratum.last_stitch);
  to.set_counted_from(static_cast<v1::CountedFrom>(static_cast<int>(erratum.counted_from) + 1));
  to.set_seen_in(static_cast<v1::SeenIn>(static_cast<int>(erratum.seen_in) + 1));
  to.set_kind(static_cast<v1::ErratumKind>(static_cast<int>(erratum.kind) + 1));
  to.set_was(erratum.was);
  to.set_should_be(erratum.should_be);
  to.set_remark(erratum.remark);
  return to;
}

}  // namespace

absl::StatusOr<testcalls::Report> FromProto(const PatternId& pattern,
                                            const v1::ReportContent& from) {
  testcalls::Report report;
  ASSIGN_OR_RETURN(auto version, VersionOf("content.version", pattern, from.version()));
  report.version = version;
  RETURN_IF_ERROR(ReadHow(from, &report));
  if (from.yarn_size() > static_cast<int>(estimate::kYarnColours)) {
    return InvalidField("content.yarn", fmt::format("{} entries", from.yarn_size()),
                        "at most one entry for each yarn");
  }
  for (int i = 0; i < from.yarn_size(); ++i) {
    testcalls::YarnUse use;
    if (auto s = ReadYarnUse(fmt::format("content.yarn[{}]", i), from.yarn(i), &use); !s.ok()) {
      return s;
    }
    report.yarn.push_back(std::move(use));
  }
  ReadMeasurements(from, &report);
  if (from.errata_size() > static_cast<int>(testcalls::kMostErrata)) {
    return InvalidField("content.errata", fmt::format("{} errata", from.errata_size()),
                        fmt::format("at most {} errata", testcalls::kMostErrata));
  }
  for (int i = 0; i < from.errata_size(); ++i) {
    faults::Erratum erratum;
    if (auto s = ReadErratum(fmt::format("content.errata[{}]", i), from.errata(i), &erratum);
        !s.ok()) {
      return s;
    }
    report.errata.push_back(std::move(erratum));
  }
  report.remarks = from.remarks();
  return report;
}

v1::ReportContent ToProto(const PatternId& pattern, const testcalls::Report& report) {
  v1::ReportContent to;
  to.set_version(ToString(VersionName{pattern, report.version}));
  to.set_worked_from(static_cast<v1::WorkedFrom>(report.worked_from));
  to.set_hand(static_cast<v1::Hand>(static_cast<int>(report.hand) + 1));
  to.set_terms(static_cast<v1::Terms>(static_cast<int>(report.terms) + 1));
  for (const auto& use : report.yarn) *to.add_yarn() = ToProto(use);
  if (report.hook_mm.has_value()) to.set_hook_mm(*report.hook_mm);
  if (report.ends.has_value()) {
    to.set_ends(static_cast<v1::Ends>(static_cast<int>(*report.ends) + 1));
  }
  for (const auto& reading : report.gauge_before) *to.add_gauge_before() = ToProto(reading);
  for (const auto& reading : report.gauge_after) *to.add_gauge_after() = ToProto(reading);
  to.set_how_blocked(report.how_blocked);
  if (report.width_before_mm.has_value()) to.set_width_before_mm(*report.width_before_mm);
  if (report.height_before_mm.has_value()) to.set_height_before_mm(*report.height_before_mm);
  if (report.width_after_mm.has_value()) to.set_width_after_mm(*report.width_after_mm);
  if (report.height_after_mm.has_value()) to.set_height_after_mm(*report.height_after_mm);
  to.set_tape_step_mm(report.tape_step_mm);
  if (report.minutes.has_value()) to.set_minutes(*report.minutes);
  to.set_last_row(report.last_row);
  to.set_finished(report.finished);
  for (const auto& erratum : report.errata) *to.add_errata() = ToProto(erratum);
  to.set_remarks(report.remarks);
  return to;
}

v1::Report ToProto(const testcalls::ReportRecord& row) {
  v1::Report to;
  if (row.number != 0)
    to.set_name(ToString(ReportName{row.pattern, row.call, row.seat, row.number}));
  to.set_size(row.report.size);
  to.set_version(ToString(VersionName{row.pattern, row.report.version}));
  to.set_entered_by(ToString(AccountName{row.entered_by}));
  to.set_on_behalf(row.on_behalf);
  *to.mutable_create_time() = ToProto(row.created_at);
  *to.mutable_content() = ToProto(row.pattern, row.report);
  for (const auto& erratum : row.errata) {
    to.add_errata(ToString(ErratumName{row.pattern, row.call, erratum}));
  }
  return to;
}

v1::Report ToProto(const usecases::ReadReport& report) {
  v1::Report to = ToProto(report.row);
  for (const auto& slip : report.slips) {
    auto* added = to.add_slips();
    added->set_code(EnumTo<v1::SlipCode>(slip.code));
    added->set_field(slip.field);
    added->set_sentence(slip.sentence);
    if (slip.suggested.has_value()) added->set_suggested(*slip.suggested);
    added->set_hint(slip.strength == testcalls::SlipStrength::kHint);
  }
  return to;
}

v1::Erratum ToProto(const faults::ErratumRecord& row) {
  v1::Erratum to;
  to.set_name(ToString(ErratumName{row.pattern, row.call, row.id}));
  to.set_seat(ToString(SeatName{row.pattern, row.call, row.seat}));
  to.set_report(ToString(ReportName{row.pattern, row.call, row.seat, row.last_report}));
  to.set_size(row.size);
  to.set_version(ToString(VersionName{row.pattern, row.version_number}));
  *to.mutable_entry() = ToProto(row.entry);
  to.set_chart_row(row.chart_row);
  to.set_first_stitch(row.stitches.first);
  to.set_last_stitch(row.stitches.last);
  to.set_withdrawn(row.withdrawn);
  to.set_state(static_cast<v1::ErratumState>(row.decision.state));
  to.set_decision_note(row.decision.note);
  if (row.decided_at.has_value()) *to.mutable_decide_time() = ToProto(*row.decided_at);
  *to.mutable_list_time() = ToProto(row.listed_at);
  for (const auto& confirmation : row.confirmations) {
    auto* added = to.add_confirmations();
    added->set_seat(ToString(SeatName{row.pattern, row.call, confirmation.seat}));
    added->set_confirmation(static_cast<v1::Confirmation>(confirmation.confirmation));
    *added->mutable_confirm_time() = ToProto(confirmation.confirmed_at);
  }
  return to;
}

}  // namespace rowproof::rpc
