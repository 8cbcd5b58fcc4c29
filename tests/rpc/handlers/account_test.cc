// AccountService: the caller's account, its tokens and personal data.
#include <gmock/gmock.h>

#include "rowproof/v1/account_service.pb.h"
#include "rowproof/v1/calibration_service.pb.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr char kToken[] = R"(name: "accounts/ada/tokens/tada")";

ServiceRows AccountRows() {
  return {"AccountService",
          {
              {.method = "GetMyAccount"},
              {.method = "UpdateMyAccount",
               .request = R"(account { display_name: "Ada of the reeds" })",
               .resource = "account",
               .changeable = {"display_name", "mail_address"}},
              {.method = "CreateToken",
               .request = R"(label: "tablet")",
               .other = R"(label: "another")",
               .gives_secret = true},
              {.method = "GetToken", .request = kToken, .names = {"name"}},
              {.method = "ListTokens",
               .four_more = FourMore("token", "token_id = 'tada'",
                                     "'token_id', 'm' || n, 'secret_sha256', "
                                     "sha256(('of token ' || n)::bytea)")},
              {.method = "ExportPersonalData"},
              {.method = "RevokeToken",
               .request = R"(name: "accounts/ada/tokens/old")",
               .before = "insert into token select (jsonb_populate_record(t, jsonb_build_object("
                         "'token_id', 'old', 'secret_sha256', sha256('old')))).* from token t "
                         "where token_id = 'tada'",
               .names = {"name"}},
              {.method = "ErasePersonalData", .request = R"(name: "accounts/ada")"},
          }};
}

INSTANTIATE_TEST_SUITE_P(Account, EveryService, ::testing::Values(AccountRows()));

class AccountHandlers : public HandlerTest {
 protected:
  v1::Account Get(const std::string& caller = kDesigner) {
    return Call<v1::Account>("AccountService.GetMyAccount", v1::GetMyAccountRequest(), caller);
  }
  static v1::UpdateMyAccountRequest Update(const std::string& account, const std::string& path) {
    v1::UpdateMyAccountRequest update;
    Merge("account {" + account + "}", update);
    if (!path.empty()) update.mutable_update_mask()->add_paths(path);
    return update;
  }
  grpc::Status RefusedToken(const std::string& request) {
    v1::CreateTokenRequest create;
    Merge(request, create);
    return Refusal("AccountService.CreateToken", create);
  }
  v1::Token NewToken() {
    v1::CreateTokenRequest create;
    create.set_label("tablet");
    return Call<v1::Token>("AccountService.CreateToken", create);
  }
};

TEST_F(AccountHandlers, ChangesOnlyTheFieldThatTheMaskNames) {
  const std::string changes = R"(display_name: "Ada of the reeds" mail_address: "reeds@ada.test")";
  v1::Account expected = Get();
  expected.set_mail_address("reeds@ada.test");
  const auto mailed =
      Call<v1::Account>("AccountService.UpdateMyAccount", Update(changes, "mail_address"));
  EXPECT_EQ(mailed.DebugString(), expected.DebugString());
  EXPECT_EQ(Get().DebugString(), expected.DebugString());
  expected.set_display_name("Ada of the reeds");
  Call<v1::Account>("AccountService.UpdateMyAccount", Update(changes, "display_name"));
  EXPECT_EQ(Get().DebugString(), expected.DebugString());
}

TEST_F(AccountHandlers, WithoutAMaskChangesWhatIsSetAndWithTheWholeMaskClearsTheRest) {
  v1::Account expected = Get();
  expected.set_display_name("Ada of the reeds");
  const std::string name = R"(display_name: "Ada of the reeds")";
  Call<v1::Account>("AccountService.UpdateMyAccount", Update(name, ""));
  EXPECT_EQ(Get().DebugString(), expected.DebugString());
  expected.clear_mail_address();
  Call<v1::Account>("AccountService.UpdateMyAccount", Update(name, "*"));
  EXPECT_EQ(Get().DebugString(), expected.DebugString());
}

TEST_F(AccountHandlers, ChangesTheCallersAccountWhateverNameIsSent) {
  const v1::Account eves = Get(kStranger);
  const auto changed =
      Call<v1::Account>("AccountService.UpdateMyAccount",
                        Update(R"(name: "accounts/eve" display_name: "Ada of the reeds")", ""));
  EXPECT_EQ(changed.name(), "accounts/ada");
  EXPECT_EQ(Get(kStranger).DebugString(), eves.DebugString());
}

