#include "storage/reports.h"

#include <pqxx/pqxx>

#include "services/domain/check.h"
#include "storage/binary.h"
#include "storage/number_text.h"
#include "storage/report_columns.h"

namespace rowproof::storage {
namespace {

// What becomes of the seat; nothing of all this where seat or call have changed meanwhile.
const std::string kSeatPart =
    "with s as (update seat set state = $52, report_count = $4 "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3 and report_count = $4 - 1"
    " and state = $57 and exists (select from test_call"
    " where pattern_id = $1 and call_id = $2 and state = $58) returning 1)";
// The claim's result is the report's number.
const std::string kClaimPart =
    ", q as (insert into request_claim (account_id, request_id, method, digest, result, created_at)"
    " select $53, $54, $55, $56, $4::text, from_micros($7) from s)";
const std::string kErrataPart =
    ", k as (update erratum"
    " set last_report = case when erratum_id = any($60::text[]) then $4 - 1 end from s"
    " where pattern_id = $1 and call_id = $2"
    " and erratum_id = any($60::text[] || $61::text[]))"
    ", e as (insert into erratum (pattern_id, call_id, erratum_id, seat_id, first_report,"
    " worked_row, kind, was, should_be, chart_row, first_stitch, last_stitch, listed_at) "
    "select $1, $2, id, $3, $4, worked_row, kind, was, should_be, chart_row, first_stitch,"
    " last_stitch, from_micros($7) "
    "from s, unnest($62::text[], $63::integer[], $64::smallint[], $65::text[], $66::text[],"
    " $67::integer[], $68::integer[], $69::integer[])"
    " as u (id, worked_row, kind, was, should_be, chart_row, first_stitch, last_stitch))";
const std::string kReportPart =
    " insert into report (pattern_id, call_id, seat_id, number, entered_by, on_behalf,"
    " created_at, version_number, size_name, worked_from, hand, terms,"
    " yarn_colour, yarn_is_own, yarn_name, yarn_fibre, yarn_weight_class, yarn_wraps_per_inch,"
    " yarn_ball_length_m, yarn_ball_mass_g, yarn_length_m, yarn_length_step_m, yarn_mass_before_g,"
    " yarn_mass_after_g, yarn_scale_step_g, yarn_with_swatch, yarn_with_border, hook_mm, ends,"
    " gauge_is_after, gauge_stitches, gauge_rows, gauge_stitch_span_mm, gauge_row_span_mm,"
    " gauge_scale_step_mm, how_blocked, width_before_mm, height_before_mm, width_after_mm,"
    " height_after_mm, tape_step_mm, minutes, last_row, finished, remarks,"
    " erratum_id, erratum_first, erratum_last, erratum_counted_from, erratum_seen_in,"
    " erratum_remark, yarn_tex) "
    "select $1, $2, $3, $4, $5, $6, from_micros($7), $8, $9, $10, $11, $12, $13, $14, $15, $16,"
    " $17, $18, $19, $20, $21, $22, $23, $24, $25, $26, $27, $28, $29, $30, $31, $32, $33, $34,"
    " $35, $36, $37, $38, $39, $40, $41, $42, $43, $44, $45, $46, $47, $48, $49, $50, $51, $59 "
    "from s";
// Most revisions change no erratum: the part for these would cost as much again.
const std::string kInsertAloneText = kSeatPart + kClaimPart + kReportPart;
const std::string kInsertText = kSeatPart + kClaimPart + kErrataPart + kReportPart;
const Statement kInsertAlone{"insert_report_alone", kInsertAloneText.c_str()};
const Statement kInsertReport{"insert_report", kInsertText.c_str()};

constexpr Statement kLoadReport{
    "load_report",
    "select * from report_with_errata "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3 and number = $4"};
constexpr Statement kListOfSeat{
    "list_seat_reports",
    "select * from report_with_errata "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3 and ($4 = 0 or number < $4) "
    "order by number desc limit $5"};
constexpr Statement kListNewest{
    "list_newest_reports",
    "select r.* from report_with_errata r join seat s using (pattern_id, call_id, seat_id) "
    "where r.number = s.report_count and r.pattern_id = $1 and r.call_id = $2 and r.seat_id > $3 "
    "order by r.seat_id limit $4"};

std::string IdentifierArray(const std::vector<ErratumId>& errata) {
  ArrayText text;
  for (const auto& id : errata) text.Add(id.value);
  return text.Text();
}

std::vector<ReportRow> ReportsFrom(const pqxx::result& result) {
  std::vector<ReportRow> reports;
  for (const auto& row : result) reports.push_back(ReportFrom(row));
  return reports;
}

}  // namespace

void InsertReport(Transaction& transaction, const ReportRow& row,
                  const std::vector<PlacedErratum>& placed, const ErrataChanges& changes,
                  const StateChange& change) {
  const testcalls::Report& report = row.report;
  const YarnArrays yarn(report.yarn);
  const GaugeArrays gauge(report);
  const ErratumArrays errata(report.errata, placed);
  const std::optional<Claim>& claim = transaction.claim();
  ROWPROOF_CHECK(claim.has_value());  // usecases claim every write
  std::optional<int> ends;
  if (report.ends.has_value()) ends = static_cast<int>(*report.ends);
  const auto run = [&](const Statement& statement, const auto&... changed) {
    RunWhole(transaction, statement, row.pattern.value, row.call.value, row.seat.value, row.number,
             row.entered_by.value, row.on_behalf, Micros(row.created_at), report.version,
             report.size, static_cast<int>(report.worked_from), static_cast<int>(report.hand),
             static_cast<int>(report.terms), yarn.colour.Text(), yarn.is_own.Text(),
             yarn.name.Text(), yarn.fibre.Text(), yarn.weight_class.Text(),
             yarn.wraps_per_inch.Text(), yarn.ball_length_m.Text(), yarn.ball_mass_g.Text(),
             yarn.length_m.Text(), yarn.length_step_m.Text(), yarn.mass_before_g.Text(),
             yarn.mass_after_g.Text(), yarn.scale_step_g.Text(), yarn.with_swatch.Text(),
             yarn.with_border.Text(), NumberText(report.hook_mm), ends, gauge.is_after.Text(),
             gauge.stitches.Text(), gauge.rows.Text(), gauge.stitch_span_mm.Text(),
             gauge.row_span_mm.Text(), gauge.scale_step_mm.Text(), report.how_blocked,
             NumberText(report.width_before_mm), NumberText(report.height_before_mm),
             NumberText(report.width_after_mm), NumberText(report.height_after_mm),
             NumberText(report.tape_step_mm), NumberText(report.minutes), report.last_row,
             report.finished, report.remarks, errata.id.Text(), errata.first_counted.Text(),
             errata.last_counted.Text(), errata.counted_from.Text(), errata.seen_in.Text(),
             errata.remark.Text(), static_cast<int>(change.to), claim->account, claim->request_id,
             claim->method, Binary(claim->digest), static_cast<int>(change.from),
             static_cast<int>(change.call), yarn.tex.Text(), changed...);
  };
  const NewErratumArrays added(report.errata, placed);
  if (added.empty() && changes.empty()) {
    run(kInsertAlone);
    return;
  }
  run(kInsertReport, IdentifierArray(changes.withdrawn), IdentifierArray(changes.returned),
      added.id.Text(), added.row.Text(), added.kind.Text(), added.was.Text(),
      added.should_be.Text(), added.chart_row.Text(), added.first_stitch.Text(),
      added.last_stitch.Text());
}

std::optional<ReportRow> LoadReport(Transaction& transaction, const PatternId& pattern,
                                    const CallId& call, const SeatId& seat, int number) {
  const pqxx::result result =
      Run(transaction, kLoadReport, pattern.value, call.value, seat.value, number);
  if (result.empty()) return std::nullopt;
  return ReportFrom(result.front());
}

std::vector<ReportRow> ListSeatReports(Transaction& transaction, const PatternId& pattern,
                                       const CallId& call, const SeatId& seat, int before_number,
                                       int limit) {
  return ReportsFrom(
      Run(transaction, kListOfSeat, pattern.value, call.value, seat.value, before_number, limit));
}

std::vector<ReportRow> ListNewestReports(Transaction& transaction, const PatternId& pattern,
                                         const CallId& call, const SeatId& after, int limit) {
  return ReportsFrom(Run(transaction, kListNewest, pattern.value, call.value, after.value, limit));
}

}  // namespace rowproof::storage
