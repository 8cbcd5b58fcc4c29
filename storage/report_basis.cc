#include "storage/report_basis.h"

#include <pqxx/pqxx>

#include "storage/json/json_reader.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

// From the values that the query below puts side by side.
KnownErratum KnownErratumFrom(const JsonReader::Json& entry) {
  if (!entry.is_array() || entry.size() != 8) throw UnreadableValue("erratum_id");
  KnownErratum known;
  size_t place = 0;
  const auto take = [&](const char* column, auto& value) {
    const JsonReader::Json& stored = entry[place++];
    ReadColumn(column, [&] { JsonReader::Read(stored, value); });
  };
  const auto take_count = [&](const char* column, int& value) {
    take(column, value);
    if (value < 0) throw UnreadableValue(column);
  };
  int kind = 0;
  take("erratum_id", known.id.value);
  take_count("worked_row", known.row);
  take_count("first_stitch", known.stitches.first);
  take_count("last_stitch", known.stitches.last);
  take("kind", kind);
  take("was", known.was);
  take("should_be", known.should_be);
  take("last_report", known.withdrawn);
  const auto known_kind = EnumOfNumber<faults::ErratumKind>(kind);
  if (!known_kind.has_value()) throw UnreadableValue("kind");
  known.kind = *known_kind;
  return known;
}

}  // namespace

const char kBasisJoin[] = R"(
  left join lateral (
    select g.state, g.size_name, g.report_count,
           exists (select from call_version v
                   where v.pattern_id = $3 and v.call_id = $4
                     and v.number = coalesce(nullif($7, 0), t.version_number)) as sent,
           (select json_agg(json_build_array(e.erratum_id, e.worked_row, e.first_stitch,
                                             e.last_stitch, e.kind, e.was, e.should_be,
                                             e.last_report is not null))
            from erratum e
            where e.pattern_id = $3 and e.call_id = $4 and e.seat_id = $6) as errata
    from seat g where g.pattern_id = $3 and g.call_id = $4 and g.seat_id = $6) basis on true)";

ReportBasis BasisFrom(const pqxx::row& row, int column, const std::string& call) {
  ReportBasis basis;
  ReadRecord(
      "seat", [&] { return call; },
      [&] {
        basis.seat_state = EnumIn<testcalls::SeatState>(row[column]);
        basis.size = TextIn(row[column + 1]);
        basis.report_count = CountIn(row[column + 2]);
        basis.version_was_sent = FlagIn(row[column + 3]);
      });
  if (row[column + 4].is_null()) return basis;
  return ReadRecord(
      "erratum", [&] { return call; },
      [&] {
        const auto errata = JsonReader::Parse(row[column + 4].c_str());
        for (const auto& entry : errata) basis.errata.push_back(KnownErratumFrom(entry));
        return basis;
      });
}

}  // namespace rowproof::storage
