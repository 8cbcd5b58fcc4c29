#include "storage/errata.h"

#include <pqxx/pqxx>

#include "storage/array_values.h"
#include "storage/binary.h"
#include "storage/erratum_columns.h"

namespace rowproof::storage {
namespace {

constexpr Statement kLoadErratum{
    "load_erratum",
    "select e.*, "
    "array(select c.seat_id from erratum_confirmation c where c.pattern_id = e.pattern_id"
    " and c.call_id = e.call_id and c.erratum_id = e.erratum_id order by c.seat_id), "
    "array(select c.confirmation from erratum_confirmation c where c.pattern_id = e.pattern_id"
    " and c.call_id = e.call_id and c.erratum_id = e.erratum_id order by c.seat_id), "
    "array(select to_micros(c.confirmed_at) from erratum_confirmation c"
    " where c.pattern_id = e.pattern_id and c.call_id = e.call_id"
    " and c.erratum_id = e.erratum_id order by c.seat_id) "
    "from erratum_as_reported e where pattern_id = $1 and call_id = $2 and erratum_id = $3"};
constexpr Statement kListErrata{
    "list_errata",
    "select e.*, "
    "array(select c.seat_id from erratum_confirmation c where c.pattern_id = e.pattern_id"
    " and c.call_id = e.call_id and c.erratum_id = e.erratum_id order by c.seat_id), "
    "array(select c.confirmation from erratum_confirmation c where c.pattern_id = e.pattern_id"
    " and c.call_id = e.call_id and c.erratum_id = e.erratum_id order by c.seat_id), "
    "array(select to_micros(c.confirmed_at) from erratum_confirmation c"
    " where c.pattern_id = e.pattern_id and c.call_id = e.call_id"
    " and c.erratum_id = e.erratum_id order by c.seat_id) "
    "from erratum_as_reported e where pattern_id = $1 and call_id = $2 "
    "and ($3::int is null or state = $3::int) and (not withdrawn or $4) "
    "and (chart_row, erratum_id) > ($5, $6) order by chart_row, erratum_id limit $7"};
constexpr Statement kDecide{
    "decide_erratum",
    "update erratum set state = $4, decision_note = $5, decided_at = from_micros($6::bigint) "
    "where pattern_id = $1 and call_id = $2 and erratum_id = $3"};
constexpr Statement kConfirm{
    "confirm_erratum",
    "insert into erratum_confirmation (pattern_id, call_id, erratum_id, seat_id, confirmation,"
    " confirmed_at) values ($1, $2, $3, $4, $5, from_micros($6)) "
    "on conflict (pattern_id, call_id, erratum_id, seat_id) do update "
    "set confirmation = excluded.confirmation, confirmed_at = excluded.confirmed_at"};

ErratumRow WithConfirmations(const pqxx::row& row) {
  ErratumRow erratum = ErratumFrom(row);
  const auto seats = ArrayFrom<std::string>(row[kErratumColumns]);
  const auto words = ArrayFrom<int>(row[kErratumColumns + 1]);
  const auto times = ArrayFrom<int64_t>(row[kErratumColumns + 2]);
  for (size_t i = 0; i < seats.size(); ++i) {
    erratum.confirmations.push_back(
        {{seats[i]}, static_cast<faults::Confirmation>(words[i]), MomentOf(times[i])});
  }
  return erratum;
}

}  // namespace

ErratumRow ErratumFrom(const pqxx::row& row) {
  ErratumRow erratum;
  erratum.pattern.value = row[0].c_str();
  erratum.call.value = row[1].c_str();
  erratum.id.value = row[2].c_str();
  erratum.seat.value = row[3].c_str();
  erratum.size = row[4].c_str();
  erratum.first_report = row[5].as<int>();
  erratum.last_report = row[6].as<int>();
  erratum.version_number = row[7].as<int>();
  erratum.entry = {row[8].as<int>(),
                   row[9].as<int>(),
                   row[10].as<int>(),
                   static_cast<faults::CountedFrom>(row[11].as<int>()),
                   static_cast<faults::SeenIn>(row[12].as<int>()),
                   static_cast<faults::ErratumKind>(row[13].as<int>()),
                   row[14].c_str(),
                   row[15].c_str(),
                   row[16].c_str()};
  erratum.chart_row = row[17].as<int>();
  erratum.stitches = {row[18].as<int>(), row[19].as<int>()};
  erratum.withdrawn = row[20].as<bool>();
  erratum.decision = {static_cast<faults::ErratumState>(row[21].as<int>()), row[22].c_str()};
  if (!row[23].is_null()) erratum.decided_at = MomentOf(row[23].as<int64_t>());
  erratum.listed_at = MomentOf(row[24].as<int64_t>());
  return erratum;
}

std::optional<ErratumRow> LoadErratum(Transaction& transaction, const PatternId& pattern,
                                      const CallId& call, const ErratumId& erratum) {
  const pqxx::result result =
      Run(transaction, kLoadErratum, pattern.value, call.value, erratum.value);
  if (result.empty()) return std::nullopt;
  return WithConfirmations(result.front());
}

std::vector<ErratumRow> ListErrata(Transaction& transaction, const PatternId& pattern,
                                   const CallId& call, const ErrataFilter& filter, int after_row,
                                   const ErratumId& after_id, int limit) {
  std::optional<int> state;
  if (filter.state.has_value()) state = static_cast<int>(*filter.state);
  std::vector<ErratumRow> errata;
  const pqxx::result result = Run(transaction, kListErrata, pattern.value, call.value, state,
                                  filter.withdrawn_too, after_row, after_id.value, limit);
  for (const auto& row : result) errata.push_back(WithConfirmations(row));
  return errata;
}

void UpdateDecision(Transaction& transaction, const ErratumRow& erratum) {
  Run(transaction, kDecide, erratum.pattern.value, erratum.call.value, erratum.id.value,
      static_cast<int>(erratum.decision.state), erratum.decision.note,
      MicrosOrNull(erratum.decided_at));
}

void UpsertConfirmation(Transaction& transaction, const ErratumRow& erratum,
                        const ConfirmationRow& confirmation) {
  Run(transaction, kConfirm, erratum.pattern.value, erratum.call.value, erratum.id.value,
      confirmation.seat.value, static_cast<int>(confirmation.confirmation),
      Micros(confirmation.confirmed_at));
}

}  // namespace rowproof::storage
