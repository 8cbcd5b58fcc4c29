// What a new revision of a report is judged by. It is read with the admission
// (storage/database/door.cc), in one look-up. For the .cc files of this folder the SQL; values for
// everybody.
#ifndef ROWPROOF_STORAGE_REPORT_GROUND_H_
#define ROWPROOF_STORAGE_REPORT_GROUND_H_

#include <string>
#include <vector>

#include "services/domain/faults/erratum.h"
#include "services/domain/identifiers.h"
#include "services/domain/testcalls/states.h"

namespace pqxx {
class row;
}  // namespace pqxx

namespace rowproof::storage {

// What distinguishes one erratum of an earlier revision from another.
struct KnownErratum {
  ErratumId id;
  int row = 0;
  faults::StitchRange stitches;
  faults::ErratumKind kind = faults::ErratumKind::kOther;
  std::string was;
  std::string should_be;
  bool withdrawn = false;  // the newest report no longer holds it
};

struct ReportGround {
  testcalls::SeatState seat_state = testcalls::SeatState::kTaken;
  std::string size;
  int report_count = 0;
  bool version_was_sent = false;     // to this call's testers
  std::vector<KnownErratum> errata;  // ever reported from this seat
};

// Columns of `ground` below.
inline constexpr char kGroundColumns[] =
    "ground.state, ground.size_name, ground.report_count, ground.sent, ground.errata";
// Joins `ground`: of pattern $3, call $4 and seat $6, for version $7, or if that is 0 for the
// present one of the call's row `t`.
extern const char kGroundJoin[];

// From the columns of kGroundColumns, the first at `column`, if they are not null. `call` is the
// resource's name.
ReportGround GroundFrom(const pqxx::row& row, int column, const std::string& call);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_REPORT_GROUND_H_
