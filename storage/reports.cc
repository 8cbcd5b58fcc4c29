#include "storage/reports.h"

#include <pqxx/pqxx>

#include "services/domain/check.h"
#include "services/domain/names/names.h"
#include "storage/columns/column_reader.h"
#include "storage/columns/column_writers.h"
#include "storage/columns/report_columns.h"
#include "storage/columns/statement_text.h"

namespace rowproof::storage {
namespace {

// What a revision changes besides its own record.
struct SeatWrite {
  StateChange change;
  Claim claim;
};
template <typename Archive>
void SeatColumns(Archive& a, StructOf<SeatWrite> auto& write) {
  a.Column("seat_state", write.change.to);
  a.Column("seat_state_before", write.change.from);
  a.Column("call_state", write.change.call);
  a.Column("claim_account", write.claim.account);
  a.Column("claim_request", write.claim.request_id);
  a.Column("claim_method", write.claim.method);
  a.Column("claim_digest", write.claim.digest);
}

struct ErrataWrite {
  std::vector<ErratumId> withdrawn;
  std::vector<ErratumId> returned;
  std::vector<NewErratum> added;
};
template <typename Archive>
void ErrataChangeColumns(Archive& a, StructOf<ErrataWrite> auto& write) {
  a.List(write.withdrawn, [](auto& list, auto& id) { list.Column("withdrawn", id.value); });
  a.List(write.returned, [](auto& list, auto& id) { list.Column("returned", id.value); });
}
template <typename Archive>
void AddedColumns(Archive& a, StructOf<ErrataWrite> auto& write) {
  a.List(write.added, [](auto& list, auto& added) { NewErratumColumns(list, added); });
}

// The seat's new state; nothing is changed if seat or test call have changed in the meantime.
constexpr char kSeatPart[] =
    "with s as (update seat set state = {seat_state}, report_count = {number} "
    "where pattern_id = {pattern_id} and call_id = {call_id} and seat_id = {seat_id}"
    " and report_count = {number} - 1 and state = {seat_state_before}"
    " and exists (select from test_call where pattern_id = {pattern_id} and call_id = {call_id}"
    " and state = {call_state}) returning 1)";
// The claim's result is the report's number.
constexpr char kClaimPart[] =
    ", q as (insert into request_claim (account_id, request_id, method, digest, result, created_at,"
    " pattern_id) select {claim_account}, {claim_request}, {claim_method}, {claim_digest},"
    " {number}::text, from_micros({created_at}), (select {pattern_id} from"
    " pg_advisory_xact_lock_shared(hashtextextended({pattern_id}, 0))) from s)";
constexpr char kErrataPart[] =
    ", k as (update erratum"
    " set last_report = case when erratum_id = any({withdrawn}::text[]) then {number} - 1 end"
    " from s where pattern_id = {pattern_id} and call_id = {call_id}"
    " and erratum_id = any({withdrawn}::text[] || {returned}::text[]))"
    ", e as (insert into erratum (pattern_id, call_id, seat_id, first_report, listed_at, ";

template <typename T, typename Fields>
std::vector<ColumnNames::Named> NamedBy(const Fields& fields, const char* prefix = "") {
  ColumnNames names(prefix);
  const T none{};
  fields(names, none);
  return names.named();
}
void Append(std::vector<ColumnNames::Named> more, std::vector<ColumnNames::Named>* to) {
  to->insert(to->end(), more.begin(), more.end());
}

// Most revisions change no erratum: the part for these would cost as much again.
std::string InsertText(bool with_errata) {
  const auto columns = NamedBy<StoredReport>([](auto& a, auto& r) { ReportColumns(a, r); });
  auto parameters = columns;
  Append(NamedBy<SeatWrite>([](auto& a, auto& w) { SeatColumns(a, w); }), &parameters);
  std::string text = std::string(kSeatPart) + kClaimPart;
  if (with_errata) {
    Append(NamedBy<ErrataWrite>([](auto& a, auto& w) { ErrataChangeColumns(a, w); }), &parameters);
    const auto added = NamedBy<ErrataWrite>([](auto& a, auto& w) { AddedColumns(a, w); }, "added_");
    Append(added, &parameters);
    text += kErrataPart + NamesOf(added) +
            ") select {pattern_id}, {call_id}, {seat_id}, {number}, from_micros({created_at}), " +
            NamesOf(added) + " from s, " + UnnestOf(added) + ")";
  }
  text += " insert into report (" + NamesOf(columns) + ") select " + ValuesOf(columns) + " from s";
  return NumberParameters(text, parameters);
}

const std::string kInsertAloneText = InsertText(false);
const std::string kInsertText = InsertText(true);
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

StoredReport StoredOf(const testcalls::ReportRecord& row,
                      const std::vector<PlacedErratum>& placed) {
  StoredReport stored;
  stored.row = row;
  testcalls::Report& report = stored.row.report;
  for (const auto& reading : report.gauge_before) stored.gauge.push_back({false, reading});
  for (const auto& reading : report.gauge_after) stored.gauge.push_back({true, reading});
  for (size_t i = 0; i < report.errata.size(); ++i) {
    stored.errata.push_back({placed[i].id, std::move(report.errata[i])});
  }
  return stored;
}

testcalls::ReportRecord RowOf(StoredReport stored) {
  testcalls::Report& report = stored.row.report;
  for (const StoredReading& gauge : stored.gauge) {
    (gauge.is_after ? report.gauge_after : report.gauge_before).push_back(gauge.reading);
  }
  for (StoredErratum& entry : stored.errata) {
    stored.row.errata.push_back(std::move(entry.id));
    report.errata.push_back(std::move(entry.erratum));
  }
  return std::move(stored.row);
}

testcalls::ReportRecord ReportFrom(const pqxx::row& row) {
  const auto name = [&] {
    return ToString(ReportName{{row["pattern_id"].c_str()},
                               {row["call_id"].c_str()},
                               {row["seat_id"].c_str()},
                               NumberIn<int>(row["number"].c_str()).value_or(0)});
  };
  return ReadRecord("report", name, [&] {
    StoredReport stored;
    ColumnReader reader(row);
    ReportColumns(reader, stored);
    return RowOf(std::move(stored));
  });
}

std::vector<testcalls::ReportRecord> ReportsFrom(const pqxx::result& result) {
  std::vector<testcalls::ReportRecord> reports;
  for (const auto& row : result) reports.push_back(ReportFrom(row));
  return reports;
}

ErrataWrite ErrataWriteOf(const StoredReport& report, const std::vector<PlacedErratum>& placed,
                          const ErrataChanges& changes) {
  ErrataWrite write{changes.withdrawn, changes.returned, {}};
  for (size_t i = 0; i < placed.size(); ++i) {
    if (placed[i].is_new) write.added.push_back({report.errata[i], placed[i]});
  }
  return write;
}

}  // namespace

void InsertReport(Transaction& transaction, const testcalls::ReportRecord& row,
                  const std::vector<PlacedErratum>& placed, const ErrataChanges& changes,
                  const StateChange& change) {
  const std::optional<Claim>& claim = transaction.claim();
  ROWPROOF_CHECK(claim.has_value());  // usecases claim every write
  ROWPROOF_CHECK(placed.size() == row.report.errata.size());
  const StoredReport stored = StoredOf(row, placed);
  const ErrataWrite errata = ErrataWriteOf(stored, placed, changes);
  const bool alone = errata.added.empty() && changes.empty();
  ColumnValues values;
  ReportColumns(values, stored);
  const SeatWrite seat{change, *claim};
  SeatColumns(values, seat);
  if (!alone) {
    ErrataChangeColumns(values, errata);
    AddedColumns(values, errata);
  }
  RunWhole(transaction, alone ? kInsertAlone : kInsertReport,
           pqxx::prepare::make_dynamic_params(values.values()));
}

std::optional<testcalls::ReportRecord> LoadReport(Transaction& transaction,
                                                  const PatternId& pattern, const CallId& call,
                                                  const SeatId& seat, int number) {
  const pqxx::result result =
      Run(transaction, kLoadReport, pattern.value, call.value, seat.value, number);
  if (result.empty()) return std::nullopt;
  return ReportFrom(result.front());
}

std::vector<testcalls::ReportRecord> ListSeatReports(Transaction& transaction,
                                                     const PatternId& pattern, const CallId& call,
                                                     const SeatId& seat, int before_number,
                                                     int limit) {
  return ReportsFrom(
      Run(transaction, kListOfSeat, pattern.value, call.value, seat.value, before_number, limit));
}

std::vector<testcalls::ReportRecord> ListNewestReports(Transaction& transaction,
                                                       const PatternId& pattern, const CallId& call,
                                                       const SeatId& after, int limit) {
  return ReportsFrom(Run(transaction, kListNewest, pattern.value, call.value, after.value, limit));
}

}  // namespace rowproof::storage
