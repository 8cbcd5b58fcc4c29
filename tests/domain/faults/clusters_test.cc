#include "services/domain/faults/clusters.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "services/domain/chart/expand.h"

namespace rowproof::faults {
namespace {

using faults::ErratumKind;
using faults::SeenIn;
using testing::ElementsAre;
using testing::IsEmpty;
constexpr faults::Confirmation kMet = faults::Confirmation::kMetItToo;
constexpr faults::Confirmation kRight = faults::Confirmation::kWorkedItRight;

std::vector<int> UpTo(int last) {
  std::vector<int> numbers(static_cast<size_t>(last));
  for (int i = 0; i < last; ++i) numbers[static_cast<size_t>(i)] = i + 1;
  return numbers;
}

// Size 0 as drawn (8 rows, 40 stitches); size 1 works rows 3-5 and stitches 5-8 twice.
ChartPlaces MakePlaces() {
  ChartPlaces places;
  places.rows = {UpTo(8), {1, 2, 3, 4, 5, 3, 4, 5, 6, 7, 8}};
  std::vector<int> twice = UpTo(8);
  for (int stitch = 5; stitch <= 40; ++stitch) twice.push_back(stitch);
  places.stitches = {UpTo(40), twice};
  return places;
}
const ChartPlaces kPlaces = MakePlaces();

bool NeverTheSame(Source, int, int, int, int) { return false; }
bool AlwaysTheSame(Source, int, int, int, int) { return true; }

ReportedErratum Report(const std::string& id, const std::string& tester, int row, int first = 0,
                       int last = 0, ErratumKind kind = ErratumKind::kStitch) {
  ReportedErratum report;
  report.id = id;
  report.tester = tester;
  report.version = 1;
  report.row = row;
  report.first_stitch = first;
  report.last_stitch = last;
  report.kind = kind;
  report.seen_in = SeenIn::kChart;
  return report;
}

TesterWork Work(const std::string& tester, int last_row, bool chart = true, bool text = false) {
  TesterWork work;
  work.tester = tester;
  work.from_chart = chart;
  work.from_text = text;
  work.last_row = last_row;
  work.version = 1;
  return work;
}

std::vector<ErrataCluster> Cluster(const std::vector<ReportedErratum>& reports,
                                   const std::vector<ErratumConfirmation>& confirmations = {},
                                   const std::vector<TesterWork>& work = {}) {
  return ClusterErrata(reports, confirmations, work, kPlaces, NeverTheSame);
}

// Worked rows 9 and 10 are the RS and the WS row of chart row 5.
TEST(ErrataClusters, PutBothWorkedRowsOfInsetIntoTheirChartRow) {
  chart::Design design;
  design.technique = chart::Technique::kInset;
  design.cells = chart::Grid(8, 40);
  const ChartPlaces places = {{chart::ChartRowsAsWorked(design, 0)},
                              {chart::ChartStitchesAsWorked(design, 0)}};
  const std::vector<ReportedErratum> reports = {Report("1", "ann", 9, 12, 12),
                                                Report("2", "bea", 10, 11, 13),
                                                Report("3", "cid", 11, 12, 12)};
  const std::vector<TesterWork> work = {Work("dot", 9), Work("eve", 8)};
  const auto clusters = ClusterErrata(reports, {}, work, places, AlwaysTheSame);
  ASSERT_EQ(clusters.size(), 2u);
  EXPECT_EQ(clusters[0].row, 5);
  EXPECT_EQ(clusters[0].last_row, 5);
  EXPECT_THAT(clusters[0].reports, ElementsAre(0, 1));
  EXPECT_EQ(clusters[0].worked_without_reporting, 1);  // dot reached row 9, eve did not
  EXPECT_EQ(clusters[1].row, 6);
  EXPECT_EQ(clusters[1].worked_without_reporting, 0);
}

TEST(ErrataClusters, JoinOverlappingStitchesOfOneKindThroughTheirNeighbours) {
  const auto clusters = Cluster({Report("1", "ann", 4, 10, 12), Report("2", "bea", 4, 14, 16),
                                 Report("3", "cid", 4, 12, 14), Report("4", "dot", 4, 17, 18)});
  ASSERT_EQ(clusters.size(), 2u);
  EXPECT_THAT(clusters[0].reports, ElementsAre(0, 1, 2));
  EXPECT_EQ(clusters[0].first_stitch, 10);
  EXPECT_EQ(clusters[0].last_stitch, 16);
  EXPECT_THAT(clusters[0].reported_by, ElementsAre("ann", "bea", "cid"));
  EXPECT_THAT(clusters[1].reports, ElementsAre(3));
}

TEST(ErrataClusters, KeepKindsAndRowsApart) {
  EXPECT_EQ(Cluster({Report("1", "ann", 4), Report("2", "bea", 4, 0, 0, ErratumKind::kCount),
                     Report("3", "cid", 5)})
                .size(),
            3u);
}

TEST(ErrataClusters, AWholeRowHoldsEveryStitch) {
  const auto clusters =
      Cluster({Report("1", "ann", 4, 3), Report("2", "bea", 4, 30), Report("3", "cid", 4)});
  ASSERT_EQ(clusters.size(), 1u);
  EXPECT_EQ(clusters[0].first_stitch, 0);
  EXPECT_EQ(clusters[0].last_stitch, 0);
}

TEST(ErrataClusters, JoinRangesOfRows) {
  std::vector<ReportedErratum> reports = {Report("1", "ann", 2), Report("2", "bea", 5),
                                          Report("3", "cid", 2)};
  reports[2].last_row = 5;
  const auto clusters = Cluster(reports);
  ASSERT_EQ(clusters.size(), 1u);
  EXPECT_EQ(clusters[0].row, 2);
  EXPECT_EQ(clusters[0].last_row, 5);
}

TEST(ErrataClusters, MeetInTheChartRowWhateverTheSize) {
  std::vector<ReportedErratum> reports = {Report("1", "ann", 4, 7), Report("2", "bea", 7, 7)};
  reports[1].size = 1;  // worked row 7 of size 1 is chart row 4 for the second time
  const auto clusters = Cluster(reports);
  ASSERT_EQ(clusters.size(), 1u);
  EXPECT_EQ(clusters[0].row, 4);
  reports[1].size = 0;
  EXPECT_EQ(Cluster(reports).size(), 2u);
}

TEST(ErrataClusters, MeetInTheChartStitchWhateverTheSize) {
  std::vector<ReportedErratum> reports = {Report("1", "ann", 2, 7), Report("2", "bea", 2, 11)};
  reports[1].size = 1;  // stitch 11 of size 1 is the chart's 7 for the second time
  auto clusters = Cluster(reports);
  ASSERT_EQ(clusters.size(), 1u);
  EXPECT_EQ(clusters[0].first_stitch, 7);
  EXPECT_EQ(clusters[0].last_stitch, 7);
  // Stitches 8 and 9 of size 1 are the chart's 8 and 5: the 7 between them is not concerned.
  reports[1].first_stitch = 8;
  reports[1].last_stitch = 9;
  EXPECT_EQ(Cluster(reports).size(), 2u);
  reports[0].first_stitch = 5;
  clusters = Cluster(reports);
  ASSERT_EQ(clusters.size(), 1u);
  EXPECT_EQ(clusters[0].first_stitch, 5);
  EXPECT_EQ(clusters[0].last_stitch, 8);
  // Stitches that the size does not have: the whole row.
  reports[1].first_stitch = 400;
  EXPECT_EQ(Cluster(reports)[0].first_stitch, 0);
}

TEST(ErrataClusters, WithoutARowFormOneOfTheirKind) {
  std::vector<ReportedErratum> reports = {Report("1", "ann", 0, 0, 0, ErratumKind::kMaterials),
                                          Report("2", "bea", 0, 0, 0, ErratumKind::kMaterials),
                                          Report("3", "cid", 0, 0, 0, ErratumKind::kMeasurement),
                                          Report("4", "dot", 99, 0, 0, ErratumKind::kMeasurement)};
  const auto clusters = Cluster(reports, {}, {Work("eve", 8)});
  ASSERT_EQ(clusters.size(), 2u);
  EXPECT_THAT(clusters[0].reports, ElementsAre(0, 1));
  EXPECT_THAT(clusters[1].reports, ElementsAre(2, 3));
  EXPECT_EQ(clusters[0].row, 0);
  EXPECT_EQ(clusters[0].worked_without_reporting, 0);
}

TEST(ErrataClusters, CountWhoWorkedTheRowAndSaidNothing) {
  std::vector<ReportedErratum> reports = {Report("1", "ann", 5)};
  const std::vector<TesterWork> work = {
      Work("ann", 8),               // reported it
      Work("bea", 8),               // worked the row
      Work("cid", 4),               // not so far yet
      Work("dot", 8, false, true),  // from the text: the fault was seen in the chart
      Work("eve", 5, true, true),
      Work("fay", 8)};
  auto clusters = Cluster(reports, {{"1", "fay", kMet}}, work);
  EXPECT_EQ(clusters[0].worked_without_reporting, 2);  // bea, eve
  EXPECT_THAT(clusters[0].met_by, ElementsAre("fay"));
  reports[0].seen_in = SeenIn::kBoth;
  EXPECT_EQ(Cluster(reports, {}, work)[0].worked_without_reporting, 4);  // and dot, fay
  reports[0].seen_in = SeenIn::kElsewhere;
  EXPECT_EQ(Cluster(reports, {}, work)[0].worked_without_reporting, 4);
}

TEST(ErrataClusters, DoNotCountWorkFromAVersionThatReadOtherwise) {
  const std::vector<ReportedErratum> reports = {Report("1", "ann", 5)};
  std::vector<TesterWork> work = {Work("bea", 8), Work("cid", 8)};
  work[0].version = 2;  // the row was corrected there
  work[1].version = 2;
  work[1].row_version = {1, 1, 1, 1, 1, 2};  // changed over after row 5
  EXPECT_EQ(ClusterErrata(reports, {}, work, kPlaces, NeverTheSame)[0].worked_without_reporting, 1);
  EXPECT_EQ(ClusterErrata(reports, {}, work, kPlaces, AlwaysTheSame)[0].worked_without_reporting,
            2);
}

TEST(ErrataClusters, AskForTheTestersOwnRowAndSize) {
  std::vector<ReportedErratum> reports = {Report("1", "ann", 4)};
  std::vector<TesterWork> work = {Work("bea", 8)};
  work[0].size = 1;
  work[0].version = 3;
  std::vector<int> asked;
  const auto same = [&](Source source, int size, int row, int version, int other) {
    EXPECT_EQ(source, Source::kChart);
    EXPECT_EQ(size, 1);
    EXPECT_EQ(version, 3);
    EXPECT_EQ(other, 1);
    asked.push_back(row);
    return false;
  };
  ClusterErrata(reports, {}, work, kPlaces, same);
  EXPECT_THAT(asked, ElementsAre(4, 7));  // chart row 4 is worked twice in size 1
}

TEST(ErrataClusters, KeepConfirmationsByTheirLastWord) {
  const std::vector<ReportedErratum> reports = {Report("1", "ann", 5), Report("2", "bea", 5)};
  const auto clusters = Cluster(reports,
                                {{"2", "cid", kMet},
                                 {"1", "dot", kMet},
                                 {"2", "dot", kRight},
                                 {"unknown", "eve", kMet},
                                 {"1", "bea", kMet}},
                                {Work("dot", 8)});
  EXPECT_THAT(clusters[0].met_by, ElementsAre("cid"));
  EXPECT_THAT(clusters[0].right_for, ElementsAre("dot"));
  EXPECT_EQ(clusters[0].worked_without_reporting, 1);
}

TEST(ErrataClusters, TellWhoFoundItUnprompted) {
  std::vector<ReportedErratum> reports = {Report("1", "ann", 5), Report("2", "bea", 5)};
  reports[1].seen_before = true;
  const auto clusters = Cluster(reports);
  EXPECT_THAT(clusters[0].reported_by, ElementsAre("ann", "bea"));
  EXPECT_THAT(clusters[0].found_by, ElementsAre("ann"));
}

TEST(ErrataClusters, OfNothingAreNone) { EXPECT_THAT(Cluster({}), IsEmpty()); }

bool ShareANumber(const std::vector<std::vector<int>>& numbers, int size_a, int first_a, int last_a,
                  int size_b, int first_b, int last_b) {
  for (int a = first_a; a <= std::max(first_a, last_a); ++a) {
    for (int b = first_b; b <= std::max(first_b, last_b); ++b) {
      if (numbers[static_cast<size_t>(size_a)][static_cast<size_t>(a - 1)] ==
          numbers[static_cast<size_t>(size_b)][static_cast<size_t>(b - 1)]) {
        return true;
      }
    }
  }
  return false;
}

bool Overlap(const ReportedErratum& a, const ReportedErratum& b) {
  if (a.kind != b.kind) return false;
  if (!ShareANumber(kPlaces.rows, a.size, a.row, a.last_row, b.size, b.row, b.last_row)) {
    return false;
  }
  return a.first_stitch == 0 || b.first_stitch == 0 ||
         ShareANumber(kPlaces.stitches, a.size, a.first_stitch, a.last_stitch, b.size,
                      b.first_stitch, b.last_stitch);
}

// Against the plain definition: pairs that overlap, joined until nothing changes.
TEST(ErrataClusters, AreTheTransitiveClosureOfOverlapInAnyOrder) {
  std::mt19937_64 random(31);
  for (int round = 0; round < 300; ++round) {
    std::vector<ReportedErratum> reports;
    const size_t count = 1 + random() % 14;
    for (size_t i = 0; i < count; ++i) {
      ReportedErratum report = Report("r" + std::to_string(i), "t" + std::to_string(random() % 4),
                                      1 + static_cast<int>(random() % 8));
      report.size = static_cast<int>(random() % 2);
      if (random() % 4 == 0) report.last_row = std::min(8, report.row + 1);
      if (random() % 5 != 0) report.first_stitch = 1 + static_cast<int>(random() % 12);
      if (random() % 2 == 0) report.last_stitch = report.first_stitch + 1;
      if (report.first_stitch == 0) report.last_stitch = 0;
      report.kind = random() % 3 == 0 ? ErratumKind::kCount : ErratumKind::kStitch;
      reports.push_back(report);
    }
    std::vector<size_t> label(count);
    for (size_t i = 0; i < count; ++i) label[i] = i;
    for (bool changed = true; changed;) {
      changed = false;
      for (size_t i = 0; i < count; ++i) {
        for (size_t j = 0; j < count; ++j) {
          if (label[j] >= label[i] || !Overlap(reports[i], reports[j])) continue;
          label[i] = label[j];
          changed = true;
        }
      }
    }
    std::set<std::set<std::string>> expected;
    for (size_t i = 0; i < count; ++i) {
      std::set<std::string> ids;
      for (size_t j = 0; j < count; ++j) {
        if (label[j] == label[i]) ids.insert(reports[j].id);
      }
      expected.insert(ids);
    }
    const auto as_ids = [](const std::vector<ReportedErratum>& given) {
      std::vector<std::set<std::string>> sets;
      for (const ErrataCluster& cluster : Cluster(given)) {
        std::set<std::string> ids;
        for (const size_t i : cluster.reports) ids.insert(given[i].id);
        sets.push_back(ids);
      }
      return sets;
    };
    const std::vector<std::set<std::string>> once = as_ids(reports);
    EXPECT_EQ(std::set<std::set<std::string>>(once.begin(), once.end()), expected) << round;
    EXPECT_EQ(once.size(), expected.size());
    std::shuffle(reports.begin(), reports.end(), random);
    EXPECT_EQ(as_ids(reports), once) << round;
  }
}

}  // namespace
}  // namespace rowproof::faults
