// What a version changed for the testers of a call. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CALLS_SEAT_CHANGES_H_
#define ROWPROOF_SERVICES_USECASES_CALLS_SEAT_CHANGES_H_

#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/patterns/difference.h"
#include "services/domain/testcalls/test_call.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

// What the test call's present version changed behind and ahead of a seat's tester.
struct SeatChanges {
  testcalls::SeatRecord seat;
  int from_version = 0;
  int to_version = 0;
  std::vector<patterns::RowDifference> behind;
  std::vector<patterns::RowDifference> ahead;
  int next_row = 0;
};

// Inside a transaction: what changed for each of these seats, all of one call. The stop's status if
// the work has to stop.
absl::StatusOr<std::vector<SeatChanges>> ChangesForSeats(
    Application& application, storage::Transaction& transaction, const PatternId& pattern,
    const CallId& id, int present_version, const std::vector<testcalls::SeatRecord>& seats,
    const Stop& stop);
// Inside a transaction: the content of a version that exists, read once and then kept.
KeptVersion LoadContent(Application& application, storage::Transaction& transaction,
                        const PatternId& pattern, int number);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CALLS_SEAT_CHANGES_H_