TEST_F(AccountHandlers, AChangeNamesTheFieldThatIsWrong) {
  const std::string before = AllRecords();
  const auto refused = [&](const std::string& account, const std::string& path) {
    return FieldsOf(Refusal("AccountService.UpdateMyAccount", Update(account, path)));
  };
  EXPECT_THAT(refused(R"(mail_address: "nowhere")", ""), ElementsAre("account.mail_address"));
  EXPECT_THAT(refused("", "display_name"), ElementsAre("account.display_name"));
  EXPECT_THAT(refused(R"(display_name: ")" + std::string(121, 'a') + "\"", ""),
              ElementsAre("account.display_name"));
  EXPECT_THAT(refused("", ""), ElementsAre("update_mask"));
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(AccountHandlers, ATokenNeedsALabelAndDaysWithinItsRange) {
  const std::string before = AllRecords();
  EXPECT_THAT(FieldsOf(RefusedToken("")), ElementsAre("label"));
  EXPECT_THAT(FieldsOf(RefusedToken("label: \"" + std::string(61, 'a') + "\"")),
              ElementsAre("label"));
  EXPECT_THAT(FieldsOf(RefusedToken(R"(label: "tablet" valid_days: -1)")),
              ElementsAre("valid_days"));
  EXPECT_THAT(FieldsOf(RefusedToken(R"(label: "tablet" valid_days: 731)")),
              ElementsAre("valid_days"));
  EXPECT_EQ(AllRecords(), before);
}

TEST_F(AccountHandlers, OnlyTheAnswerThatCreatesATokenHoldsItsSecret) {
  const v1::Token made = NewToken();
  EXPECT_EQ(Get(made.secret()).name(), "accounts/ada");
  v1::GetTokenRequest get;
  get.set_name(made.name());
  v1::Token expected = made;
  expected.clear_secret();
  EXPECT_EQ(Call<v1::Token>("AccountService.GetToken", get).DebugString(), expected.DebugString());
  const auto listed =
      Call<v1::ListTokensResponse>("AccountService.ListTokens", v1::ListTokensRequest());
  ASSERT_EQ(listed.tokens_size(), 2);
  for (const v1::Token& token : listed.tokens()) EXPECT_EQ(token.secret(), "");
}

TEST_F(AccountHandlers, ARevokedTokenIsRefusedAndRevokingAgainChangesNothing) {
  const v1::Token made = NewToken();
  v1::RevokeTokenRequest revoke;
  revoke.set_name(made.name());
  const auto revoked = Call<v1::Token>("AccountService.RevokeToken", revoke);
  EXPECT_TRUE(revoked.has_revoke_time());
  EXPECT_EQ(
      Refusal("AccountService.GetMyAccount", v1::GetMyAccountRequest(), made.secret()).error_code(),
      grpc::StatusCode::UNAUTHENTICATED);
  clock_.Advance(std::chrono::hours(1));
  EXPECT_EQ(Call<v1::Token>("AccountService.RevokeToken", revoke).DebugString(),
            revoked.DebugString());
}

TEST_F(AccountHandlers, ExportsWhatIsTheCallersAndNothingElse) {
  const auto document = [&](const std::string& caller) {
    return Call<v1::ExportPersonalDataResponse>("AccountService.ExportPersonalData",
                                                v1::ExportPersonalDataRequest(), caller)
        .document();
  };
  for (const char* own : {"accounts/ada", "ada@invented.test", "patterns/shawl", "patterns/mat",
                          "calibrations/c1/revisions/1"}) {
    EXPECT_THAT(document(kDesigner), HasSubstr(own));
  }
  EXPECT_THAT(document(kTester), HasSubstr("patterns/shawl/testCalls/spring/seats/s1/reports/1"));
  EXPECT_THAT(document(kTester), ::testing::Not(HasSubstr("calibrations/c1")));
  EXPECT_THAT(document(kStranger), ::testing::Not(HasSubstr("shawl")));
}

TEST_F(AccountHandlers, ErasesOnlyTheAccountThatTheCallerNamesAsItsOwn) {
  v1::ErasePersonalDataRequest erase;
  const std::string before = AllRecords();
  for (const char* wrong :
       {"", "ada", "accounts/tea", "accounts/absent", "accounts/ada/tokens/a"}) {
    erase.set_name(wrong);
    const grpc::Status refusal = Refusal("AccountService.ErasePersonalData", erase);
    EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << wrong;
    EXPECT_THAT(FieldsOf(refusal), ElementsAre("name")) << wrong;
  }
  EXPECT_EQ(AllRecords(), before);
  erase.set_name("accounts/ada");
  Call<v1::ErasePersonalDataResponse>("AccountService.ErasePersonalData", erase);
  EXPECT_EQ(Refusal("AccountService.GetMyAccount", v1::GetMyAccountRequest()).error_code(),
            grpc::StatusCode::UNAUTHENTICATED);
  EXPECT_EQ(Execute("select count(*) from person where account_id = 'ada' and "
                    "(display_name <> '' or mail_address <> '')"),
            "0");
  EXPECT_EQ(Execute("select count(*) from calibration"), "0");
  EXPECT_EQ(Execute("select count(*) from version"), "1");
}

}  // namespace
}  // namespace rowproof::rpc
