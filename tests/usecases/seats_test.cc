// Steps of test calls and of seats, each refused in every state that it does not lead on from.
#include "services/usecases/calls/seats.h"

#include <gmock/gmock.h>

#include <pqxx/pqxx>

#include "services/domain/testcalls/states.h"
#include "services/usecases/calls/take_seat.h"
#include "services/usecases/calls/test_calls.h"
#include "tests/usecases/usecases_fixture.h"

namespace rowproof::usecases {
namespace {

class Seats : public UsecasesTest {
 protected:
  absl::Status Step(const CallId& call, CallStep step, const std::string& method) {
    RequestContext context = From("ada", "TestCallService." + method);
    return StepTestCall(application_, context, kPattern, call, step).status();
  }
  absl::Status Open(const CallId& call) { return Step(call, testcalls::OpenCall, "OpenTestCall"); }
  absl::Status Close(const CallId& call) {
    return Step(call, testcalls::CloseCall, "CloseTestCall");
  }
  absl::Status Reopen(const CallId& call) {
    return Step(call, testcalls::ReopenCall, "ReopenTestCall");
  }
  absl::Status Delete(const CallId& call) {
    RequestContext context = From("ada", "TestCallService.DeleteTestCall");
    return DeleteTestCall(application_, context, kPattern, call);
  }
  CallId NewDraft() {
    RequestContext context = From("ada", "TestCallService.CreateTestCall");
    testcalls::CallSettings settings;
    settings.title = "Summer";
    settings.sizes = {{"one size", 9, 1}};
    settings.deadline = absl::CivilDay(2026, 3, 1);
    const auto made = CreateTestCall(application_, context, kPattern, 1, settings);
    EXPECT_TRUE(made.ok()) << made.status();
    return made.ok() ? made->row.id : CallId();
  }
  NewSeat Offer(const CallId& call) {
    RequestContext context = From("ada", "TestCallService.CreateSeat");
    const auto made = CreateSeats(application_, context, kPattern, call, {"one size"}, {"size"});
    EXPECT_TRUE(made.ok()) << made.status();
    return made.ok() ? made->front() : NewSeat();
  }
  // By a new account with that name.
  absl::StatusOr<TakenSeat> Take(const std::string& invitation, const std::string& name) {
    RequestContext context = From("", "TestCallService.TakeSeat");
    return TakeSeat(application_, context, invitation, name, "");
  }
  absl::Status GiveUp(const CallId& call, const SeatId& seat, const std::string& token) {
    RequestContext context = From(token, "TestCallService.GiveUpSeat");
    return GiveUpSeat(application_, context, kPattern, call, seat).status();
  }
  absl::Status Cancel(const CallId& call, const SeatId& seat) {
    RequestContext context = From("ada", "TestCallService.CancelSeat");
    return CancelSeat(application_, context, kPattern, call, seat).status();
  }
  absl::Status Form(const CallId& call, const SeatId& seat, const std::string& token) {
    RequestContext context = From(token, "TestCallService.GetSeatForm");
    return GetSeatForm(application_, context, kPattern, call, seat).status();
  }
};

TEST_F(Seats, BelongToACallWhoseStepsFollowOneAnother) {
  const CallId call = NewDraft();
  EXPECT_EQ(ReasonOf(Close(call)), "CALL_STATE");
  EXPECT_EQ(ReasonOf(Reopen(call)), "CALL_STATE");
  EXPECT_TRUE(Open(call).ok());
  EXPECT_EQ(ReasonOf(Open(call)), "CALL_STATE");
  EXPECT_EQ(ReasonOf(Reopen(call)), "CALL_STATE");
  EXPECT_EQ(ReasonOf(Delete(call)), "CALL_STATE");
  EXPECT_TRUE(Close(call).ok());
  EXPECT_EQ(ReasonOf(Close(call)), "CALL_STATE");
  EXPECT_EQ(ReasonOf(Open(call)), "CALL_STATE");
  EXPECT_EQ(ReasonOf(Delete(call)), "CALL_STATE");
  EXPECT_TRUE(Reopen(call).ok());
}

TEST_F(Seats, GoWithADraftThatIsDeleted) {
  const CallId call = NewDraft();
  const NewSeat seat = Offer(call);
  EXPECT_TRUE(Delete(call).ok());
  EXPECT_EQ(Take(seat.invitation, "Uwe Untrue").status().code(), absl::StatusCode::kNotFound);
  EXPECT_EQ(Count("seat"), "1");
}

TEST_F(Seats, AreTakenOnlyWhileTheCallIsOpen) {
  const CallId call = NewDraft();
  const NewSeat seat = Offer(call);
  const std::string accounts = Count("account");
  EXPECT_EQ(ReasonOf(Take(seat.invitation, "Uwe Untrue").status()), "CALL_STATE");
  ASSERT_TRUE(Open(call).ok());
  ASSERT_TRUE(Close(call).ok());
  EXPECT_EQ(ReasonOf(Take(seat.invitation, "Uwe Untrue").status()), "CALL_STATE");
  EXPECT_EQ(Count("account"), accounts);
  ASSERT_TRUE(Reopen(call).ok());
  EXPECT_TRUE(Take(seat.invitation, "Uwe Untrue").ok());
}

TEST_F(Seats, AreTakenOnceWhenTwoHoldOneInvitation) {
  const NewSeat seat = Offer(kCall);
  const std::string accounts = Count("account");
  absl::Status first;
  absl::Status second;
  AtOnce([&] { first = Take(seat.invitation, "Uwe Untrue").status(); },
         [&] { second = Take(seat.invitation, "Ute Untrue").status(); });
  EXPECT_NE(first.ok(), second.ok()) << first << second;
  EXPECT_EQ((first.ok() ? second : first).code(), absl::StatusCode::kNotFound);
  EXPECT_EQ(std::stoi(Count("account")), std::stoi(accounts) + 1);
}

TEST_F(Seats, AreHeldOnceInACallAndNeverByTheDesigner) {
  const NewSeat seat = Offer(kCall);
  RequestContext tester = From("tea", "TestCallService.TakeSeat");
  EXPECT_EQ(ReasonOf(TakeSeat(application_, tester, seat.invitation, "", "").status()),
            "SEAT_HELD");
  RequestContext designer = From("ada", "TestCallService.TakeSeat");
  EXPECT_EQ(ReasonOf(TakeSeat(application_, designer, seat.invitation, "", "").status()),
            "OWN_PATTERN");
}

TEST_F(Seats, ThatWereGivenUpTakeNoFurtherStep) {
  EXPECT_TRUE(GiveUp(kCall, kSeat, "tea").ok());
  EXPECT_EQ(ReasonOf(GiveUp(kCall, kSeat, "tea")), "SEAT_STATE");
  EXPECT_EQ(ReasonOf(Cancel(kCall, kSeat)), "SEAT_STATE");
  EXPECT_EQ(ReasonOf(Form(kCall, kSeat, "ada")), "SEAT_STATE");
}

TEST_F(Seats, ThatWereCancelledTakeNoFurtherStep) {
  const NewSeat seat = Offer(kCall);
  EXPECT_TRUE(Cancel(kCall, seat.seat.id).ok());
  EXPECT_EQ(Take(seat.invitation, "Uwe Untrue").status().code(), absl::StatusCode::kNotFound);
  EXPECT_EQ(ReasonOf(Form(kCall, seat.seat.id, "ada")), "SEAT_STATE");
  EXPECT_TRUE(Cancel(kCall, kSeat).ok());
  EXPECT_EQ(ReasonOf(GiveUp(kCall, kSeat, "tea")), "SEAT_STATE");
}

TEST_F(Seats, AreOfferedUntilTheCallIsClosed) {
  ASSERT_TRUE(Close(kCall).ok());
  RequestContext context = From("ada", "TestCallService.CreateSeat");
  EXPECT_EQ(
      ReasonOf(
          CreateSeats(application_, context, kPattern, kCall, {"one size"}, {"size"}).status()),
      "CALL_STATE");
  EXPECT_EQ(ReasonOf(Form(kCall, kSeat, "tea")), "CALL_STATE");
}

}  // namespace
}  // namespace rowproof::usecases
