// Errata as testers report them, and the clusters that reports of one fault form. Pure;
// thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_FAULTS_CLUSTERS_H_
#define ROWPROOF_SERVICES_DOMAIN_FAULTS_CLUSTERS_H_

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "services/domain/faults/coverage.h"
#include "services/domain/faults/erratum.h"
#include "services/domain/stop.h"

namespace rowproof::faults {

// One report of one fault: worked rows and expanded stitches of the tester's size (as
// ChartStitches gives them), in the present version's numbering (the caller carries the
// rows of earlier versions first).
struct ReportedErratum {
  std::string id;        // opaque, unique
  std::string tester;    // opaque key of who reported it
  int version = 0;       // the version that was read
  int size = 0;          // index of the size that was worked
  int row = 0;           // worked row from 1; 0 if no row is concerned
  int last_row = 0;      // 0 is the same as `row`
  int first_stitch = 0;  // expanded stitch from 1; 0: the whole row
  int last_stitch = 0;   // 0 is the same as first_stitch
  faults::ErratumKind kind = faults::ErratumKind::kOther;
  faults::SeenIn seen_in = faults::SeenIn::kElsewhere;
  // The tester could already see the erratum in a list: then the report says nothing about how many
  // are left.
  bool seen_before = false;
};

// What a tester says about an erratum that is listed; the last word of each tester counts.
struct ErratumConfirmation {
  std::string erratum;  // id of any report in the cluster
  std::string tester;
  faults::Confirmation said = faults::Confirmation::kMetItToo;
};

// The places of each size's worked rows and stitches in the chart as drawn: those of
// chart::ChartRowsAsWorked and chart::ChartStitchesAsWorked.
struct ChartPlaces {
  ChartRows rows;                          // rows[size][row - 1]
  std::vector<std::vector<int>> stitches;  // stitches[size][stitch - 1]
};

struct ErrataCluster {
  faults::ErratumKind kind = faults::ErratumKind::kOther;
  std::vector<size_t> reports;  // indices into the reports given, ascending
  // Smallest place that holds all reports, in chart rows (0: no row) and the chart's stitches (0:
  // the whole row, if a report names it).
  int row = 0;
  int last_row = 0;
  int first_stitch = 0;
  int last_stitch = 0;
  bool in_chart = false;
  bool in_text = false;
  bool elsewhere = false;
  // Distinct, sorted.
  std::vector<std::string> reported_by;
  // Those of `reported_by` with a report made before they could see the erratum.
  std::vector<std::string> found_by;
  std::vector<std::string> met_by;     // confirmed, and did not report it
  std::vector<std::string> right_for;  // say that it was right
  // Testers who worked one of its rows, from the chart or text that has the fault and while it read
  // as it was reported, and neither reported nor confirmed it. Those in right_for are counted too.
  // 0 if no row is concerned.
  int worked_without_reporting = 0;
};

// Reports of one kind on overlapping places form one cluster, transitively: their chart rows
// overlap, and their chart stitches overlap or one of the two names the whole row (as one does
// whose stitches the size does not have); reports without a row, or whose rows the size does not
// have, overlap each other. A confirmation of an unknown id is passed over. The result does not
// depend on the order of the reports but for the indices; clusters are sorted by row, first stitch,
// kind and smallest id. Time O(m log m), m the number of places (row and run of stitches) that the
// reports name. Not whole if the work has to stop, which the caller asks.
std::vector<ErrataCluster> ClusterErrata(std::span<const ReportedErratum> reports,
                                         std::span<const ErratumConfirmation> confirmations,
                                         std::span<const TesterWork> work,
                                         const ChartPlaces& places, const SameReading& same_reading,
                                         const Stop& stop = {});

}  // namespace rowproof::faults

#endif  // ROWPROOF_SERVICES_DOMAIN_FAULTS_CLUSTERS_H_
