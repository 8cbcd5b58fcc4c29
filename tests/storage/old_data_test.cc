// Data of earlier schemas through all migrations: nothing is lost, and everything is read by this
// build. All invented.
#include <gmock/gmock.h>

#include <pqxx/pqxx>
//
#include <algorithm>
#include <filesystem>
#include <random>

#include "services/server/backup.h"
#include "services/server/program.h"
#include "storage/accounts.h"
#include "storage/database/migrate.h"
#include "storage/editors.h"
#include "storage/errata.h"
#include "storage/patterns.h"
#include "storage/reconciliations.h"
#include "storage/releases.h"
#include "storage/reports.h"
#include "storage/seats.h"
#include "storage/test_calls.h"
#include "tests/domain/testcalls/sample_reports.h"
#include "tests/storage/storage_fixture.h"
#include "tests/support/source_folder.h"

namespace rowproof::storage {
namespace {

using ::testing::ElementsAre;

constexpr int64_t kDay = 86'400'000'000;
constexpr int64_t kStart = 1'767'225'600'000'000;  // 2026-01-01T00:00:00Z

// As migration 0003 leaves it: a call with two seats. Seat s1 has two revisions: the first reports
// errata in rows 7 and 8, the second takes back the one in row 7 and adds one without a row. Seat
// s2 has one report, with a border of its own yarn, and confirms row 8.
constexpr char kAtThree[] = R"(
insert into account values ('ada', 1, now(), null), ('tea', 2, now(), null), ('tom', 2, now(), null);
insert into person values ('ada', 'Ada Invented', ''), ('tea', 'Tea Invented', '');
insert into token values ('t1', 'tea', sha256('tea'), 'laptop', now(), '2100-01-01', null);
insert into pattern values ('shawl', 'ada', 'Invented shawl', 2, 1, now());
insert into version
select 'shawl', n, n - 1, 'ada', now(), '', true, sha256('x'), 'x', 1, 0, 0, 0, '[]', 1, '[]'
from generate_series(1, 2) n;
insert into test_call values ('shawl', 'spring', 2, 2, 1, 0, now(), '{}');
insert into call_version values ('shawl', 'spring', 1, now()), ('shawl', 'spring', 2, now());
insert into seat values
  ('shawl', 'spring', 's1', 2, 'one size', 'tea', null, now(), now(), null, 2),
  ('shawl', 'spring', 's2', 3, 'one size', 'tom', null, now(), now(), null, 1);
insert into membership values ('tea', 'shawl', 'spring', 2, 's1'), ('tom', 'shawl', 'spring', 2, 's2');
insert into report values
  ('shawl', 'spring', 's1', 1, 'tea', false, from_micros(1767225600000000), 1, 'one size', 1, 1, 0,
   '{0,1}', '{t,f}', '{"Oat, \"soft\"",""}', '{"100 % wool",""}', '{4,NULL}', '{9.5,NULL}',
   '{125,NULL}', '{50,NULL}', '{NULL,120.5}', '{1,0.5}', '{100,NULL}', '{38,NULL}', '{1,0.1}',
   '{t,f}', '{f,t}', 4.5, 2, '{f,t}', '{21,20}', '{24,23.5}', '{100,100}', '{100,101.6}', '{1,0.5}',
   'wet, pinned', 200, 100, null, 98.5, 1, 1890, 9, false, E'A pleasure.\nReally.'),
  ('shawl', 'spring', 's1', 2, 'ada', true, from_micros(1767312000000000), 2, 'one size', 2, 0, 1,
   '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', '{}', null,
   null, '{}', '{}', '{}', '{}', '{}', '{}', '', null, null, null, null, 1, null, 12, false, ''),
  ('shawl', 'spring', 's2', 1, 'tom', false, from_micros(1767312000000000), 2, 'one size', 3, 0, 0,
   '{2}', '{t}', '{"Rim"}', '{""}', '{NULL}', '{11}', '{NULL}', '{NULL}', '{33}', '{1}', '{NULL}',
   '{NULL}', '{1}', '{f}', '{f}', null, null, '{}', '{}', '{}', '{}', '{}', '{}', '', null, null,
   null, null, 1, null, 20, true, '');
insert into erratum values
  ('shawl', 'spring', 'e1', 's1', 1, 1, 7, 22, 23, true, 3, 'as drawn', from_micros(1767312000000000),
   from_micros(1767225600000000)),
  ('shawl', 'spring', 'e2', 's1', 1, 2, 8, 0, 0, false, 2, 'yes', from_micros(1767312000000000),
   from_micros(1767225600000000)),
  ('shawl', 'spring', 'e3', 's1', 2, 2, 0, 0, 0, false, 1, '', null, from_micros(1767312000000000));
insert into reported_erratum values
  ('shawl', 'spring', 's1', 1, 1, 'e2', 8, 0, 0, 0, 0, 1, '53 sts', '52 sts', ''),
  ('shawl', 'spring', 's1', 1, 2, 'e1', 7, 2, 3, 1, 1, 0, 'sc', 'ssc', 'it ''gapes'''),
  ('shawl', 'spring', 's1', 2, 1, 'e3', 0, 0, 0, 0, 3, 5, '4 mm', '4.5 mm', 'hook'),
  ('shawl', 'spring', 's1', 2, 2, 'e2', 8, 0, 0, 0, 2, 1, '53 sts', '52 sts', 'in the text too');
insert into erratum_confirmation values
  ('shawl', 'spring', 'e2', 's2', 1, from_micros(1767312000000000));
insert into set_aside values
  ('shawl', 'spring', 's2', 3, 'the ball was not weighed', from_micros(1767312000000000));
insert into reconciliation values
  ('shawl', 'spring', 1, 'ada', from_micros(1767312000000000), 2, 1, '{"reports": []}');
insert into release values
  ('shawl', 'r1', 2, 'spring', 1, 'ada', now(), '{0}', '{1}', '{"It can be worked."}', '{""}', '{1}');
insert into release_file values ('shawl', 'r1', 1, sha256('pdf'), 'pdf');
)";

class OldData : public ::testing::Test {
 protected:
  // Applies the first `count` migrations.
  void MigrateTo(size_t count) {
    auto migrations = ReadMigrations(InSources("storage/migrations"));
    ASSERT_TRUE(migrations.ok()) << migrations.status();
    ASSERT_GE(migrations->size(), count);
    if (count > 0) migrations->resize(count);
    const auto applied = Migrate(test_database_.connection(), *migrations);
    ASSERT_TRUE(applied.ok()) << applied.status();
  }
  void MigrateToTheNewest() { MigrateTo(0); }
  void Execute(const std::string& sql) {
    pqxx::connection session(test_database_.connection());
    pqxx::work work(session);
    work.exec(sql);
    work.commit();
  }
  template <typename Body>
  void Read(Body body) {
    const auto status =
        database_.Read("Test", Later(), {}, [&](Transaction& transaction, const Admission&) {
          body(transaction);
          return absl::OkStatus();
        });
    ASSERT_TRUE(status.ok()) << status;
  }
  // Of tea, with a report on this seat.
  static TransactionScope SeatScope(const std::string& seat, int version = 0) {
    TransactionScope scope;
    scope.token_sha256 = Sha256Of("tea");
    scope.pattern = kPattern;
    scope.call = kCall;
    scope.lock = RootLock::kByStatement;
    scope.report = TransactionScope::Report{{seat}, version};
    return scope;
  }
  std::optional<ReportBasis> Basis(const std::string& seat, int version) {
    std::optional<ReportBasis> basis;
    const auto status = database_.Read("Basis", Later(), SeatScope(seat, version),
                                       [&](Transaction&, const Admission& admission) {
                                         basis = admission.basis;
                                         return absl::OkStatus();
                                       });
    EXPECT_TRUE(status.ok()) << status;
    return basis;
  }
  // Appends it to its seat's reports.
  void Submit(const testcalls::ReportRecord& row, const std::vector<PlacedErratum>& placed,
              const ErrataChanges& changes) {
    TransactionScope scope = SeatScope(row.seat.value);
    scope.request = RequestIdentity{"request-" + std::to_string(++requests_), "Test", {}};
    const auto status = database_.Write(
        "Submit", Later(), scope, [&](Transaction& transaction, const Admission& admission) {
          EXPECT_EQ(admission.basis->report_count + 1, row.number);
          InsertReport(
              transaction, row, placed, changes,
              {admission.basis->seat_state, testcalls::SeatState::kTaken, admission.call->state});
          return absl::OkStatus();
        });
    ASSERT_TRUE(status.ok()) << status;
  }
  testcalls::ReportRecord LoadOne(const char* seat, int number) {
    std::optional<testcalls::ReportRecord> row;
    Read([&](Transaction& t) { row = LoadReport(t, kPattern, kCall, {seat}, number); });
    EXPECT_TRUE(row.has_value());
    return row.value_or(testcalls::ReportRecord());
  }
  static Deadline Later() { return std::chrono::steady_clock::now() + std::chrono::seconds(20); }

