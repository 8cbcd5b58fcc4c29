#include "storage/reconciliations.h"

#include <pqxx/pqxx>

#include "services/domain/names/names.h"
#include "storage/json/reconciliation_json.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

constexpr Statement kCountReconciliations{
    "count_reconciliations",
    "select coalesce(max(number), 0) from reconciliation where pattern_id = $1 and call_id = $2"};
constexpr Statement kInsertReconciliation{
    "insert_reconciliation",
    "insert into reconciliation (pattern_id, call_id, number, author_id, created_at,"
    " version_number, model_version, result) "
    "values ($1, $2, $3, $4, from_micros($5), $6, $7, $8)"};
constexpr Statement kLoadReconciliation{
    "load_reconciliation",
    "select number, author_id, to_micros(created_at), version_number, model_version, result "
    "from reconciliation where pattern_id = $1 and call_id = $2 and number = $3"};
constexpr Statement kLoadNewest{
    "load_newest_reconciliation",
    "select number, author_id, to_micros(created_at), version_number, model_version, result "
    "from reconciliation where pattern_id = $1 and call_id = $2 order by number desc limit 1"};
constexpr Statement kListReconciliations{
    "list_reconciliations",
    "select number, author_id, to_micros(created_at), version_number, model_version,"
    " result->'reports' from reconciliation where pattern_id = $1 and call_id = $2 "
    "and ($3 = 0 or number < $3) order by number desc limit $4"};
constexpr Statement kInsertSetAside{
    "insert_set_aside",
    "insert into set_aside (pattern_id, call_id, set_aside_id, seat_id, quantity, note, set_at) "
    "values ($1, $2, $3, $4, $5, $6, from_micros($7))"};
constexpr Statement kDeleteSetAside{
    "delete_set_aside",
    "delete from set_aside where pattern_id = $1 and call_id = $2 and set_aside_id = $3"};
constexpr Statement kLoadSetAside{
    "load_set_aside",
    "select set_aside_id, seat_id, quantity, note, to_micros(set_at) from set_aside "
    "where pattern_id = $1 and call_id = $2 and set_aside_id = $3"};
constexpr Statement kFindSetAside{
    "find_set_aside",
    "select set_aside_id from set_aside "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3 and quantity = $4"};
constexpr Statement kListSetAsides{
    "list_set_asides",
    "select set_aside_id, seat_id, quantity, note, to_micros(set_at) from set_aside "
    "where pattern_id = $1 and call_id = $2 and (seat_id, quantity) > ($3, $4::smallint) "
    "order by seat_id, quantity limit $5"};
constexpr Statement kWorkSteps{"load_work_steps",
                               "select seat_id, version_number, last_row from report "
                               "where pattern_id = $1 and call_id = $2 order by seat_id, number"};

// `result` sets the last column's values in reconciliation.result.
template <typename Result>
reconcile::ReconciliationRecord RowFrom(const PatternId& pattern, const CallId& call,
                                        const pqxx::row& row, const Result& result) {
  reconcile::ReconciliationRecord reconciliation;
  reconciliation.pattern = pattern;
  reconciliation.call = call;
  return ReadRecord(
      "reconciliation",
      [&] {
        return ToString(
            ReconciliationName{pattern, call, NumberIn<int>(row[0].c_str()).value_or(0)});
      },
      [&] {
        reconciliation.number = NumberFrom1(row[0]);
        reconciliation.author.value = TextIn(row[1]);
        reconciliation.created_at = MomentIn(row[2], "created_at");
        reconciliation.version_number = NumberFrom1(row[3]);
        reconciliation.model_version = CountIn(row[4]);
        const auto text = RawIn(row[5], "result");
        ReadColumn("result", [&] { result(std::string(text), &reconciliation.result); });
        return reconciliation;
      });
}

std::optional<reconcile::ReconciliationRecord> WholeRow(const PatternId& pattern,
                                                        const CallId& call,
                                                        const pqxx::result& result) {
  if (result.empty()) return std::nullopt;
  return RowFrom(pattern, call, result.front(),
                 [](const std::string& text, reconcile::Reconciliation* whole) {
                   *whole = ReconciliationFromJson(text);
                 });
}

reconcile::SetAsideRecord SetAsideFrom(const PatternId& pattern, const CallId& call,
                                       const pqxx::row& row) {
  return ReadRecord(
      "set_aside",
      [&] {
        return ToString(SetAsideName{pattern, call, {row[0].c_str()}});
      },
      [&]() -> reconcile::SetAsideRecord {
        return {{TextIn(row[0])},
                {TextIn(row[1]), EnumIn<reconcile::Quantity>(row[2]), TextIn(row[3])},
                MomentIn(row[4], "set_at")};
      });
}

}  // namespace

