#include "storage/report_ground.h"

#include <nlohmann/json.hpp>
#include <pqxx/pqxx>

namespace rowproof::storage {

const char kGroundJoin[] = R"(
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
    from seat g where g.pattern_id = $3 and g.call_id = $4 and g.seat_id = $6) ground on true)";

ReportGround GroundFrom(const pqxx::row& row, int column) {
  ReportGround ground;
  ground.seat_state = static_cast<testcalls::SeatState>(row[column].as<int>());
  ground.size = row[column + 1].c_str();
  ground.report_count = row[column + 2].as<int>();
  ground.version_was_sent = row[column + 3].as<bool>();
  if (row[column + 4].is_null()) return ground;
  for (const auto& entry : nlohmann::json::parse(row[column + 4].c_str())) {
    ground.errata.push_back({{entry[0].get<std::string>()},
                             entry[1].get<int>(),
                             {entry[2].get<int>(), entry[3].get<int>()},
                             static_cast<faults::ErratumKind>(entry[4].get<int>()),
                             entry[5].get<std::string>(),
                             entry[6].get<std::string>(),
                             entry[7].get<bool>()});
  }
  return ground;
}

}  // namespace rowproof::storage
