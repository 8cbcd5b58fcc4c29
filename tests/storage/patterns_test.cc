// Rows of patterns, editors and versions.
#include "storage/patterns.h"

#include <pqxx/pqxx>

#include "storage/editors.h"
#include "tests/domain/estimate/sample_designs.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {
namespace {

class Patterns : public StorageTest {
 protected:
  Patterns() {
    AddAccount("ada");
    AddAccount("bea");
    AddAccount("edi", false);
    AddPattern("shawl", "ada");
  }
  absl::Status InTransaction(const std::function<void(Transaction&)>& work) {
    return Write([&](Transaction& transaction, const Admission&) {
      work(transaction);
      return absl::OkStatus();
    });
  }
  absl::Status Submit(const patterns::VersionRecord& version) {
    return WriteByStatement("ada", {"shawl"}, [&](Transaction& transaction, const Admission&) {
      InsertVersion(transaction, version);
      return absl::OkStatus();
    });
  }
  patterns::VersionRecord Version(int number) {
    const chart::Design design = estimate::TwentyRows();
    patterns::VersionRecord version;
    version.pattern = {"shawl"};
    version.number = number;
    version.parent_number = number - 1;
    version.author = {"ada"};
    version.created_at = clock_.Now();
    version.note = "note 'of' " + std::to_string(number);
    version.content = std::string("bytes \0 \xff \\", 11) + std::to_string(number);
    version.content_hash = Sha256Of(version.content);
    version.rules_version = chart::kRulesVersion;
    version.check = chart::Check(design);
    version.model_version = estimate::kModelVersion;
    version.estimates = *estimate::EstimateSizes(design, estimate::RoundMaking());
    return version;
  }
};

TEST_F(Patterns, AreReadBackAsTheyWereWritten) {
  std::optional<patterns::PatternRecord> row;
  std::optional<patterns::PatternRecord> none;
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                UpdatePatternTitle(transaction, {"shawl"}, "Another 'title'");
                row = LoadPattern(transaction, {"shawl"});
                none = LoadPattern(transaction, {"none"});
              }).ok());
  ASSERT_TRUE(row.has_value());
  EXPECT_EQ(row->title, "Another 'title'");
  EXPECT_EQ(row->designer.value, "ada");
  EXPECT_EQ(row->version_count, 0);
  EXPECT_EQ(row->revision, 2);
  EXPECT_EQ(row->created_at, clock_.Now());
  EXPECT_FALSE(none.has_value());
}

TEST_F(Patterns, AreListedToTheirPeopleOnlyNewestFirstPageByPage) {
  AddPattern("of0bea", "bea");
  for (const char* id : {"p1", "p2", "p3", "p4"}) {
    if (std::string(id) == "p3") clock_.Advance(std::chrono::seconds(1));
    AddPattern(id, "ada");
  }
  ASSERT_TRUE(InTransaction([&](Transaction& t) {
                access::EditorRecord editor;
                editor.pattern = {"p2"};
                editor.id = {"e1"};
                editor.account = {"edi"};
                editor.created_at = editor.expires_at = clock_.Now();
                editor.accepted_at = clock_.Now();
                InsertEditor(t, editor, Sha256Of("invitation"));
                AcceptEditor(t, editor);
              }).ok());
  const auto all = [&](const std::string& account) {
    std::string met;
    EXPECT_TRUE(InTransaction([&](Transaction& transaction) {
                  std::optional<Moment> before;
                  PatternId before_id;
                  for (int page = 0; page < 10; ++page) {
                    const auto rows =
                        ListPatterns(transaction, {account}, false, before, before_id, 2);
                    for (const patterns::PatternRecord& row : rows) met += row.id.value + " ";
                    if (rows.size() < 2) return;
                    before = rows.back().created_at;
                    before_id = rows.back().id;
                  }
                }).ok());
    return met;
  };
  EXPECT_EQ(all("ada"), "p4 p3 shawl p2 p1 ");
  EXPECT_EQ(all("bea"), "of0bea ");
  EXPECT_EQ(all("edi"), "p2 ");
  EXPECT_EQ(all("nobody"), "");
}

TEST_F(Patterns, ReadAVersionBackByteForByte) {
  const patterns::VersionRecord written = Version(1);
  std::optional<patterns::VersionRecord> read;
  std::optional<patterns::VersionRecord> none;
  std::optional<patterns::PatternRecord> pattern;
  ASSERT_TRUE(Submit(written).ok());
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                read = LoadVersion(transaction, {"shawl"}, 1);
                none = LoadVersion(transaction, {"shawl"}, 2);
                pattern = LoadPattern(transaction, {"shawl"});
              }).ok());
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->content, written.content);
  EXPECT_EQ(read->content_hash, written.content_hash);
  EXPECT_EQ(read->note, written.note);
  EXPECT_EQ(read->parent_number, 0);
  EXPECT_EQ(read->author.value, "ada");
  EXPECT_EQ(read->created_at, written.created_at);
  EXPECT_EQ(read->rules_version, written.rules_version);
  EXPECT_EQ(read->check, written.check);
  EXPECT_EQ(read->model_version, written.model_version);
  EXPECT_EQ(read->estimates, written.estimates);
  EXPECT_EQ(pattern->version_count, 1);
  EXPECT_FALSE(none.has_value());
}

