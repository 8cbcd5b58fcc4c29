// Taking a seat by its invitation. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CALLS_TAKE_SEAT_H_
#define ROWPROOF_SERVICES_USECASES_CALLS_TAKE_SEAT_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/testcalls/test_call.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

struct TakenSeat {
  testcalls::SeatRecord seat;
  std::string secret;
};

// With the caller's account, and then no new token, if they are signed in; otherwise with a new
// account.
absl::StatusOr<TakenSeat> TakeSeat(Application& application, RequestContext& context,
                                   const std::string& invitation, const std::string& display_name,
                                   const std::string& mail_address);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CALLS_TAKE_SEAT_H_
