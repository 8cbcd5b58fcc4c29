// Test calls. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CALLS_TEST_CALLS_H_
#define ROWPROOF_SERVICES_USECASES_CALLS_TEST_CALLS_H_

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "absl/time/civil_time.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/domain/testcalls/states.h"
#include "services/domain/testcalls/test_call.h"
#include "services/usecases/application.h"
#include "services/usecases/calls/seat_changes.h"

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

struct SentVersion {
  ReadTestCall call;
  std::vector<SeatChanges> seats;  // those at work
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

absl::CivilDay TodayInUtc(Moment now);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CALLS_TEST_CALLS_H_
