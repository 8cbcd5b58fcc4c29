// A write that was committed, whose answer was lost, or that the client sends again: it is answered
// as it was the first time, and done once.
#include <gmock/gmock.h>

#include <pqxx/pqxx>

#include "services/usecases/calibrations.h"
#include "services/usecases/patterns.h"
#include "services/usecases/reconciliations.h"
#include "tests/support/cutting_proxy.h"
#include "tests/usecases/usecases_fixture.h"

namespace rowproof::usecases {
namespace {

class LostAnswers : public UsecasesTest {
 protected:
  testing::CuttingProxy proxy_{testing::TestCluster::Get().socket_folder()};
  storage::Database cut_{{test_database_.connection() + " host='" + proxy_.folder() + "'", 8,
                          std::chrono::milliseconds(2000)},
                         clock_,
                         sleeper_,
                         observer_};
  // The first commit's answer does not arrive.
  Application cutting_{cut_, identifiers_, clock_, versions_};
};

TEST_F(LostAnswers, OfARenamedPatternAreFoundAgain) {
  RequestContext context = From("ada", "PatternService.UpdatePattern");
  const auto renamed = UpdatePattern(cutting_, context, kPattern, "Reed shawl", 1);
  EXPECT_TRUE(proxy_.has_cut());
  ASSERT_TRUE(renamed.ok()) << renamed.status();
  EXPECT_EQ(renamed->title, "Reed shawl");
  EXPECT_EQ(renamed->revision, 2);
  RequestContext later = From("ada", "PatternService.GetPattern");
  EXPECT_EQ(GetPattern(application_, later, kPattern)->revision, 2);
}

TEST_F(LostAnswers, OfARenamedCalibrationAreFoundAgain) {
  RequestContext context = From("ada", "CalibrationService.GetCalibration");
  const auto before = GetCalibration(application_, context, {"c1"});
  ASSERT_TRUE(before.ok()) << before.status();
  RequestContext renaming = From("ada", "CalibrationService.UpdateCalibration");
  const auto renamed =
      RenameCalibration(cutting_, renaming, {"c1"}, "Rye", before->row.change_count);
  EXPECT_TRUE(proxy_.has_cut());
  ASSERT_TRUE(renamed.ok()) << renamed.status();
  EXPECT_EQ(renamed->row.title, "Rye");
  EXPECT_EQ(renamed->row.change_count, before->row.change_count + 1);
}

TEST_F(LostAnswers, OfAnArchivedPatternAreFoundAgain) {
  RequestContext context = From("ada", "PatternService.ArchivePattern");
  const auto archived = ArchivePattern(cutting_, context, kPattern, true, 1);
  EXPECT_TRUE(proxy_.has_cut());
  ASSERT_TRUE(archived.ok()) << archived.status();
  EXPECT_EQ(archived->revision, 2);
  EXPECT_EQ(archived->archived_at, clock_.Now());
}

TEST_F(LostAnswers, OfANewPatternAreFoundAgain) {
  RequestContext context = From("ada", "PatternService.CreatePattern");
  const auto made = CreatePattern(cutting_, context, "Invented mat");
  EXPECT_TRUE(proxy_.has_cut());
  ASSERT_TRUE(made.ok()) << made.status();
  EXPECT_EQ(Execute("select count(*) from pattern where title = 'Invented mat'"), "1");
}

TEST_F(LostAnswers, OfARepeatedRequestAreThoseOfTheFirst) {
  const std::string id = "6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e35";
  RequestContext first = From("ada", "PatternService.CreatePattern", id);
  RequestContext again = From("ada", "PatternService.CreatePattern", id);
  const auto made = CreatePattern(application_, first, "Invented mat");
  const auto repeated = CreatePattern(application_, again, "Invented mat");
  ASSERT_TRUE(made.ok()) << made.status();
  ASSERT_TRUE(repeated.ok()) << repeated.status();
  EXPECT_EQ(repeated->id.value, made->id.value);
  RequestContext other = From("ada", "PatternService.CreatePattern", id);
  other.digest = Sha256Of("another request");
  const auto refused = CreatePattern(application_, other, "Another mat");
  EXPECT_EQ(DetailOf(refused.status()).reason, "REQUEST_ID_REUSED");
}

TEST_F(LostAnswers, OfAPatternDoNotReachStrangers) {
  AddAccount("eve");
  RequestContext context = From("eve", "PatternService.UpdatePattern");
  EXPECT_EQ(UpdatePattern(application_, context, kPattern, "Mine", 1).status().code(),
            absl::StatusCode::kNotFound);
  RequestContext tester = From("tea", "PatternService.UpdatePattern");
  EXPECT_EQ(UpdatePattern(application_, tester, kPattern, "Mine", 1).status().code(),
            absl::StatusCode::kPermissionDenied);
  RequestContext nobody = From("ada", "PatternService.UpdatePattern");
  nobody.token_sha256.reset();
  EXPECT_EQ(UpdatePattern(application_, nobody, kPattern, "Mine", 1).status().code(),
            absl::StatusCode::kUnauthenticated);
}

TEST_F(LostAnswers, StaleEtagsChangeNothing) {
  RequestContext context = From("ada", "PatternService.UpdatePattern");
  const auto stale = UpdatePattern(application_, context, kPattern, "Reed shawl", 7);
  EXPECT_EQ(stale.status().code(), absl::StatusCode::kAborted);
  EXPECT_EQ(Execute("select title from pattern where pattern_id = 'shawl'"), "Pattern shawl");
}

}  // namespace
}  // namespace rowproof::usecases
