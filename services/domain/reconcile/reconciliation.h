// One reconciliation as it is stored: what was measured against what was predicted for each tester,
// quantity by quantity, with what follows from it. Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_RECONCILIATION_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_RECONCILIATION_H_

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/clock.h"
#include "services/domain/faults/clusters.h"
#include "services/domain/faults/undiscovered.h"
#include "services/domain/identifiers.h"
#include "services/domain/reconcile/amounts.h"
#include "services/domain/reconcile/gauge.h"
#include "services/domain/reconcile/statistics/agreement.h"
#include "services/domain/stop.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/slips/slips.h"

namespace rowproof::reconcile {

// Values are stored; they never change their meaning.
enum class Quantity : uint8_t {
  kYarnA = 1,  // m, as the other yarns
  kYarnB = 2,
  kYarnBorder = 3,
  kWidth = 4,  // mm, border and fringe included
  kHeight = 5,
  kTime = 6,  // minutes
  kYarnC = 7,
  kYarnD = 8,
  kYarnE = 9,
  kYarnF = 10,
  kYarnG = 11,
  kYarnH = 12,
};
inline constexpr size_t kQuantities = 12;
// The order of every list: yarns as estimates list them, then size and time.
inline constexpr std::array<Quantity, kQuantities> kQuantitiesAsListed = {
    Quantity::kYarnA,      Quantity::kYarnB, Quantity::kYarnC,  Quantity::kYarnD,
    Quantity::kYarnE,      Quantity::kYarnF, Quantity::kYarnG,  Quantity::kYarnH,
    Quantity::kYarnBorder, Quantity::kWidth, Quantity::kHeight, Quantity::kTime};

inline constexpr size_t kLongestSetAsideNote = 2'000;  // bytes of UTF-8

// If a tester gave no gauge, the prediction uses the version's, with this relative standard
// uncertainty in both directions. Assumption.
inline constexpr double kUnreadGaugeUncertainty = 0.05;
// To which working time is taken to be noted. Assumption.
inline constexpr double kMinutesStep = 1;

// A seat's newest report with the version it was worked from.
struct TesterReport {
  std::string seat;
  int number = 0;   // of the report's revision
  int version = 0;  // that was worked from
  // Of that version; not owned.
  const chart::Design* design = nullptr;
  const estimate::Materials* materials = nullptr;
  testcalls::Report report;
  std::vector<testcalls::Slip> slips;
};

// A measurement that takes no part, by the designer's decision.
struct SetAside {
  std::string seat;
  Quantity quantity = Quantity::kYarnA;
  std::string note;
  bool operator==(const SetAside&) const = default;
};

struct MeasurementResult {
  std::string seat;
  double measured = 0;  // in the quantity's unit, as predicted
  double predicted = 0;
  double relative_uncertainty = 0;
  double theta_mean = 0;
  double theta_sd = 0;
  double shrinkage = 0;  // how far theta was drawn from ln(ratio) to mu, 0 to 1
  std::optional<double> modified_z;
  double predictive_probability = 1;
  bool flagged = false;
  std::vector<std::string> reasons;
  bool set_aside = false;
  std::string set_aside_note;
  bool after_blocking = false;
  bool gauge_assumed = false;
};

struct SizeAmount {
  std::string size;
  estimate::YarnColour colour = estimate::YarnColour::kA;
  Amounts amounts;
  // For amounts.suffices.rounded_m: grams, rounded up, if ball band or tex is known; balls if the
  // band is.
  std::optional<int64_t> mass_g;
  std::optional<int64_t> balls;
};

struct QuantityResult {
  Quantity quantity = Quantity::kYarnA;
  std::vector<MeasurementResult> measurements;
  int used = 0;
  int set_aside = 0;
  std::string note;  // how far the reports speak, in one sentence
  Prior prior;
  double interval_probability = 0.95;
  Spread mu;
  Spread tau;
  Spread new_maker;
  std::optional<Classical> classical;
  std::vector<SizeAmount> amounts;  // of a yarn
};

struct UsedReport {
  std::string seat;
  int number = 0;
  int version = 0;
  std::string size;
  int last_row = 0;
  bool operator==(const UsedReport&) const = default;
};

struct ClusterResult {
  faults::ErrataCluster cluster;
  std::vector<std::string> errata;      // ids, for cluster.reports
  std::vector<std::string> recomputed;  // a sentence each
};

// Consecutive worked rows of equal coverage.
struct CoverageRun {
  int first = 0;
  int last = 0;
  faults::RowCoverage coverage;
};

struct CoverageResult {
  std::string size;
  std::vector<CoverageRun> runs;
};

struct Reconciliation {
  std::vector<UsedReport> reports;    // by seat
  std::vector<SetAside> set_aside;    // as they stood; also of measurements not made
  std::vector<std::string> left_out;  // measurements that could not be used, a sentence each
  std::vector<QuantityResult> quantities;
  std::optional<GaugeAgreement> stitch_gauge;
  std::optional<GaugeAgreement> row_gauge;
  std::vector<ClusterResult> errata;
  std::vector<CoverageResult> coverage;
  faults::Undiscovered undiscovered;
};

struct ReconciliationRecord {
  PatternId pattern;
  CallId call;
  int number = 0;
  AccountId author;
  Moment created_at;
  int version_number = 0;  // whose amounts it states
  int model_version = 0;
  Reconciliation result;  // lists: its reports alone
};

struct SetAsideRecord {
  SetAsideId id;
  SetAside set_aside;
  Moment set_at;
};

// Fills reports, set_aside, left_out, quantities and gauges: every quantity that `design` made as
// `materials` says has (the version whose amounts are printed), or that a tester measured. Reports
// of finished pieces and of others alike are compared with the estimate up to the last row reached.
// INVALID_ARGUMENT if design or materials are refused by the estimate; the stop's status if the
// work has to stop.
absl::StatusOr<Reconciliation> ReconcileReports(const chart::Design& design,
                                                const estimate::Materials& materials,
                                                const std::vector<TesterReport>& reports,
                                                const std::vector<SetAside>& set_aside,
                                                const Stop& stop = {});

// Rows of equal coverage joined.
CoverageResult InRuns(const std::string& size, const faults::SizeCoverage& coverage);

// The yarn of a quantity; none for size and time.
std::optional<estimate::YarnColour> YarnOfQuantity(Quantity quantity);
Quantity QuantityOf(estimate::YarnColour colour);

// "yarn A", ..., "yarn H", "yarn border", "width", "height", "time".
const char* Name(Quantity quantity);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_RECONCILIATION_H_
