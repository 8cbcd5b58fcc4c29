// Errata as testers report them, and the clusters that reports of one fault form. Pure;
// thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_ERRATA_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_ERRATA_H_

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "services/domain/reconcile/coverage.h"

namespace rowproof::reconcile {

enum class ErratumKind : uint8_t {
  kStitch,       // a stitch is wrong or cannot be worked
  kCount,        // a row's stitch count does not add up
  kColour,       // a row's colour
  kSide,         // RS and WS
  kRepeat,       // a repeat does not close, or too many or few repetitions
  kMaterials,    // yarn, hook, amounts
  kMeasurement,  // gauge, finished size
  kOther,
};
inline constexpr int kErratumKinds = 8;
const char* Name(ErratumKind kind);  // "stitch", "count", ...

enum class SeenIn : uint8_t { kChart, kText, kBoth, kElsewhere };
const char* Name(SeenIn seen_in);  // "chart", "text", "both", "elsewhere"

// One report of one fault, as the tester counts: worked rows of the tester's size, in the present
// version's numbering (the caller carries the rows of earlier versions first).
struct ReportedErratum {
  std::string id;        // opaque, unique
  std::string tester;    // opaque key of who reported it
  int version = 0;       // the version that was read
  int size = 0;          // index of the size that was worked
  int row = 0;           // worked row from 1; 0 where no row is concerned
  int last_row = 0;      // 0 is the same as `row`
  int first_stitch = 0;  // the chart's number, from 1; 0: the whole row
  int last_stitch = 0;   // 0 is the same as first_stitch
  ErratumKind kind = ErratumKind::kOther;
  SeenIn seen_in = SeenIn::kElsewhere;
  // The tester could already see the erratum in a list: then the report says nothing about how many
  // are left.
  bool seen_before = false;
};

// What a tester says about an erratum that is listed.
struct Confirmation {
  std::string erratum;  // id of any report in the cluster
  std::string tester;
  bool met_it_too = false;  // else: worked it, it was right
};

struct ErrataCluster {
  ErratumKind kind = ErratumKind::kOther;
  std::vector<size_t> reports;  // indices into the reports given, ascending
  // Smallest place that holds all reports, in chart rows (0: no row) and the chart's stitches (0:
  // the whole row, where one report names it).
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
  // 0 where no row is concerned.
  int worked_without_reporting = 0;
};

// Reports of one kind on overlapping places form one cluster, transitively: their chart rows
// overlap, and their stitches overlap or one of the two names the whole row; reports without a row,
// or whose rows the size does not have, overlap each other. A confirmation of an unknown id is
// passed over. The result does not depend on the order of the reports but for the indices; clusters
// are sorted by row, first stitch, kind and smallest id. Time O(n log n) but for rows with very
// many reports.
std::vector<ErrataCluster> ClusterErrata(std::span<const ReportedErratum> reports,
                                         std::span<const Confirmation> confirmations,
                                         std::span<const TesterWork> work,
                                         const ChartRows& chart_rows,
                                         const SameReading& same_reading);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_ERRATA_H_
