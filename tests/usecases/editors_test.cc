// Invitations to edit: each is accepted once, in time, and by nobody who may not edit.
#include "services/usecases/editors.h"

#include <gmock/gmock.h>

#include <pqxx/pqxx>

#include "services/usecases/joining.h"
#include "services/usecases/patterns.h"
#include "tests/usecases/usecases_fixture.h"

namespace rowproof::usecases {
namespace {

constexpr char kUuid[] = "6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e35";

class Editors : public UsecasesTest {
 protected:
  absl::StatusOr<NewEditor> Invite(int days = 0, const std::string& request_id = "") {
    RequestContext context = From("ada", "PatternService.CreateEditor", request_id);
    return CreateEditor(application_, context, kPattern, "for Ede", days);
  }
  absl::StatusOr<AcceptedEditor> Accept(const std::string& invitation,
                                        const std::string& account = "",
                                        const std::string& request_id = "") {
    RequestContext context = From(account, "PatternService.AcceptEditorInvitation", request_id);
    const Joiner joiner{account.empty() ? "Ede Invented" : "", ""};
    return AcceptEditorInvitation(application_, context, invitation, joiner);
  }
  bool MayRead(const std::string& token) {
    RequestContext context = From(token, "PatternService.GetPattern");
    return GetPattern(application_, context, kPattern).ok();
  }
};

TEST_F(Editors, AcceptAnInvitationOnce) {
  const auto invited = Invite();
  ASSERT_TRUE(invited.ok()) << invited.status();
  const auto accepted = Accept(invited->invitation);
  ASSERT_TRUE(accepted.ok()) << accepted.status();
  EXPECT_TRUE(MayRead(accepted->secret));
  EXPECT_EQ(accepted->editor.row.label, "");
  const std::string accounts = Count("account");
  EXPECT_EQ(Accept(invited->invitation).status().code(), absl::StatusCode::kNotFound);
  EXPECT_EQ(Count("account"), accounts);
}

TEST_F(Editors, AcceptOnceWhenTwoHoldOneInvitation) {
  const auto invited = Invite();
  ASSERT_TRUE(invited.ok()) << invited.status();
  const std::string accounts = Count("account");
  absl::Status first;
  absl::Status second;
  AtOnce([&] { first = Accept(invited->invitation).status(); },
         [&] { second = Accept(invited->invitation).status(); });
  EXPECT_NE(first.ok(), second.ok()) << first << second;
  EXPECT_EQ((first.ok() ? second : first).code(), absl::StatusCode::kNotFound);
  EXPECT_EQ(std::stoi(Count("account")), std::stoi(accounts) + 1);
}

TEST_F(Editors, AcceptUntilTheInvitationExpires) {
  const auto last_moment = Invite(1);
  const auto late = Invite(1);
  ASSERT_TRUE(last_moment.ok() && late.ok());
  clock_.Advance(std::chrono::hours(24) - std::chrono::microseconds(1));
  EXPECT_TRUE(Accept(last_moment->invitation).ok());
  clock_.Advance(std::chrono::microseconds(1));
  EXPECT_EQ(Accept(late->invitation).status().code(), absl::StatusCode::kNotFound);
}

TEST_F(Editors, AreInvitedForSixtyDaysAtMost) {
  EXPECT_EQ(FieldOf(Invite(kMostInvitationDays + 1).status()), "valid_days");
  EXPECT_EQ(FieldOf(Invite(-1).status()), "valid_days");
  const auto usual = Invite();
  ASSERT_TRUE(usual.ok()) << usual.status();
  EXPECT_EQ(usual->editor.row.expires_at, clock_.Now() + std::chrono::hours(24 * 60));
}

TEST_F(Editors, AreNeitherTheDesignerNorTesters) {
  const auto invited = Invite();
  ASSERT_TRUE(invited.ok()) << invited.status();
  EXPECT_EQ(ReasonOf(Accept(invited->invitation, "ada").status()), "OWN_PATTERN");
  EXPECT_EQ(ReasonOf(Accept(invited->invitation, "tea").status()), "TESTS_PATTERN");
  AddAccount("eve");
  const auto other = Invite();
  EXPECT_TRUE(Accept(invited->invitation, "eve").ok());
  EXPECT_EQ(ReasonOf(Accept(other->invitation, "eve").status()), "EDITS_PATTERN");
}

TEST_F(Editors, ReadNothingOnceTheirAccessHasEnded) {
  const auto invited = Invite();
  const auto accepted = Accept(invited->invitation);
  ASSERT_TRUE(accepted.ok()) << accepted.status();
  RequestContext context = From("ada", "PatternService.DeleteEditor");
  EXPECT_TRUE(DeleteEditor(application_, context, {kPattern, accepted->editor.row.id}).ok());
  EXPECT_FALSE(MayRead(accepted->secret));
  const auto withdrawn = Invite();
  RequestContext withdrawing = From("ada", "PatternService.DeleteEditor");
  EXPECT_TRUE(DeleteEditor(application_, withdrawing, {kPattern, withdrawn->editor.row.id}).ok());
  EXPECT_EQ(Accept(withdrawn->invitation).status().code(), absl::StatusCode::kNotFound);
}

TEST_F(Editors, HoldTheNewInvitationOfARepeatedRequestOnly) {
  const auto first = Invite(0, kUuid);
  const auto second = Invite(0, kUuid);
  ASSERT_TRUE(first.ok() && second.ok()) << second.status();
  EXPECT_EQ(first->editor.row.id, second->editor.row.id);
  EXPECT_EQ(Accept(first->invitation).status().code(), absl::StatusCode::kNotFound);
  EXPECT_TRUE(Accept(second->invitation).ok());
  EXPECT_EQ(ReasonOf(Invite(0, kUuid).status()), "EDITOR_STATE");
}

TEST_F(Editors, GetTheOneNewTokenOfARepeatedAcceptance) {
  const auto invited = Invite();
  const auto first = Accept(invited->invitation, "", kUuid);
  ASSERT_TRUE(first.ok()) << first.status();
  const auto second = Accept(invited->invitation, "", kUuid);
  ASSERT_TRUE(second.ok()) << second.status();
  EXPECT_EQ(first->editor.row.account, second->editor.row.account);
  EXPECT_FALSE(MayRead(first->secret));
  EXPECT_TRUE(MayRead(second->secret));
}

}  // namespace
}  // namespace rowproof::usecases