int CountReconciliations(Transaction& transaction, const PatternId& pattern, const CallId& call) {
  return Run(transaction, kCountReconciliations, pattern.value, call.value).front()[0].as<int>();
}

void InsertReconciliation(Transaction& transaction, const reconcile::ReconciliationRecord& row) {
  Run(transaction, kInsertReconciliation, row.pattern.value, row.call.value, row.number,
      row.author.value, Micros(row.created_at), row.version_number, row.model_version,
      ReconciliationToJson(row.result));
}

std::optional<reconcile::ReconciliationRecord> LoadReconciliation(Transaction& transaction,
                                                                  const PatternId& pattern,
                                                                  const CallId& call, int number) {
  return WholeRow(pattern, call,
                  Run(transaction, kLoadReconciliation, pattern.value, call.value, number));
}

std::optional<reconcile::ReconciliationRecord> LoadNewestReconciliation(Transaction& transaction,
                                                                        const PatternId& pattern,
                                                                        const CallId& call) {
  return WholeRow(pattern, call, Run(transaction, kLoadNewest, pattern.value, call.value));
}

std::vector<reconcile::ReconciliationRecord> ListReconciliations(Transaction& transaction,
                                                                 const PatternId& pattern,
                                                                 const CallId& call,
                                                                 int before_number, int limit) {
  std::vector<reconcile::ReconciliationRecord> rows;
  const pqxx::result result =
      Run(transaction, kListReconciliations, pattern.value, call.value, before_number, limit);
  for (const auto& row : result) {
    rows.push_back(
        RowFrom(pattern, call, row, [](const std::string& text, reconcile::Reconciliation* listed) {
          listed->reports = UsedReportsFromJson(text);
        }));
  }
  return rows;
}

void InsertSetAside(Transaction& transaction, const PatternId& pattern, const CallId& call,
                    const reconcile::SetAsideRecord& row) {
  Run(transaction, kInsertSetAside, pattern.value, call.value, row.id.value, row.set_aside.seat,
      static_cast<int>(row.set_aside.quantity), row.set_aside.note, Micros(row.set_at));
}

bool DeleteSetAside(Transaction& transaction, const PatternId& pattern, const CallId& call,
                    const SetAsideId& id) {
  return Run(transaction, kDeleteSetAside, pattern.value, call.value, id.value).affected_rows() ==
         1;
}

std::optional<reconcile::SetAsideRecord> LoadSetAside(Transaction& transaction,
                                                      const PatternId& pattern, const CallId& call,
                                                      const SetAsideId& id) {
  const pqxx::result result = Run(transaction, kLoadSetAside, pattern.value, call.value, id.value);
  if (result.empty()) return std::nullopt;
  return SetAsideFrom(pattern, call, result.front());
}

std::optional<SetAsideId> FindSetAside(Transaction& transaction, const PatternId& pattern,
                                       const CallId& call, const SeatId& seat,
                                       reconcile::Quantity quantity) {
  const pqxx::result result = Run(transaction, kFindSetAside, pattern.value, call.value, seat.value,
                                  static_cast<int>(quantity));
  if (result.empty()) return std::nullopt;
  return SetAsideId{result.front()[0].c_str()};
}

std::vector<reconcile::SetAsideRecord> ListSetAsides(Transaction& transaction,
                                                     const PatternId& pattern, const CallId& call,
                                                     const SeatId& after_seat, int after_quantity,
                                                     int limit) {
  std::vector<reconcile::SetAsideRecord> rows;
  const pqxx::result result = Run(transaction, kListSetAsides, pattern.value, call.value,
                                  after_seat.value, after_quantity, limit);
  for (const auto& row : result) rows.push_back(SetAsideFrom(pattern, call, row));
  return rows;
}

std::map<SeatId, std::vector<patterns::WorkStep>> LoadWorkSteps(Transaction& transaction,
                                                                const PatternId& pattern,
                                                                const CallId& call) {
  std::map<SeatId, std::vector<patterns::WorkStep>> steps;
  const pqxx::result result = Run(transaction, kWorkSteps, pattern.value, call.value);
  for (const auto& row : result) {
    const SeatId seat{row[0].c_str()};
    steps[seat].push_back(ReadRecord(
        "report",
        [&] {
          return ToString(SeatName{pattern, call, seat});
        },
        [&]() -> patterns::WorkStep {
          return {NumberFrom1(row[1]), CountIn(row[2])};
        }));
  }
  return steps;
}

}  // namespace rowproof::storage
