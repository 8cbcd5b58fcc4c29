// Data of earlier schemas through all migrations: nothing is lost, and everything is read by this
// build. All invented.
#include <gmock/gmock.h>

#include <pqxx/pqxx>
//
#include <algorithm>
#include <random>

#include "storage/accounts.h"
#include "storage/editors.h"
#include "storage/errata.h"
#include "storage/patterns.h"
#include "storage/reconciliations.h"
#include "storage/releases.h"
#include "storage/reports.h"
#include "storage/seats.h"
#include "storage/test_calls.h"
#include "tests/domain/testcalls/sample_reports.h"
#include "tests/storage/old_data_fixture.h"

namespace rowproof::storage {
namespace {

using ::testing::ElementsAre;

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

TEST_F(OldData, OfASeatThatHasEndedShowsNoPatternToItsTester) {
  MigrateTo(3);
  Execute(kAtThree);
  Execute("update seat set state = 4, ended_at = now() where seat_id = 's1'");
  MigrateToTheNewest();
  Read([](Transaction& t) {
    EXPECT_FALSE(WasSentVersion(t, kPattern, 1, {"tea"}));
    EXPECT_TRUE(WasSentVersion(t, kPattern, 1, {"tom"}));
  });
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
