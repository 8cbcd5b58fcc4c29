// Migrations: once, in order, and never against a database that this build does not know.
#include "storage/database/migrate.h"

#include <pqxx/pqxx>
//
#include <barrier>
#include <filesystem>
#include <fstream>
#include <thread>

#include "gmock/gmock.h"
#include "services/domain/errors.h"
#include "tests/storage/storage_fixture.h"
#include "tests/support/source_folder.h"

namespace rowproof::storage {
namespace {

class Migrations : public ::testing::Test {
 protected:
  static std::vector<Migration> Two() {
    return {{1, "0001_first", "create table first (x integer); insert into first values (1)"},
            {2, "0002_second", "create table second (y integer)"}};
  }
  std::string Execute(const std::string& sql) {
    pqxx::connection session(database_.connection());
    const pqxx::result result = pqxx::nontransaction(session).exec(sql);
    return result.empty() ? "" : result[0][0].c_str();
  }
  absl::StatusOr<int> Apply(const std::vector<Migration>& migrations) {
    return Migrate(database_.connection(), migrations);
  }

  testing::TestDatabase database_{testing::TestDatabase::Schema::kEmpty};
};

TEST_F(Migrations, AreAppliedOnceEach) {
  EXPECT_EQ(*Apply({Two()[0]}), 1);
  EXPECT_EQ(*Apply(Two()), 1);
  EXPECT_EQ(*Apply(Two()), 0);
  EXPECT_EQ(Execute("select string_agg(name, ' ' order by number) from schema_migration"),
            "0001_first 0002_second");
  EXPECT_EQ(Execute("select count(*) from first"), "1");
}

TEST_F(Migrations, AreAppliedOnceByTwoMigratorsAtTheSameTime) {
  std::barrier both(2);
  const auto migrate = [&](absl::StatusOr<int>* applied) {
    both.arrive_and_wait();
    *applied = Apply(Two());
  };
  absl::StatusOr<int> one = 0;
  absl::StatusOr<int> other = 0;
  std::thread rival([&] { migrate(&other); });
  migrate(&one);
  rival.join();
  ASSERT_TRUE(one.ok()) << one.status();
  ASSERT_TRUE(other.ok()) << other.status();
  EXPECT_EQ(*one + *other, 2);
  EXPECT_EQ(Execute("select count(*) from first"), "1");
}

TEST_F(Migrations, LeaveNothingOfOneThatFails) {
  std::vector<Migration> migrations = Two();
  migrations[1].sql += "; select 1 / 0";
  const absl::Status failed = Apply(migrations).status();
  EXPECT_THAT(std::string(failed.message()),
              ::testing::HasSubstr("The migration " + migrations[1].name + ".sql failed"));
  EXPECT_THAT(std::string(failed.message()), ::testing::HasSubstr("division by zero (22012)"));
  EXPECT_EQ(Execute("select count(*) from schema_migration"), "1");
  EXPECT_EQ(Execute("select to_regclass('second') is null"), "t");
  EXPECT_EQ(*Apply(Two()), 1);
}

TEST_F(Migrations, RefuseADatabaseOfANewerBuild) {
  ASSERT_TRUE(Apply(Two()).ok());
  const absl::Status refused = Apply({Two()[0]}).status();
  EXPECT_EQ(refused.code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_EQ(DetailOf(refused).reason, "SCHEMA_NEWER");
  EXPECT_EQ(DetailOf(CheckSchema(database_.connection(), {Two()[0]})).reason, "SCHEMA_NEWER");
}

TEST_F(Migrations, RefuseAnotherNameUnderAKnownNumber) {
  ASSERT_TRUE(Apply(Two()).ok());
  std::vector<Migration> renamed = Two();
  renamed[1].name = "0002_other";
  EXPECT_EQ(Apply(renamed).status().code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_EQ(CheckSchema(database_.connection(), renamed).code(),
            absl::StatusCode::kFailedPrecondition);
}

TEST_F(Migrations, AreMissedByTheCheckWhichChangesNothing) {
  EXPECT_EQ(DetailOf(CheckSchema(database_.connection(), Two())).reason, "SCHEMA_OLDER");
  EXPECT_EQ(Execute("select to_regclass('schema_migration') is null"), "t");
  ASSERT_TRUE(Apply({Two()[0]}).ok());
  EXPECT_EQ(DetailOf(CheckSchema(database_.connection(), Two())).reason, "SCHEMA_OLDER");
  ASSERT_TRUE(Apply(Two()).ok());
  EXPECT_TRUE(CheckSchema(database_.connection(), Two()).ok());
}

TEST_F(Migrations, SayUnavailableWhereNoServerAnswers) {
  EXPECT_EQ(Migrate("host=/nowhere-invented", Two()).status().code(),
            absl::StatusCode::kUnavailable);
  EXPECT_EQ(CheckSchema("host=/nowhere-invented", Two()).code(), absl::StatusCode::kUnavailable);
}

class MigrationFiles : public ::testing::Test {
 protected:
  MigrationFiles() {
    std::string folder = (std::filesystem::temp_directory_path() / "rowproof-sql-XXXXXX").string();
    EXPECT_NE(mkdtemp(folder.data()), nullptr);
    folder_ = folder;
  }
  ~MigrationFiles() override { std::filesystem::remove_all(folder_); }
  void Put(const std::string& name) { std::ofstream(folder_ / name) << "select '" << name << "'"; }
  absl::Status Refusal() { return ReadMigrations(folder_.string()).status(); }

  std::filesystem::path folder_;
};

TEST_F(MigrationFiles, AreReadInTheOrderOfTheirNumbers) {
  Put("0002_b.sql");
  Put("0001_a.sql");
  Put("notes.txt");
  const auto migrations = ReadMigrations(folder_.string());
  ASSERT_TRUE(migrations.ok()) << migrations.status();
  ASSERT_EQ(migrations->size(), 2u);
  EXPECT_EQ((*migrations)[0].number, 1);
  EXPECT_EQ((*migrations)[0].name, "0001_a");
  EXPECT_EQ((*migrations)[1].sql, "select '0002_b.sql'");
}

TEST_F(MigrationFiles, AreRefusedWhereANumberIsMissing) {
  Put("0001_a.sql");
  Put("0003_c.sql");
  EXPECT_NE(Refusal().message().find("0002"), std::string::npos) << Refusal();
}

TEST_F(MigrationFiles, AreRefusedWhereANumberStandsTwice) {
  Put("0001_a.sql");
  Put("0001_b.sql");
  EXPECT_EQ(Refusal().code(), absl::StatusCode::kFailedPrecondition);
}

TEST_F(MigrationFiles, AreRefusedWhereANameHasNoNumber) {
  Put("0001_a.sql");
  Put("second.sql");
  EXPECT_EQ(Refusal().code(), absl::StatusCode::kFailedPrecondition);
}

TEST_F(MigrationFiles, AreRefusedWhereThereAreNone) {
  EXPECT_EQ(Refusal().code(), absl::StatusCode::kFailedPrecondition);
  std::filesystem::remove_all(folder_);
  EXPECT_EQ(Refusal().code(), absl::StatusCode::kFailedPrecondition);
}

TEST(Schema, IsThatOfThisBuildInATestsDatabase) {
  const testing::TestDatabase database;
  const auto migrations = ReadMigrations(InSources("storage/migrations"));
  ASSERT_TRUE(migrations.ok()) << migrations.status();
  const absl::Status checked = CheckSchema(database.connection(), *migrations);
  EXPECT_TRUE(checked.ok()) << checked;
}

}  // namespace
}  // namespace rowproof::storage
