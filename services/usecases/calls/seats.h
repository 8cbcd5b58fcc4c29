// The seats of a test call. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CALLS_SEATS_H_
#define ROWPROOF_SERVICES_USECASES_CALLS_SEATS_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/domain/access/permissions.h"
#include "services/domain/testcalls/test_call.h"
#include "services/usecases/application.h"
#include "services/usecases/calls/seat_changes.h"

namespace rowproof::usecases {

struct SeatPage {
  std::vector<testcalls::SeatRecord> seats;
  bool more = false;
};

struct NewSeat {
  testcalls::SeatRecord seat;
  std::string invitation;
};

// One seat for each of these sizes, all or none. A size that the call does not want is
// INVALID_ARGUMENT with its place in `fields`.
absl::StatusOr<std::vector<NewSeat>> CreateSeats(Application& application, RequestContext& context,
                                                 const PatternId& pattern, const CallId& id,
                                                 const std::vector<std::string>& sizes,
                                                 const std::vector<std::string>& fields);
absl::StatusOr<SeatPage> ListSeats(Application& application, RequestContext& context,
                                   const PatternId& pattern, const CallId& id,
                                   std::optional<Moment> after, const SeatId& after_id, int limit);
// The caller's own, newest first.
absl::StatusOr<SeatPage> ListMySeats(Application& application, RequestContext& context,
                                     std::optional<Moment> before, const SeatId& before_id,
                                     int limit);
absl::StatusOr<testcalls::SeatRecord> GetSeat(Application& application, RequestContext& context,
                                              const PatternId& pattern, const CallId& id,
                                              const SeatId& seat);
absl::StatusOr<testcalls::SeatRecord> GiveUpSeat(Application& application, RequestContext& context,
                                                 const PatternId& pattern, const CallId& id,
                                                 const SeatId& seat);
absl::StatusOr<testcalls::SeatRecord> CancelSeat(Application& application, RequestContext& context,
                                                 const PatternId& pattern, const CallId& id,
                                                 const SeatId& seat);
absl::StatusOr<std::string> GetSeatForm(Application& application, RequestContext& context,
                                        const PatternId& pattern, const CallId& id,
                                        const SeatId& seat);
absl::StatusOr<SeatChanges> GetSeatChanges(Application& application, RequestContext& context,
                                           const PatternId& pattern, const CallId& id,
                                           const SeatId& seat);

// NOT_FOUND if a tester asks for another's seat.
absl::Status MayKnowSeat(const access::Standing& standing, const SeatId& seat,
                         const std::string& name);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CALLS_SEATS_H_
