// What a new revision of a report is judged by. It is read with the admission
// (storage/database/begin_and_commit.cc), in one look-up. For the .cc files of this folder the SQL;
// values for everybody.
#ifndef ROWPROOF_STORAGE_REPORT_BASIS_H_
#define ROWPROOF_STORAGE_REPORT_BASIS_H_

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

struct ReportBasis {
  testcalls::SeatState seat_state = testcalls::SeatState::kTaken;
  std::string size;
  int report_count = 0;
  bool version_was_sent = false;     // to this call's testers
  std::vector<KnownErratum> errata;  // ever reported from this seat
};

// Columns of `basis` below.
inline constexpr char kBasisColumns[] =
    "basis.state, basis.size_name, basis.report_count, basis.sent, basis.errata";
// Joins `basis`: of pattern $3, call $4 and seat $6, for version $7, or if that is 0 for the
// present one of the call's row `t`.
extern const char kBasisJoin[];

// From the columns of kBasisColumns, the first at `column`, if they are not null. `call` is the
// resource's name.
ReportBasis BasisFrom(const pqxx::row& row, int column, const std::string& call);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_REPORT_BASIS_H_
