#include "storage/errata.h"

#include <pqxx/pqxx>

#include "services/domain/names/names.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

// Errata with what other seats say of them.
#define ROWPROOF_SELECT_ERRATA                                                                  \
  "select e.*, "                                                                                \
  "array(select c.seat_id from erratum_confirmation c where c.pattern_id = e.pattern_id"        \
  " and c.call_id = e.call_id and c.erratum_id = e.erratum_id order by c.seat_id) as seat_id, " \
  "array(select c.confirmation from erratum_confirmation c where c.pattern_id = e.pattern_id"   \
  " and c.call_id = e.call_id and c.erratum_id = e.erratum_id order by c.seat_id) as "          \
  "confirmation, "                                                                              \
  "array(select to_micros(c.confirmed_at) from erratum_confirmation c"                          \
  " where c.pattern_id = e.pattern_id and c.call_id = e.call_id"                                \
  " and c.erratum_id = e.erratum_id order by c.seat_id) as confirmed_at "                       \
  "from erratum_as_reported e "

constexpr Statement kLoadErratum{"load_erratum", ROWPROOF_SELECT_ERRATA
                                 "where pattern_id = $1 and call_id = $2 and erratum_id = $3"};
constexpr Statement kListErrata{
    "list_errata", ROWPROOF_SELECT_ERRATA
    "where pattern_id = $1 and call_id = $2 "
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

// Of erratum_as_reported.
constexpr int kErratumColumns = 25;

std::vector<faults::ConfirmationRecord> ConfirmationsFrom(const pqxx::row& row) {
  const auto seats = ArrayIn(row[kErratumColumns], TextOf);
  const auto words = ArrayIn(row[kErratumColumns + 1], EnumOf<faults::Confirmation>);
  const auto times = ArrayIn(row[kErratumColumns + 2], [](std::string_view text, const char* name) {
    return MomentIn(text, name);
  });
  RequireSize(words, seats.size(), row[kErratumColumns + 1]);
  RequireSize(times, seats.size(), row[kErratumColumns + 2]);
  std::vector<faults::ConfirmationRecord> confirmations;
  for (size_t i = 0; i < seats.size(); ++i) {
    confirmations.push_back({{seats[i]}, words[i], times[i]});
  }
  return confirmations;
}

faults::ErratumRecord ErratumFields(const pqxx::row& row) {
  faults::ErratumRecord erratum;
  erratum.pattern.value = TextIn(row[0]);
  erratum.call.value = TextIn(row[1]);
  erratum.id.value = TextIn(row[2]);
  erratum.seat.value = TextIn(row[3]);
  erratum.size = TextIn(row[4]);
  erratum.first_report = NumberFrom1(row[5]);
  erratum.last_report = NumberFrom1(row[6]);
  erratum.version_number = NumberFrom1(row[7]);
  erratum.entry = {CountIn(row[8]),
                   CountIn(row[9]),
                   CountIn(row[10]),
                   EnumIn<faults::CountedFrom>(row[11]),
                   EnumIn<faults::SeenIn>(row[12]),
                   EnumIn<faults::ErratumKind>(row[13]),
                   TextIn(row[14]),
                   TextIn(row[15]),
                   TextIn(row[16])};
  erratum.chart_row = CountIn(row[17]);
  erratum.stitches = {CountIn(row[18]), CountIn(row[19])};
  erratum.withdrawn = FlagIn(row[20]);
  erratum.decision = {EnumIn<faults::ErratumState>(row[21]), TextIn(row[22])};
  erratum.decided_at = OptionalMomentIn(row[23], "decided_at");
  erratum.listed_at = MomentIn(row[24], "listed_at");
  return erratum;
}

// From the columns of erratum_as_reported in their order; what a query adds stands after them.
faults::ErratumRecord ErratumFrom(const pqxx::row& row) {
  return ReadRecord(
      "erratum",
      [&] {
        return ToString(ErratumName{{row[0].c_str()}, {row[1].c_str()}, {row[2].c_str()}});
      },
      [&] { return ErratumFields(row); });
}

faults::ErratumRecord WithConfirmations(const pqxx::row& row) {
  faults::ErratumRecord erratum = ErratumFrom(row);
  erratum.confirmations = ReadRecord(
      "erratum_confirmation",
      [&] {
        return ToString(TestCallName{erratum.pattern, erratum.call});
      },
      [&] { return ConfirmationsFrom(row); });
  return erratum;
}

}  // namespace

std::optional<faults::ErratumRecord> LoadErratum(Transaction& transaction, const PatternId& pattern,
                                                 const CallId& call, const ErratumId& erratum) {
  const pqxx::result result =
      Run(transaction, kLoadErratum, pattern.value, call.value, erratum.value);
  if (result.empty()) return std::nullopt;
  return WithConfirmations(result.front());
}

std::vector<faults::ErratumRecord> ListErrata(Transaction& transaction, const PatternId& pattern,
                                              const CallId& call,
                                              const faults::ErrataFilter& filter, int after_row,
                                              const ErratumId& after_id, int limit) {
  std::optional<int> state;
  if (filter.state.has_value()) state = static_cast<int>(*filter.state);
  std::vector<faults::ErratumRecord> errata;
  const pqxx::result result = Run(transaction, kListErrata, pattern.value, call.value, state,
                                  filter.withdrawn_too, after_row, after_id.value, limit);
  for (const auto& row : result) errata.push_back(WithConfirmations(row));
  return errata;
}

void UpdateDecision(Transaction& transaction, const faults::ErratumRecord& erratum) {
  Run(transaction, kDecide, erratum.pattern.value, erratum.call.value, erratum.id.value,
      static_cast<int>(erratum.decision.state), erratum.decision.note,
      MicrosOrNull(erratum.decided_at));
}

void UpsertConfirmation(Transaction& transaction, const faults::ErratumRecord& erratum,
                        const faults::ConfirmationRecord& confirmation) {
  Run(transaction, kConfirm, erratum.pattern.value, erratum.call.value, erratum.id.value,
      confirmation.seat.value, static_cast<int>(confirmation.confirmation),
      Micros(confirmation.confirmed_at));
}

}  // namespace rowproof::storage
