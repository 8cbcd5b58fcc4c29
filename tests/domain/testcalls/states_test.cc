#include "services/domain/testcalls/states.h"

#include <vector>

#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/domain/testcalls/call_settings.h"

namespace rowproof::testcalls {
namespace {

constexpr CallState kCalls[] = {CallState::kDraft, CallState::kOpen, CallState::kClosed};
constexpr SeatState kSeats[] = {SeatState::kOffered, SeatState::kTaken, SeatState::kFinished,
                                SeatState::kGivenUp, SeatState::kCancelled};

// The new state, or none.
template <typename State>
std::optional<State> To(const absl::StatusOr<State>& result) {
  if (result.ok()) return *result;
  EXPECT_EQ(result.status().code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_EQ(DetailOf(result.status()).conditions.front().subject, "name");
  return std::nullopt;
}

TEST(CallStates, GoFromDraftToOpenToClosedAndBackToOpen) {
  for (const CallState now : kCalls) {
    EXPECT_EQ(To(OpenCall(now, "name")),
              now == CallState::kDraft ? std::optional(CallState::kOpen) : std::nullopt);
    EXPECT_EQ(To(CloseCall(now, "name")),
              now == CallState::kOpen ? std::optional(CallState::kClosed) : std::nullopt);
    EXPECT_EQ(To(ReopenCall(now, "name")),
              now == CallState::kClosed ? std::optional(CallState::kOpen) : std::nullopt);
    EXPECT_EQ(MayChangeCall(now, "name").ok(), now != CallState::kClosed);
    EXPECT_EQ(MayOfferSeat(now, "name").ok(), now != CallState::kClosed);
    EXPECT_EQ(MaySendVersion(now, "name").ok(), now == CallState::kOpen);
  }
}

TEST(SeatStates, FollowTheDiagramInEveryStateOfTheCall) {
  for (const CallState call : kCalls) {
    for (const SeatState now : kSeats) {
      const bool open = call == CallState::kOpen;
      const bool active = now == SeatState::kTaken || now == SeatState::kFinished;
      const bool offered = now == SeatState::kOffered;
      EXPECT_EQ(To(TakeSeat(call, now, "name")),
                open && offered ? std::optional(SeatState::kTaken) : std::nullopt);
      EXPECT_EQ(To(ReportOnSeat(call, now, true, "name")),
                open && active ? std::optional(SeatState::kFinished) : std::nullopt);
      EXPECT_EQ(To(ReportOnSeat(call, now, false, "name")),
                open && active ? std::optional(SeatState::kTaken) : std::nullopt);
      EXPECT_EQ(MayReport(call, now, "name").ok(), open && active);
    }
  }
}

TEST(SeatStates, LetATesterStopAndADesignerTakeBackWhateverTheCallIs) {
  for (const SeatState now : kSeats) {
    const bool active = now == SeatState::kTaken || now == SeatState::kFinished;
    EXPECT_EQ(IsActive(now), active);
    EXPECT_EQ(To(GiveUpSeat(now, "name")),
              active ? std::optional(SeatState::kGivenUp) : std::nullopt);
    const bool can_cancel = now == SeatState::kOffered || now == SeatState::kTaken;
    EXPECT_EQ(To(CancelSeat(now, "name")),
              can_cancel ? std::optional(SeatState::kCancelled) : std::nullopt);
  }
}

TEST(Progress, CountsSeatsBySizeAgainstWhatIsRequired) {
  const std::vector<WantedSize> wanted = {{"S", 3, 2}, {"L", 2, 1}};
  const std::vector<Seat> seats = {{"L", SeatState::kFinished}, {"S", SeatState::kTaken},
                                   {"S", SeatState::kGivenUp},  {"S", SeatState::kFinished},
                                   {"S", SeatState::kOffered},  {"M", SeatState::kFinished},
                                   {"L", SeatState::kGivenUp},  {"L", SeatState::kCancelled}};
  const auto progress = Progress(seats, wanted);
  ASSERT_EQ(progress.size(), 3u);
  EXPECT_EQ(progress[0], (SizeProgress{"S", 1, 1, 1, 1, 0, 2}));
  EXPECT_FALSE(progress[0].enough());
  EXPECT_TRUE(progress[0].within_reach());
  EXPECT_EQ(progress[1], (SizeProgress{"L", 0, 0, 1, 1, 1, 1}));
  EXPECT_TRUE(progress[1].enough());
  EXPECT_EQ(progress[2], (SizeProgress{"M", 0, 0, 1, 0, 0, 0}));
  EXPECT_FALSE(Progress({}, wanted)[0].within_reach());
}

}  // namespace
}  // namespace rowproof::testcalls