TEST_F(Patterns, KeepWhatTheComparisonOfAVersionsTextFound) {
  patterns::VersionRecord compared = Version(2);
  compared.comparison_version = rows::kComparisonVersion;
  compared.comparison.emplace();
  compared.comparison->error_count = 2;
  compared.comparison->warning_count = 3;
  compared.comparison->note_count = int64_t{4} << 40;
  compared.comparison->findings.emplace_back().text_says = "sc '3'";
  std::optional<patterns::VersionRecord> without;
  std::optional<patterns::VersionRecord> read;
  std::vector<patterns::VersionRecord> listed;
  ASSERT_TRUE(Submit(Version(1)).ok());
  ASSERT_TRUE(Submit(compared).ok());
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                without = LoadVersion(transaction, {"shawl"}, 1);
                read = LoadVersion(transaction, {"shawl"}, 2);
                listed = ListVersions(transaction, {"shawl"}, 0, 2);
              }).ok());
  EXPECT_FALSE(without->comparison.has_value());
  EXPECT_EQ(read->comparison, compared.comparison);
  EXPECT_EQ(read->comparison_version, rows::kComparisonVersion);
  EXPECT_EQ(listed[0].comparison->note_count, int64_t{4} << 40);
  EXPECT_TRUE(listed[0].comparison->findings.empty());
  EXPECT_FALSE(listed[1].comparison.has_value());
}

TEST_F(Patterns, ListTheirVersionsNewestFirst) {
  std::vector<patterns::VersionRecord> first;
  std::vector<patterns::VersionRecord> second;
  for (int number = 1; number <= 3; ++number) ASSERT_TRUE(Submit(Version(number)).ok());
  ASSERT_TRUE(InTransaction([&](Transaction& transaction) {
                first = ListVersions(transaction, {"shawl"}, 0, 2);
                second = ListVersions(transaction, {"shawl"}, 2, 2);
              }).ok());
  ASSERT_EQ(first.size(), 2u);
  EXPECT_EQ(first[0].number, 3);
  EXPECT_EQ(first[1].number, 2);
  EXPECT_EQ(first[0].check.error_count, Version(3).check.error_count);
  EXPECT_TRUE(first[0].content.empty());
  ASSERT_EQ(second.size(), 1u);
  EXPECT_EQ(second[0].number, 1);
}

TEST_F(Patterns, NumberAVersionAnewWhereAnotherCameFirst) {
  std::vector<int> seen;
  const absl::Status status =
      WriteByStatement("ada", {"shawl"}, [&](Transaction& transaction, const Admission& admission) {
        seen.push_back(admission.pattern->version_count);
        if (seen.size() == 1) {
          EXPECT_TRUE(Submit(Version(1)).ok());
        }
        InsertVersion(transaction, Version(seen.back() + 1));
        return absl::OkStatus();
      });
  EXPECT_TRUE(status.ok()) << status;
  EXPECT_EQ(seen, (std::vector<int>{0, 1}));
  EXPECT_EQ(Execute("select string_agg(number::text, ' ' order by number) from version"), "1 2");
  EXPECT_EQ(Execute("select version_count from pattern where pattern_id = 'shawl'"), "2");
  EXPECT_EQ(Execute("select string_agg(result, ' ' order by result) from request_claim"), "1 2");
}

TEST_F(Patterns, StoreNothingOfARequestThatWasCarriedOutMeanwhile) {
  TransactionScope scope = ScopeFor("ada");
  scope.pattern = {"shawl"};
  scope.lock = RootLock::kByStatement;
  scope.request = RequestIdentity{"the same", "Test", {}};
  int runs = 0;
  std::optional<std::string> earlier;
  const Database::Body body = [&](Transaction& transaction, const Admission& admission) {
    earlier = admission.earlier_result;
    if (earlier.has_value()) return absl::OkStatus();
    if (++runs == 1) {
      EXPECT_TRUE(database_.Write("Test", Later(), scope, body).ok());
    }
    InsertVersion(transaction, Version(admission.pattern->version_count + 1));
    return absl::OkStatus();
  };
  ASSERT_TRUE(database_.Write("Test", Later(), scope, body).ok());
  EXPECT_EQ(earlier, "1");
  EXPECT_EQ(Execute("select count(*) from version"), "1");
}

}  // namespace
}  // namespace rowproof::storage
