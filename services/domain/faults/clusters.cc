#include "services/domain/faults/clusters.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

namespace rowproof::faults {
namespace {

using faults::ErratumKind;
using faults::SeenIn;

// Of a row that is looked up, in units of Stop.
constexpr int kRowWork = 5;

// The chart's numbers of first..last (from 1) of one size, ascending and distinct; what the size
// does not have is left out.
std::vector<int> InChart(const std::vector<std::vector<int>>& numbers, int size, int first,
                         int last) {
  std::vector<int> in_chart;
  if (first < 1 || size < 0 || static_cast<size_t>(size) >= numbers.size()) return in_chart;
  const std::vector<int>& of_size = numbers[static_cast<size_t>(size)];
  const int end = std::min(std::max(first, last), static_cast<int>(of_size.size()));
  for (int i = first; i <= end; ++i) in_chart.push_back(of_size[static_cast<size_t>(i - 1)]);
  std::sort(in_chart.begin(), in_chart.end());
  in_chart.erase(std::unique(in_chart.begin(), in_chart.end()), in_chart.end());
  return in_chart;
}

// A report's place in the chart: no rows if it concerns none; no stitches for the whole row.
struct Place {
  std::vector<int> rows;
  std::vector<int> stitches;
};

Place PlaceOf(const ReportedErratum& report, const ChartPlaces& places) {
  return {InChart(places.rows, report.size, report.row, report.last_row),
          InChart(places.stitches, report.size, report.first_stitch, report.last_stitch)};
}

// Disjoint sets of reports, joined one pair at a time.
class Groups {
 public:
  explicit Groups(size_t count) : parent_(count) {
    std::iota(parent_.begin(), parent_.end(), size_t{0});
  }
  size_t Of(size_t item) {
    while (parent_[item] != item) item = parent_[item] = parent_[parent_[item]];
    return item;
  }
  // The smaller index stays the group's name.
  void Join(size_t a, size_t b) {
    a = Of(a);
    b = Of(b);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<size_t> parent_;
};

// A run of a report's stitches in a row; a whole row holds every stitch.
struct Span {
  int first = 0;
  int last = 0;
  size_t report = 0;
};

std::vector<Span> SpansOf(const std::vector<int>& stitches, size_t report) {
  constexpr int kEveryStitch = 1 << 30;
  if (stitches.empty()) return {{0, kEveryStitch, report}};
  std::vector<Span> spans;
  for (const int stitch : stitches) {
    if (!spans.empty() && spans.back().last == stitch - 1) {
      spans.back().last = stitch;
    } else {
      spans.push_back({stitch, stitch, report});
    }
  }
  return spans;
}

// Joins the reports of one kind in one row whose stitches overlap.
void JoinOverlaps(std::vector<Span>* spans, Groups* groups) {
  std::sort(spans->begin(), spans->end(), [](const Span& a, const Span& b) {
    return std::pair(a.first, a.report) < std::pair(b.first, b.report);
  });
  int reached = -1;
  size_t before = 0;
  for (const Span& span : *spans) {
    if (span.first <= reached) groups->Join(before, span.report);
    reached = std::max(reached, span.last);
    before = span.report;
  }
}

Groups GroupReports(std::span<const ReportedErratum> reports, const std::vector<Place>& places,
                    const Stop& stop) {
  Groups groups(reports.size());
  std::map<std::pair<ErratumKind, int>, std::vector<Span>> by_row;
  const auto add = [&](size_t report, int row, const std::vector<Span>& spans) {
    std::vector<Span>& there = by_row[{reports[report].kind, row}];
    there.insert(there.end(), spans.begin(), spans.end());
  };
  for (size_t i = 0; i < reports.size(); ++i) {
    if (stop.After(kRowWork * places[i].rows.size())) return groups;
    if (places[i].rows.empty()) add(i, 0, SpansOf({}, i));
    const std::vector<Span> spans = SpansOf(places[i].stitches, i);
    for (const int row : places[i].rows) add(i, row, spans);
  }
  for (auto& [row, spans] : by_row) {
    if (stop.After(kRowWork * spans.size())) return groups;
    JoinOverlaps(&spans, &groups);
  }
  return groups;
}

std::vector<std::string> Sorted(const std::set<std::string>& names) {
  return {names.begin(), names.end()};
}

// Widens a cluster's place by one report about a row; stitches 0 to 0 are the whole row.
void AddPlace(const Place& place, bool first_report, ErrataCluster* cluster) {
  cluster->row = first_report ? place.rows.front() : std::min(cluster->row, place.rows.front());
  cluster->last_row = std::max(cluster->last_row, place.rows.back());
  if (place.stitches.empty() || (!first_report && cluster->first_stitch == 0)) {
    cluster->first_stitch = cluster->last_stitch = 0;
    return;
  }
  cluster->first_stitch = first_report ? place.stitches.front()
                                       : std::min(cluster->first_stitch, place.stitches.front());
  cluster->last_stitch = std::max(cluster->last_stitch, place.stitches.back());
}

// What the reports alone say: place, sources, who reported.
ErrataCluster Describe(std::span<const ReportedErratum> reports, const std::vector<size_t>& members,
                       const std::vector<Place>& places) {
  ErrataCluster cluster;
  cluster.kind = reports[members[0]].kind;
  cluster.reports = members;
  std::set<std::string> reported;
  std::set<std::string> found;
  bool first_report = true;
  for (const size_t i : members) {
    const ReportedErratum& report = reports[i];
    reported.insert(report.tester);
    if (!report.seen_before) found.insert(report.tester);
    cluster.in_chart |= report.seen_in == SeenIn::kChart || report.seen_in == SeenIn::kBoth;
    cluster.in_text |= report.seen_in == SeenIn::kText || report.seen_in == SeenIn::kBoth;
    cluster.elsewhere |= report.seen_in == SeenIn::kElsewhere;
    if (places[i].rows.empty()) continue;
    AddPlace(places[i], first_report, &cluster);
    first_report = false;
  }
  cluster.reported_by = Sorted(reported);
  cluster.found_by = Sorted(found);
  return cluster;
}

// The rows and versions in which a cluster's fault was read.
struct Reading {
  std::set<int> rows;
  std::set<int> versions;
};

bool WorkedIt(const TesterWork& tester, const ErrataCluster& cluster, const Reading& reading,
              const ChartRows& chart_rows, const SameReading& same_reading, const Stop& stop) {
  if (tester.size < 0 || static_cast<size_t>(tester.size) >= chart_rows.size()) return false;
  const std::vector<int>& of_size = chart_rows[static_cast<size_t>(tester.size)];
  const int last = std::min(tester.last_row, static_cast<int>(of_size.size()));
  // Seen neither in the chart nor in the text: every tester who worked the row could have met it.
  const bool anywhere = !cluster.in_chart && !cluster.in_text;
  if (stop.After(kRowWork * last)) return false;
  for (int row = 1; row <= last; ++row) {
    if (reading.rows.count(of_size[static_cast<size_t>(row - 1)]) == 0) continue;
    const int version = tester.VersionOf(row);
    const auto read_it = [&](Source source, bool followed, bool concerned) {
      return followed && concerned &&
             std::any_of(reading.versions.begin(), reading.versions.end(), [&](int reported) {
               return version == reported ||
                      same_reading(source, tester.size, row, version, reported);
             });
    };
    if (read_it(Source::kChart, tester.from_chart, cluster.in_chart || anywhere)) return true;
    if (read_it(Source::kText, tester.from_text, cluster.in_text || anywhere)) return true;
  }
  return false;
}

bool Holds(const std::vector<std::string>& sorted, const std::string& name) {
  return std::binary_search(sorted.begin(), sorted.end(), name);
}

// The last word of each tester on each cluster.
void AddConfirmations(std::span<const ReportedErratum> reports,
                      std::span<const ErratumConfirmation> confirmations,
                      std::vector<ErrataCluster>* clusters) {
  std::map<std::string, size_t> cluster_of;
  for (size_t c = 0; c < clusters->size(); ++c) {
    for (const size_t i : (*clusters)[c].reports) cluster_of.emplace(reports[i].id, c);
  }
  std::map<std::pair<size_t, std::string>, bool> met;
  for (const ErratumConfirmation& one : confirmations) {
    const auto found = cluster_of.find(one.erratum);
    if (found != cluster_of.end())
      met[{found->second, one.tester}] = one.said == faults::Confirmation::kMetItToo;
  }
  for (const auto& [key, met_it_too] : met) {
    ErrataCluster& cluster = (*clusters)[key.first];
    if (!met_it_too) {
      cluster.right_for.push_back(key.second);
    } else if (!Holds(cluster.reported_by, key.second)) {
      cluster.met_by.push_back(key.second);
    }
  }
}

void CountWorkers(std::span<const ReportedErratum> reports, std::span<const TesterWork> work,
                  const std::vector<Place>& places, const ChartRows& chart_rows,
                  const SameReading& same_reading, const Stop& stop, ErrataCluster* cluster) {
  Reading reading;
  for (const size_t i : cluster->reports) {
    reading.rows.insert(places[i].rows.begin(), places[i].rows.end());
    reading.versions.insert(reports[i].version);
  }
  std::set<std::string> workers;
  for (const TesterWork& tester : work) {
    if (Holds(cluster->reported_by, tester.tester) || Holds(cluster->met_by, tester.tester)) {
      continue;
    }
    if (stop.After(kRowWork)) return;
    if (WorkedIt(tester, *cluster, reading, chart_rows, same_reading, stop)) {
      workers.insert(tester.tester);
    }
  }
  cluster->worked_without_reporting = static_cast<int>(workers.size());
}

}  // namespace

std::vector<ErrataCluster> ClusterErrata(std::span<const ReportedErratum> reports,
                                         std::span<const ErratumConfirmation> confirmations,
                                         std::span<const TesterWork> work,
                                         const ChartPlaces& places, const SameReading& same_reading,
                                         const Stop& stop) {
  std::vector<Place> where;
  for (const ReportedErratum& report : reports) {
    where.push_back(PlaceOf(report, places));
    if (stop.After(kRowWork * (where.back().rows.size() + where.back().stitches.size()))) return {};
  }
  Groups groups = GroupReports(reports, where, stop);
  if (!stop.status().ok()) return {};
  std::map<size_t, std::vector<size_t>> members;
  for (size_t i = 0; i < reports.size(); ++i) members[groups.Of(i)].push_back(i);
  std::vector<ErrataCluster> clusters;
  for (const auto& [name, indices] : members) clusters.push_back(Describe(reports, indices, where));
  const auto smallest_id = [&](const ErrataCluster& cluster) {
    std::string id = reports[cluster.reports[0]].id;
    for (const size_t i : cluster.reports) id = std::min(id, reports[i].id);
    return id;
  };
  std::sort(clusters.begin(), clusters.end(), [&](const ErrataCluster& a, const ErrataCluster& b) {
    const auto place = [](const ErrataCluster& c) {
      return std::tuple(c.row, c.first_stitch, c.kind);
    };
    if (place(a) != place(b)) return place(a) < place(b);
    return smallest_id(a) < smallest_id(b);
  });
  AddConfirmations(reports, confirmations, &clusters);
  for (ErrataCluster& cluster : clusters) {
    CountWorkers(reports, work, where, places.rows, same_reading, stop, &cluster);
  }
  return clusters;
}

}  // namespace rowproof::faults
