// Rows of accounts and tokens.
#include "storage/accounts.h"

#include <pqxx/pqxx>

#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

class Accounts : public StorageTest {
 protected:
  absl::Status InTransaction(const std::function<void(Transaction&)>& work) {
    return Write([&](Transaction& transaction, const Admission&) {
      work(transaction);
      return absl::OkStatus();
    });
  }
  std::optional<access::AccountRecord> Load(const std::string& id) {
    std::optional<access::AccountRecord> row;
    EXPECT_TRUE(InTransaction([&](Transaction& t) { row = LoadAccount(t, {id}); }).ok());
    return row;
  }
};

TEST_F(Accounts, AreReadBackAsTheyWereWritten) {
  const std::string name = "Zoë O'Hara \"\\ \xF0\x9F\xA7\xB6";
  clock_.Set(MomentOf(1'234'567'890'123'457));
  ASSERT_TRUE(
      InTransaction([&](Transaction& transaction) {
        InsertAccount(transaction, {{"zoe"}, false, name, "zoe@invented.test", clock_.Now()});
      }).ok());
  const auto row = Load("zoe");
  ASSERT_TRUE(row.has_value());
  EXPECT_FALSE(row->may_create_patterns);
  EXPECT_EQ(row->display_name, name);
  EXPECT_EQ(row->mail_address, "zoe@invented.test");
  EXPECT_EQ(row->created_at, clock_.Now());
  EXPECT_FALSE(Load("nobody").has_value());
}

TEST_F(Accounts, AreGivenTheRightToCreatePatternsUnlessErased) {
  AddAccount("tea", false);
  AddAccount("gone", false);
  ASSERT_TRUE(InTransaction([&](Transaction& t) {
                EraseAccount(t, {"gone"}, clock_.Now());
                EXPECT_TRUE(AllowPatterns(t, {"tea"}));
                EXPECT_TRUE(AllowPatterns(t, {"tea"}));
                EXPECT_FALSE(AllowPatterns(t, {"gone"}));
                EXPECT_FALSE(AllowPatterns(t, {"nobody"}));
              }).ok());
  EXPECT_TRUE(Load("tea")->may_create_patterns);
  EXPECT_FALSE(Load("gone")->may_create_patterns);
}

TEST_F(Accounts, ChangeTheirOwnPersonOnly) {
  AddAccount("ada");
  AddAccount("bea");
  ASSERT_TRUE(
      InTransaction([](Transaction& t) { UpdatePerson(t, {"ada"}, "A", "a@b.test"); }).ok());
  EXPECT_EQ(Load("ada")->display_name, "A");
  EXPECT_EQ(Load("ada")->mail_address, "a@b.test");
  EXPECT_EQ(Load("bea")->display_name, "Name of bea");
}

TEST_F(Accounts, LeaveNoPersonalDataBehindOnceErased) {
  AddAccount("ada");
  AddAccount("bea");
  ASSERT_TRUE(InTransaction([&](Transaction& t) { EraseAccount(t, {"ada"}, clock_.Now()); }).ok());
  EXPECT_EQ(Load("ada")->display_name, "");
  EXPECT_EQ(Load("ada")->mail_address, "");
  EXPECT_EQ(Execute("select count(*) from person where account_id = 'ada'"), "0");
  EXPECT_EQ(Execute("select label from token where account_id = 'ada'"), "");
  EXPECT_EQ(Execute("select count(*) from token where account_id = 'ada' and revoked_at is null"),
            "0");
  EXPECT_EQ(Load("bea")->display_name, "Name of bea");
  EXPECT_EQ(Execute("select count(*) from token where account_id = 'bea' and revoked_at is null"),
            "1");
}

TEST_F(Accounts, ListTheirTokensNewestFirstPageByPage) {
  AddAccount("ada");
  AddAccount("bea");
  ASSERT_TRUE(
      InTransaction([&](Transaction& transaction) {
        for (int i = 0; i < 5; ++i) {
          // Two of each moment: the identifier decides between them.
          const Moment made = clock_.Now() + std::chrono::hours(1 + i / 2);
          const std::string id = "x" + std::to_string(i);
          InsertToken(transaction, {"ada"}, {{id}, id, made, made, std::nullopt}, Sha256Of(id));
        }
      }).ok());
  std::string met;
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                std::optional<Moment> before;
                TokenId before_id;
                for (int page = 0; page < 10; ++page) {
                  const auto rows = ListTokens(transaction, {"ada"}, before, before_id, 2);
                  for (const access::TokenRecord& row : rows) met += row.id.value + " ";
                  if (rows.size() < 2) return;
                  before = rows.back().created_at;
                  before_id = rows.back().id;
                }
              }).ok());
  EXPECT_EQ(met, "x4 x3 x2 x1 x0 tada ");
}

TEST_F(Accounts, CountTheTokensThatStillHold) {
  AddAccount("ada");
  const auto count = [&] {
    int valid = -1;
    EXPECT_TRUE(InTransaction([&](Transaction& t) {
                  valid = CountValidTokens(t, {"ada"}, clock_.Now());
                }).ok());
    return valid;
  };
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                for (const char* id : {"revoked", "longer"}) {
                  InsertToken(transaction, {"ada"},
                              {{id}, "", clock_.Now(), clock_.Now() + std::chrono::hours(48), {}},
                              Sha256Of(id));
                }
                RevokeToken(transaction, {"ada"}, {"revoked"}, clock_.Now());
              }).ok());
  EXPECT_EQ(count(), 2);
  clock_.Advance(std::chrono::hours(24));
  EXPECT_EQ(count(), 1);
}

TEST_F(Accounts, RevokeATokenOnceAndKeepItsFirstTime) {
  AddAccount("ada");
  const Moment first = clock_.Now();
  std::optional<access::TokenRecord> row;
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                RevokeToken(transaction, {"ada"}, {"tada"}, first);
                RevokeToken(transaction, {"ada"}, {"tada"}, first + std::chrono::hours(1));
                row = LoadToken(transaction, {"ada"}, {"tada"});
              }).ok());
  ASSERT_TRUE(row.has_value());
  EXPECT_EQ(row->revoked_at, first);
}

TEST_F(Accounts, GiveAnotherSecretOnlyToATokenOfTheirOwnThatHolds) {
  AddAccount("ada");
  AddAccount("bea");
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                EXPECT_TRUE(ReplaceSecret(transaction, {"ada"}, {"tada"}, Sha256Of("new")));
                EXPECT_FALSE(ReplaceSecret(transaction, {"ada"}, {"tbea"}, Sha256Of("newer")));
                EXPECT_FALSE(ReplaceSecret(transaction, {"ada"}, {"none"}, Sha256Of("newer")));
                RevokeToken(transaction, {"bea"}, {"tbea"}, clock_.Now());
                EXPECT_FALSE(ReplaceSecret(transaction, {"bea"}, {"tbea"}, Sha256Of("newer")));
                EXPECT_FALSE(LoadToken(transaction, {"ada"}, {"tbea"}).has_value());
              }).ok());
  const Database::Body nothing = [](Transaction&, const Admission&) { return absl::OkStatus(); };
  EXPECT_FALSE(database_.Read("Old", Later(), ScopeFor("ada"), nothing).ok());
  EXPECT_TRUE(database_.Read("New", Later(), ScopeFor("new"), nothing).ok());
}

}  // namespace
}  // namespace rowproof::storage
