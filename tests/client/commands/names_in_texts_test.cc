// What commands find in texts that people send on: an offered seat's invitation, a form's seat.
#include <gtest/gtest.h>

#include <string>

#include "services/client/commands/commands.h"
#include "services/client/failure.h"
#include "services/client/parsing/invitation.h"

namespace rowproof::client {
namespace {

TEST(Invitation, IsFoundInWhatTheOfferPrinted) {
  EXPECT_EQ(InvitationIn("  abc_DEF-12\r\n"), "abc_DEF-12");
  EXPECT_EQ(InvitationIn("Seat: patterns/p/testCalls/c/seats/s\nSize: S\nInvitation: abc_DEF-12\n"),
            "abc_DEF-12");
  EXPECT_EQ(InvitationIn("name: patterns/p/calls/c/seats/s\ninvitation: abc\n"), "abc");
  EXPECT_EQ(InvitationIn("Dear tester,\n> Invitation: abc\n> See you\n"), "abc");
  EXPECT_EQ(InvitationIn("{\n \"name\": \"x\",\n \"invitation\": \"abc-1\"\n}\n"), "abc-1");
  EXPECT_EQ(InvitationIn("Invitation: abc\n\nOn Monday Ada wrote:\n> Invitation: abc\n"), "abc");
  EXPECT_THROW(InvitationIn("Invitation: abc\n\nInvitation: def\n"), Failure);
  EXPECT_THROW(InvitationIn(""), Failure);
  EXPECT_THROW(InvitationIn("Invitation: \n"), Failure);
  EXPECT_THROW(InvitationIn("two words"), Failure);
  EXPECT_EQ(InvitationIn(std::string(1000000, 'a')).size(), 1000000u);
}

TEST(SeatOfAForm, IsReadByTheOldCollectionsNameToo) {
  EXPECT_EQ(SeatIn("> seat: patterns/p/calls/c/seats/s\n"), "patterns/p/calls/c/seats/s");
  EXPECT_EQ(SeatIn("see patterns/p, then\nseat: patterns/p/testCalls/c/seats/s"),
            "patterns/p/testCalls/c/seats/s");
  EXPECT_THROW(SeatIn("seat: patterns/p/editors/c/seats/s"), Failure);
  EXPECT_THROW(SeatIn("patterns/" + std::string(1000000, 'a')), Failure);
}

}  // namespace
}  // namespace rowproof::client