  static inline const PatternId kPattern = {"shawl"};
  static inline const CallId kCall = {"spring"};
  testing::TestDatabase test_database_{testing::TestDatabase::Schema::kEmpty};
  testing::StillClock clock_;
  testing::CountingSleeper sleeper_;
  testing::RecordingObserver observer_;
  Database database_{{test_database_.connection(), 2, std::chrono::milliseconds(2000)},
                     clock_,
                     sleeper_,
                     observer_};
  int requests_ = 0;
};

testcalls::Report FirstReport() {
  testcalls::Report report;
  report.size = "one size";
  report.version = 1;
  report.worked_from = testcalls::WorkedFrom::kChart;
  report.hand = chart::Hand::kLeft;
  testcalls::YarnUse a;
  a.yarn = estimate::Yarn{"Oat, \"soft\"", "100 % wool", 4, 9.5, 125.0, 50.0};
  a.mass_before_g = 100;
  a.mass_after_g = 38;
  a.with_swatch = true;
  testcalls::YarnUse b;
  b.colour = estimate::YarnColour::kB;
  b.length_m = 120.5;
  b.length_step_m = 0.5;
  b.scale_step_g = 0.1;
  b.with_border = true;
  report.yarn = {a, b};
  report.hook_mm = 4.5;
  report.ends = chart::Ends::kWaiting;
  report.gauge_before = {{21, 24, 100, 100, 1}};
  report.gauge_after = {{20, 23.5, 100, 101.6, 0.5}};
  report.how_blocked = "wet, pinned";
  report.width_before_mm = 200;
  report.height_before_mm = 100;
  report.height_after_mm = 98.5;
  report.minutes = 1890;
  report.last_row = 9;
  report.errata = {{8, 0, 0, faults::CountedFrom::kStitchOne, faults::SeenIn::kChart,
                    faults::ErratumKind::kCount, "53 sts", "52 sts", ""},
                   {7, 2, 3, faults::CountedFrom::kRowStart, faults::SeenIn::kText,
                    faults::ErratumKind::kStitch, "sc", "ssc", "it 'gapes'"}};
  report.remarks = "A pleasure.\nReally.";
  return report;
}

TEST_F(OldData, OfReportsIsReadAsItWasWritten) {
  MigrateTo(3);
  Execute(kAtThree);
  MigrateToTheNewest();
  const testcalls::ReportRecord first = LoadOne("s1", 1);
  EXPECT_TRUE(first.report == FirstReport());
  EXPECT_THAT(first.errata, ElementsAre(ErratumId{"e2"}, ErratumId{"e1"}));
  EXPECT_EQ(first.entered_by.value, "tea");
  EXPECT_EQ(Micros(first.created_at), kStart);
  const testcalls::ReportRecord second = LoadOne("s1", 2);
  EXPECT_TRUE(second.on_behalf);
  EXPECT_EQ(second.report.worked_from, testcalls::WorkedFrom::kText);
  EXPECT_EQ(second.report.terms, chart::Terms::kUk);
  EXPECT_EQ(second.report.last_row, 12);
  EXPECT_TRUE(second.report.yarn.empty());
  EXPECT_THAT(second.errata, ElementsAre(ErratumId{"e3"}, ErratumId{"e2"}));
  EXPECT_EQ(second.report.errata[0].was, "4 mm");
  EXPECT_EQ(second.report.errata[1].remark, "in the text too");
  EXPECT_EQ(second.report.errata[1].seen_in, faults::SeenIn::kBoth);
  const testcalls::ReportRecord border = LoadOne("s2", 1);
  ASSERT_EQ(border.report.yarn.size(), 1u);
  EXPECT_EQ(border.report.yarn[0].colour, estimate::YarnColour::kBorder);
  EXPECT_EQ(border.report.yarn[0].yarn->wraps_per_inch, 11);
  EXPECT_FALSE(border.report.yarn[0].yarn->tex.has_value());
  EXPECT_EQ(border.report.yarn[0].length_m, 33);
  EXPECT_TRUE(border.report.finished);
}

TEST_F(OldData, OfErrataKeepsWhatWasTakenBackDecidedAndConfirmed) {
  MigrateTo(3);
  Execute(kAtThree);
  MigrateToTheNewest();
  std::vector<faults::ErratumRecord> errata;
  Read([&](Transaction& t) { errata = ListErrata(t, kPattern, kCall, {{}, true}, -1, {}, 10); });
  ASSERT_EQ(errata.size(), 3u);
  const faults::ErratumRecord& hook = errata[0];
  const faults::ErratumRecord& stitch = errata[1];
  const faults::ErratumRecord& count = errata[2];
  EXPECT_EQ(hook.id.value, "e3");
  EXPECT_EQ(hook.chart_row, 0);
  EXPECT_EQ(hook.first_report, 2);
  EXPECT_EQ(hook.last_report, 2);
  EXPECT_EQ(hook.entry.kind, faults::ErratumKind::kMaterials);
  EXPECT_EQ(stitch.id.value, "e1");
  EXPECT_TRUE(stitch.withdrawn);
  EXPECT_EQ(stitch.last_report, 1);
  EXPECT_EQ(stitch.version_number, 1);
  EXPECT_EQ(stitch.entry, FirstReport().errata[1]);
  EXPECT_EQ(stitch.stitches, (faults::StitchRange{22, 23}));
  EXPECT_EQ(stitch.decision,
            (faults::ErratumDecision{faults::ErratumState::kDeclined, "as drawn"}));
  EXPECT_FALSE(count.withdrawn);
  EXPECT_EQ(count.first_report, 1);
  EXPECT_EQ(count.last_report, 2);
  EXPECT_EQ(count.version_number, 2);
  EXPECT_EQ(count.entry.remark, "in the text too");
  EXPECT_EQ(count.decision.state, faults::ErratumState::kAccepted);
  EXPECT_EQ(Micros(*count.decided_at), kStart + kDay);
  ASSERT_EQ(count.confirmations.size(), 1u);
  EXPECT_EQ(count.confirmations[0].seat.value, "s2");
  EXPECT_EQ(count.confirmations[0].confirmation, faults::Confirmation::kMetItToo);
}

TEST_F(OldData, OfSeatsAndReconciliationsIsThere) {
  MigrateTo(3);
  Execute(kAtThree);
  MigrateToTheNewest();
  std::vector<testcalls::SeatRecord> seats;
  std::vector<reconcile::SetAsideRecord> set_aside;
  std::map<SeatId, std::vector<patterns::WorkStep>> steps;
  int reconciliations = 0;
  Read([&](Transaction& t) {
    seats = ListSeats(t, kPattern, kCall, std::nullopt, {}, 10);
    set_aside = ListSetAsides(t, kPattern, kCall, {}, 0, 10);
    steps = LoadWorkSteps(t, kPattern, kCall);
    reconciliations = CountReconciliations(t, kPattern, kCall);
  });
  ASSERT_EQ(seats.size(), 2u);
  EXPECT_EQ(seats[0].display_name, "Tea Invented");
  EXPECT_EQ(seats[0].last_row, 12);
  EXPECT_EQ(seats[0].report_version, 2);
  EXPECT_EQ(seats[1].state, testcalls::SeatState::kFinished);
  ASSERT_EQ(set_aside.size(), 1u);
  EXPECT_EQ(set_aside[0].set_aside, (reconcile::SetAside{"s2", reconcile::Quantity::kYarnBorder,
                                                         "the ball was not weighed"}));
  // It has a name by which it is read and deleted.
  EXPECT_TRUE(IsIdentifier(set_aside[0].id.value)) << set_aside[0].id.value;
  Read([&](Transaction& t) {
    const auto read = LoadSetAside(t, kPattern, kCall, set_aside[0].id);
    ASSERT_TRUE(read.has_value());
    EXPECT_EQ(read->set_aside, set_aside[0].set_aside);
    EXPECT_EQ(FindSetAside(t, kPattern, kCall, {"s2"}, reconcile::Quantity::kYarnBorder),
              set_aside[0].id);
  });
  ASSERT_EQ(steps[{"s1"}].size(), 2u);
  EXPECT_EQ(steps[{"s1"}][0].last_row, 9);
  const auto basis = Basis("s1", 1);
  ASSERT_TRUE(basis.has_value());
  EXPECT_TRUE(basis->version_was_sent);
  EXPECT_EQ(basis->errata.size(), 3u);
  for (const KnownErratum& known : basis->errata) {
    EXPECT_EQ(known.withdrawn, known.id.value == "e1") << known.id.value;
  }
  EXPECT_EQ(reconciliations, 1);
}

// Whoever was a designer may still create patterns; an editor keeps name, account and access.
TEST_F(OldData, OfAccountsKeepsWhatTheyMayDo) {
  MigrateTo(3);
  Execute(kAtThree);
  Execute(
      "insert into account values ('edi', 3, from_micros(1767225600000000), null);"
      "insert into person values ('edi', 'Edi Invented', '');"
      "insert into membership values ('edi', 'shawl', '', 3, '');");
  MigrateToTheNewest();
  Read([&](Transaction& t) {
    EXPECT_TRUE(LoadAccount(t, {"ada"})->may_create_patterns);
    EXPECT_FALSE(LoadAccount(t, {"tea"})->may_create_patterns);
    EXPECT_FALSE(LoadAccount(t, {"edi"})->may_create_patterns);
    const auto editors = ListEditors(t, kPattern, std::nullopt, {}, 10);
    ASSERT_EQ(editors.size(), 1u);
    EXPECT_EQ(editors[0].id.value, "edi");
    EXPECT_EQ(editors[0].account.value, "edi");
    EXPECT_EQ(editors[0].display_name, "Edi Invented");
    EXPECT_EQ(Micros(*editors[0].accepted_at), kStart);
    EXPECT_EQ(CountEditors(t, kPattern, clock_.Now()), 1);
    EXPECT_EQ(ListMemberships(t, {"edi"}).size(), 1u);
  });
}

TEST_F(OldData, OfPatternsAndReleasesIsNeitherArchivedNorWithdrawn) {
  MigrateTo(3);
  Execute(kAtThree);
  MigrateToTheNewest();
  Read([&](Transaction& t) {
    const auto pattern = LoadPattern(t, kPattern);
    ASSERT_TRUE(pattern.has_value());
    EXPECT_EQ(pattern->title, "Invented shawl");
    EXPECT_FALSE(pattern->archived_at.has_value());
    EXPECT_EQ(ListPatterns(t, {"tea"}, false, std::nullopt, {}, 10).size(), 1u);
    const auto release = LoadRelease(t, kPattern, {"r1"});
    ASSERT_TRUE(release.has_value());
    EXPECT_EQ(release->versions_concerned, std::vector<int>{1});
    EXPECT_FALSE(release->withdrawn_at.has_value());
    EXPECT_EQ(release->withdraw_reason, "");
  });
}

// A later revision returns the erratum that was taken back, and takes back another.
TEST_F(OldData, GoesOnWithNewRevisions) {
  MigrateTo(3);
  Execute(kAtThree);
  MigrateToTheNewest();
  testcalls::ReportRecord next = LoadOne("s1", 1);
  next.number = 3;
  next.report.errata.erase(next.report.errata.begin());
  testcalls::YarnUse c;
  c.colour = estimate::YarnColour::kC;
  c.yarn = estimate::Yarn{"Rust", "", 4, std::nullopt, std::nullopt, std::nullopt, 412.5};
  c.length_m = 55;
  next.report.yarn.push_back(c);
  next.errata = {{"e1"}};
  const std::vector<PlacedErratum> placed = {{{"e1"}, false, 7, {22, 23}}};
  Submit(next, placed, {{{"e2"}, {"e3"}}, {{"e1"}}});
  const auto set =
      database_.Write("Test", Later(), {}, [&](Transaction& transaction, const Admission&) {
        InsertSetAside(transaction, kPattern, kCall,
                       {{"x1"}, {"s1", reconcile::Quantity::kYarnC, "not mine"}, clock_.Now()});
        return absl::OkStatus();
      });
  ASSERT_TRUE(set.ok()) << set;
  EXPECT_TRUE(LoadOne("s1", 3).report == next.report);
  EXPECT_TRUE(LoadOne("s1", 1).report == FirstReport());
  std::vector<faults::ErratumRecord> errata;
  std::vector<reconcile::SetAsideRecord> set_aside;
  Read([&](Transaction& t) {
    errata = ListErrata(t, kPattern, kCall, {}, -1, {}, 10);
    set_aside = ListSetAsides(t, kPattern, kCall, {}, 0, 10);
  });
  ASSERT_EQ(errata.size(), 1u);
  EXPECT_EQ(errata[0].id.value, "e1");
  EXPECT_EQ(errata[0].last_report, 3);
  EXPECT_EQ(set_aside.size(), 2u);
}

// What a server of the release before wrote into its own schema.
TEST_F(OldData, OfMigrationFourHasNoTex) {
  MigrateTo(3);
  Execute(kAtThree);
  MigrateTo(4);
  Execute(
      "insert into report select 'shawl', 'spring', 's2', 2, 'tom', on_behalf, created_at,"
      " version_number, size_name, worked_from, hand, terms, yarn_colour, yarn_is_own, yarn_name,"
      " yarn_fibre, yarn_weight_class, yarn_wraps_per_inch, yarn_ball_length_m, yarn_ball_mass_g,"
      " yarn_length_m, yarn_length_step_m, yarn_mass_before_g, yarn_mass_after_g, "
      "yarn_scale_step_g,"
      " yarn_with_swatch, yarn_with_border, hook_mm, ends, gauge_is_after, gauge_stitches, "
      "gauge_rows,"
      " gauge_stitch_span_mm, gauge_row_span_mm, gauge_scale_step_mm, how_blocked, width_before_mm,"
      " height_before_mm, width_after_mm, height_after_mm, tape_step_mm, minutes, last_row, "
      "finished,"
      " remarks, erratum_id, erratum_first, erratum_last, erratum_counted_from, erratum_seen_in,"
      " erratum_remark from report where seat_id = 's1' and number = 1");
  MigrateToTheNewest();
  testcalls::Report expected = FirstReport();
  EXPECT_TRUE(LoadOne("s2", 2).report == expected);
}

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

TEST_F(OldData, IsFollowedByReportsOfEveryYarnReadBackAsTheyWereWritten) {
  MigrateTo(3);
  Execute(kAtThree);
  MigrateToTheNewest();
  std::mt19937 random(20261128);
  for (int number = 2; number < 40; ++number) {
    testcalls::ReportRecord row = LoadOne("s2", 1);
    row.number = number;
    row.report = testcalls::RandomReport(random);
    std::vector<PlacedErratum> placed;
    row.errata.clear();
    for (size_t i = 0; i < row.report.errata.size(); ++i) {
      placed.push_back({{"n" + std::to_string(number) + "." + std::to_string(i)}, true, 1, {}});
      row.errata.push_back(placed.back().id);
    }
    Submit(row, placed, {});
    const testcalls::ReportRecord read = LoadOne("s2", number);
    ASSERT_TRUE(read.report == row.report) << number;
    ASSERT_EQ(read.errata, row.errata);
  }
}

}  // namespace
}  // namespace rowproof::storage
