// Rows of editors: from the invitation to the end of the access.
#include "storage/editors.h"

#include <pqxx/pqxx>

#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

class Editors : public StorageTest {
 protected:
  Editors() {
    AddAccount("ada");
    AddAccount("edi", false);
    AddPattern("shawl", "ada");
  }
  void In(const std::function<void(Transaction&)>& work) {
    const absl::Status status = Write([&](Transaction& transaction, const Admission&) {
      work(transaction);
      return absl::OkStatus();
    });
    ASSERT_TRUE(status.ok()) << status;
  }
  access::EditorRecord Invited(const std::string& id) {
    access::EditorRecord editor;
    editor.pattern = {"shawl"};
    editor.id = {id};
    editor.label = "for Edi";
    editor.created_at = clock_.Now();
    editor.expires_at = clock_.Now() + std::chrono::hours(24);
    return editor;
  }
};

TEST_F(Editors, AreInvitedAcceptAndGo) {
  In([&](Transaction& t) { InsertEditor(t, Invited("e1"), Sha256Of("one")); });
  EXPECT_EQ(Execute("select count(*) from membership where role = 3"), "0");
  In([&](Transaction& t) {
    EXPECT_FALSE(LockInvitedEditor(t, Sha256Of("two")).has_value());
    EXPECT_TRUE(ReplaceEditorInvitation(t, {"shawl"}, {"e1"}, Sha256Of("two")));
    EXPECT_FALSE(ReplaceEditorInvitation(t, {"shawl"}, {"e2"}, Sha256Of("three")));
    EXPECT_FALSE(LockInvitedEditor(t, Sha256Of("one")).has_value());
    auto invited = LockInvitedEditor(t, Sha256Of("two"));
    ASSERT_TRUE(invited.has_value());
    EXPECT_EQ(invited->label, "for Edi");
    EXPECT_FALSE(invited->accepted_at.has_value());
    invited->account = {"edi"};
    invited->accepted_at = clock_.Now();
    AcceptEditor(t, *invited);
    EXPECT_FALSE(ReplaceEditorInvitation(t, {"shawl"}, {"e1"}, Sha256Of("three")));
    const auto read = LoadEditor(t, {"shawl"}, {"e1"});
    ASSERT_TRUE(read.has_value());
    EXPECT_EQ(read->account.value, "edi");
    EXPECT_EQ(read->display_name, "Name of edi");
    EXPECT_EQ(read->label, "");
    EXPECT_EQ(read->accepted_at, clock_.Now());
  });
  EXPECT_EQ(Execute("select account_id from membership where role = 3"), "edi");
  In([&](Transaction& t) {
    EXPECT_TRUE(DeleteEditor(t, {"shawl"}, {"e1"}));
    EXPECT_FALSE(DeleteEditor(t, {"shawl"}, {"e1"}));
  });
  EXPECT_EQ(Execute("select count(*) from membership where role = 3"), "0");
  EXPECT_EQ(Execute("select role from membership where account_id = 'ada'"), "1");
}

TEST_F(Editors, AreListedInTheirOrderAndCountedUntilTheirInvitationExpires) {
  In([&](Transaction& t) {
    InsertEditor(t, Invited("e2"), Sha256Of("two"));
    InsertEditor(t, Invited("e1"), Sha256Of("one"));
    const auto first = ListEditors(t, {"shawl"}, std::nullopt, {}, 1);
    ASSERT_EQ(first.size(), 1u);
    EXPECT_EQ(first[0].id.value, "e1");
    const auto second = ListEditors(t, {"shawl"}, first[0].created_at, first[0].id, 5);
    ASSERT_EQ(second.size(), 1u);
    EXPECT_EQ(second[0].id.value, "e2");
    EXPECT_EQ(CountEditors(t, {"shawl"}, clock_.Now()), 2);
    EXPECT_EQ(CountEditors(t, {"shawl"}, clock_.Now() + std::chrono::hours(24)), 0);
  });
}

}  // namespace
}  // namespace rowproof::storage
