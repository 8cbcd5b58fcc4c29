// Test calls and their seats.
#ifndef ROWPROOF_SERVICES_USECASES_TEST_CALLS_H_
#define ROWPROOF_SERVICES_USECASES_TEST_CALLS_H_

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "absl/time/civil_time.h"
#include "services/domain/access/permissions.h"
#include "services/domain/patterns/difference.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/domain/testcalls/states.h"
#include "services/domain/testcalls/test_call.h"
#include "services/usecases/application.h"
#include "services/usecases/patterns.h"

namespace rowproof::usecases {

inline constexpr int kMostSeatsOfACall = 1000;
// Each seat has each quantity once.
inline constexpr int kMostSetAsidesOfACall =
    kMostSeatsOfACall * static_cast<int>(reconcile::kQuantities);

// A call as one reads it; lists leave progress and sent versions out.
struct ReadTestCall {
  testcalls::TestCallRecord row;
  std::vector<testcalls::SizeProgress> progress;
  std::vector<testcalls::SentVersion> sent;
  bool deadline_passed = false;
};

struct TestCallPage {
  std::vector<ReadTestCall> calls;
  bool more = false;
};

// What the test call's present version changed behind and ahead of a seat's tester.
struct SeatChanges {
  testcalls::SeatRecord seat;
  int from_version = 0;
  int to_version = 0;
  std::vector<patterns::RowDifference> behind;
  std::vector<patterns::RowDifference> ahead;
  int next_row = 0;
};

struct SentVersion {
  ReadTestCall call;
  std::vector<SeatChanges> seats;  // those at work
};

struct SeatPage {
  std::vector<testcalls::SeatRecord> seats;
  bool more = false;
};

struct NewSeat {
  testcalls::SeatRecord seat;
  std::string invitation;
};

struct TakenSeat {
  testcalls::SeatRecord seat;
  std::string secret;
};

// The settings' field paths begin with "settings".
absl::StatusOr<ReadTestCall> CreateTestCall(Application& application, RequestContext& context,
                                            const PatternId& pattern, int version,
                                            const testcalls::CallSettings& settings);
absl::StatusOr<ReadTestCall> GetTestCall(Application& application, RequestContext& context,
                                         const PatternId& pattern, const CallId& id);
absl::StatusOr<TestCallPage> ListTestCalls(Application& application, RequestContext& context,
                                           const PatternId& pattern, std::optional<Moment> before,
                                           const CallId& before_id, int limit);
// The new settings, from the present ones. Pure, since it may be called again.
using SettingsChange =
    std::function<absl::StatusOr<testcalls::CallSettings>(const testcalls::CallSettings& present)>;
// `revision`: the one last read, from the etag; absent: any.
absl::StatusOr<ReadTestCall> UpdateTestCall(Application& application, RequestContext& context,
                                            const PatternId& pattern, const CallId& id,
                                            const SettingsChange& change,
                                            std::optional<int> revision);
// A draft, with its seats.
absl::Status DeleteTestCall(Application& application, RequestContext& context,
                            const PatternId& pattern, const CallId& id);
// One of testcalls::OpenCall, CloseCall, ReopenCall.
using CallStep = absl::StatusOr<testcalls::CallState> (*)(testcalls::CallState, const std::string&);
absl::StatusOr<ReadTestCall> StepTestCall(Application& application, RequestContext& context,
                                          const PatternId& pattern, const CallId& id,
                                          CallStep step);
absl::StatusOr<SentVersion> SendVersion(Application& application, RequestContext& context,
                                        const PatternId& pattern, const CallId& id, int version);

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
// With the caller's account, and then no new token, if they are signed in; otherwise with a new
// account.
absl::StatusOr<TakenSeat> TakeSeat(Application& application, RequestContext& context,
                                   const std::string& invitation, const std::string& display_name,
                                   const std::string& mail_address);
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

// Inside a transaction: what changed for each of these seats, all of one call.
absl::StatusOr<std::vector<SeatChanges>> ChangesForSeats(
    Application& application, storage::Transaction& transaction, const PatternId& pattern,
    const CallId& id, int present_version, const std::vector<testcalls::SeatRecord>& seats);
// Inside a transaction: the content of a version that exists, read once and then kept.
KeptVersion LoadContent(Application& application, storage::Transaction& transaction,
                        const PatternId& pattern, int number);

absl::CivilDay TodayInUtc(Moment now);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_TEST_CALLS_H_
