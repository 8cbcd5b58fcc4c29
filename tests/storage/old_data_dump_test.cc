// The verified dump of a private database before it is migrated.
#include <gmock/gmock.h>

#include <pqxx/pqxx>
//
#include <algorithm>
#include <filesystem>

#include "services/server/backup.h"
#include "services/server/program.h"
#include "tests/storage/old_data_fixture.h"

namespace rowproof::storage {
namespace {

using ::testing::ElementsAre;

// A folder of its own below the temporary one, removed at the end.
class BackupFolder {
 public:
  BackupFolder() : path_((std::filesystem::temp_directory_path() / "rowproof-backup-XXXXXX")) {
    EXPECT_NE(mkdtemp(path_.data()), nullptr);
  }
  ~BackupFolder() { std::filesystem::remove_all(path_); }
  BackupFolder(const BackupFolder&) = delete;
  BackupFolder& operator=(const BackupFolder&) = delete;
  const std::string& path() const { return path_; }
  std::vector<std::string> Dumps() const {
    std::vector<std::string> dumps;
    for (const auto& entry : std::filesystem::directory_iterator(path_)) {
      dumps.push_back(entry.path().filename().string());
    }
    std::sort(dumps.begin(), dumps.end());
    return dumps;
  }

 private:
  std::string path_;
};

constexpr char kPrograms[] = "/usr/lib/postgresql/15/bin";

TEST_F(OldData, ComesBackFromTheDumpThatIsMadeBeforeItIsMigrated) {
  MigrateTo(3);
  Execute(kAtThree);
  const BackupFolder folder;
  std::string dump;
  auto migrations = ReadMigrations(InSources("storage/migrations")).value();
  const auto applied = Migrate(test_database_.connection(), migrations, [&](int migration) {
    EXPECT_EQ(migration, 4);
    auto name = server::BackUpBeforeMigration(
        {test_database_.connection(), kPrograms, folder.path()}, migration, clock_.Now());
    if (name.ok()) dump = *name;
    return name.status();
  });
  ASSERT_TRUE(applied.ok()) << applied.status();
  EXPECT_THAT(folder.Dumps(), ElementsAre("before-migration-0004-20260101T000000Z.dump"));
  EXPECT_EQ(std::filesystem::status(folder.path()).permissions(),
            std::filesystem::perms::owner_all);
  testing::TestDatabase restored(testing::TestDatabase::Schema::kEmpty);
  ASSERT_EQ(server::RunProgram({std::string(kPrograms) + "/pg_restore", "--exit-on-error",
                                "--dbname=" + restored.connection(), dump},
                               "/dev/null"),
            0);
  const auto again = Migrate(restored.connection(), migrations);
  ASSERT_TRUE(again.ok()) << again.status();
  EXPECT_EQ(static_cast<size_t>(*again), migrations.size() - 3);
  Database database({restored.connection(), 2, std::chrono::milliseconds(2000)}, clock_, sleeper_,
                    observer_);
  const auto read = database.Read("Test", Later(), {}, [](Transaction& t, const Admission&) {
    const auto report = LoadReport(t, kPattern, kCall, {"s1"}, 1);
    EXPECT_TRUE(report.has_value() && report->report == FirstReport());
    return absl::OkStatus();
  });
  EXPECT_TRUE(read.ok()) << read;
}

TEST_F(OldData, IsNotMigratedWithoutADump) {
  MigrateTo(3);
  const BackupFolder folder;
  auto migrations = ReadMigrations(InSources("storage/migrations")).value();
  const auto applied = Migrate(test_database_.connection(), migrations, [&](int migration) {
    return server::BackUpBeforeMigration(
               {test_database_.connection(), "/nowhere-invented", folder.path()}, migration,
               clock_.Now())
        .status();
  });
  EXPECT_EQ(applied.status().code(), absl::StatusCode::kFailedPrecondition) << applied.status();
  pqxx::connection session(test_database_.connection());
  EXPECT_EQ(pqxx::work(session).exec("select max(number) from schema_migration")[0][0].as<int>(),
            3);
}

TEST_F(OldData, HasItsLastFiveDumpsKept) {
  MigrateTo(1);
  const BackupFolder folder;
  for (int day = 0; day < 7; ++day) {
    const auto name = server::BackUpBeforeMigration(
        {test_database_.connection(), kPrograms, folder.path()}, 2, clock_.Now());
    ASSERT_TRUE(name.ok()) << name.status();
    clock_.Advance(std::chrono::hours(24));
  }
  const auto dumps = folder.Dumps();
  ASSERT_EQ(dumps.size(), server::kBackupsKept);
  EXPECT_EQ(dumps.front(), "before-migration-0002-20260103T000000Z.dump");
  EXPECT_EQ(dumps.back(), "before-migration-0002-20260107T000000Z.dump");
}

}  // namespace
}  // namespace rowproof::storage
