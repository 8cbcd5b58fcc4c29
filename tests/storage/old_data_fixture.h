// A database as an earlier schema left it, to be migrated and read. All invented. Included after
// <pqxx/pqxx>.
#ifndef ROWPROOF_TESTS_STORAGE_OLD_DATA_FIXTURE_H_
#define ROWPROOF_TESTS_STORAGE_OLD_DATA_FIXTURE_H_

#include <gtest/gtest.h>

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "storage/database/database.h"
#include "storage/database/migrate.h"
#include "storage/database/transaction.h"
#include "storage/reports.h"
#include "tests/support/source_folder.h"
#include "tests/support/test_cluster.h"
#include "tests/support/test_seams.h"

namespace rowproof::storage {

inline constexpr int64_t kDay = 86'400'000'000;
inline constexpr int64_t kStart = 1'767'225'600'000'000;  // 2026-01-01T00:00:00Z

// As migration 0003 leaves it: a call with two seats. Seat s1 has two revisions: the first reports
// errata in rows 7 and 8, the second takes back the one in row 7 and adds one without a row. Seat
// s2 has one report, with a border of its own yarn, and confirms row 8.
inline constexpr char kAtThree[] = R"(
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

// The first report of seat s1 or s2, as every field says it.
inline testcalls::Report FirstReport() {
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

}  // namespace rowproof::storage

#endif  // ROWPROOF_TESTS_STORAGE_OLD_DATA_FIXTURE_H_
