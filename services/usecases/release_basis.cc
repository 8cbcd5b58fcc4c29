#include "services/usecases/release_basis.h"

#include <algorithm>
#include <set>

#include "fmt/format.h"
#include "services/domain/status_macros.h"
#include "services/usecases/read_version.h"
#include "services/usecases/transactions.h"
#include "storage/accounts.h"
#include "storage/reconciliations.h"
#include "storage/releases.h"
#include "storage/test_calls.h"

namespace rowproof::usecases {
namespace {

constexpr int kReleasesLookedAt = 1000;

// Testers who finished the size in rows that all read as they do in the version: in the chart or as
// written, whichever the tester followed.
int FinishedTesters(const CallEvidence& evidence, const std::vector<faults::TesterWork>& work,
                    int size, patterns::Readings& readings) {
  const int rows = testcalls::WorkedRowCount(evidence.present().design, size);
  int finished = 0;
  for (const faults::TesterWork& tester : work) {
    const auto seat = std::find_if(evidence.seats.begin(), evidence.seats.end(),
                                   [&](const auto& s) { return s.id.value == tester.tester; });
    if (tester.size != size || tester.last_row < rows || seat == evidence.seats.end() ||
        seat->state != testcalls::SeatState::kFinished) {
      continue;
    }
    bool same = true;
    for (int row = 1; same && row <= rows; ++row) {
      const auto reads_so = [&](faults::Source source) {
        return readings.Same(source, size, row, tester.VersionOf(row), evidence.present_version);
      };
      same = (tester.from_chart && reads_so(faults::Source::kChart)) ||
             (tester.from_text && reads_so(faults::Source::kText));
    }
    finished += same ? 1 : 0;
  }
  return finished;
}

std::optional<int> Required(const ReleaseBasis& basis, const std::string& size) {
  if (!basis.call.has_value()) return std::nullopt;
  for (const testcalls::WantedSize& wanted : basis.call->settings.sizes) {
    if (wanted.size == size) return wanted.required;
  }
  return std::nullopt;
}

int64_t TextDifferences(const ReleaseBasis& basis, int size) {
  const auto& comparison = basis.version.row.comparison;
  if (!comparison.has_value()) return 0;
  return std::count_if(comparison->findings.begin(), comparison->findings.end(),
                       [&](const rows::ComparisonFinding& finding) {
                         return finding.severity == chart::Severity::kError &&
                                std::find(finding.sizes.begin(), finding.sizes.end(), size) !=
                                    finding.sizes.end();
                       });
}

std::vector<releases::SizeFacts> SizeFactsOf(const ReleaseBasis& basis, const Stop& stop) {
  std::vector<releases::SizeFacts> facts;
  for (const chart::Size& size : basis.version.content.design.sizes) {
    const auto index = static_cast<int>(facts.size());
    facts.push_back({size.name, 0, TextDifferences(basis, index), Required(basis, size.name)});
  }
  if (!basis.evidence.has_value()) return facts;
  patterns::Readings readings(basis.evidence->contents, basis.evidence->present_version, &stop);
  const auto work = WorkOfTesters(*basis.evidence, readings);
  for (size_t i = 0; i < facts.size(); ++i) {
    facts[i].finished_testers =
        FinishedTesters(*basis.evidence, work, static_cast<int>(i), readings);
  }
  return facts;
}

// What the version's estimate predicts: every yarn that a size takes, size and time.
std::vector<reconcile::Quantity> PredictedQuantities(const ReleaseBasis& basis) {
  std::set<reconcile::Quantity> predicted = {
      reconcile::Quantity::kWidth, reconcile::Quantity::kHeight, reconcile::Quantity::kTime};
  for (const auto& size : basis.version.row.estimates) {
    for (const auto& colour : size.colours) predicted.insert(reconcile::QuantityOf(colour.colour));
  }
  std::vector<reconcile::Quantity> listed;
  for (const reconcile::Quantity quantity : reconcile::kQuantitiesAsListed) {
    if (predicted.contains(quantity)) listed.push_back(quantity);
  }
  return listed;
}

// Whether the newest reconciliation used the newest reports, with the measurements set aside that
// are so now.
bool ReconciliationIsNew(const ReleaseBasis& basis) {
  return basis.evidence.has_value() && basis.reconciliation.has_value() &&
         basis.reconciliation->result.reports == UsedReports(*basis.evidence) &&
         basis.reconciliation->result.set_aside == basis.evidence->set_aside;
}

// Of a yarn it is asked that a tester measured it: its amount is printed to be bought.
bool IsReconciled(const reconcile::Reconciliation& made, reconcile::Quantity quantity) {
  const bool of_yarn = reconcile::YarnOfQuantity(quantity).has_value();
  return std::any_of(made.quantities.begin(), made.quantities.end(), [&](const auto& result) {
    return result.quantity == quantity && (!of_yarn || result.used > 0);
  });
}

std::vector<std::string> Unreconciled(const ReleaseBasis& basis) {
  const bool is_new = ReconciliationIsNew(basis);
  std::vector<std::string> names;
  for (const reconcile::Quantity quantity : PredictedQuantities(basis)) {
    if (is_new && IsReconciled(basis.reconciliation->result, quantity)) continue;
    names.emplace_back(reconcile::Name(quantity));
  }
  return names;
}

// The newest release of an older version; else the version that the call began with.
std::optional<int> VersionBefore(storage::Transaction& transaction, const PatternId& pattern,
                                 int version, const CallId& id) {
  for (const auto& release :
       storage::ListReleases(transaction, pattern, std::nullopt, {}, kReleasesLookedAt)) {
    if (release.version_number < version) return release.version_number;
  }
  if (id.empty()) return std::nullopt;
  const int first = storage::ListSentVersions(transaction, pattern, id).front().number;
  if (first >= version) return std::nullopt;
  return first;
}

}  // namespace

absl::StatusOr<ReleaseBasis> LoadReleaseBasis(Application& application,
                                              storage::Transaction& transaction,
                                              const storage::Admission& who,
                                              const PatternId& pattern, int version,
                                              const CallId& id) {
  ReleaseBasis basis;
  ASSIGN_OR_RETURN(auto read, LoadVisibleVersion(transaction, who.standing, pattern, version));
  basis.version = std::move(read);
  if (const auto designer = storage::LoadAccount(transaction, who.pattern->designer)) {
    basis.designer = designer->display_name;
  }
  basis.errata_undecided = storage::CountUndecidedErrata(transaction, pattern);
  if (!id.empty()) {
    basis.call = storage::LoadTestCall(transaction, pattern, id);
    basis.evidence = LoadEvidence(application, transaction, pattern, id, version);
    basis.reconciliation = storage::LoadNewestReconciliation(transaction, pattern, id);
  }
  if (const auto before = VersionBefore(transaction, pattern, version, id)) {
    ASSIGN_OR_RETURN(auto earlier, LoadVisibleVersion(transaction, who.standing, pattern, *before));
    basis.before = std::move(earlier);
  }
  return basis;
}

releases::GateFacts FactsOf(const ReleaseBasis& basis, const Stop& stop) {
  releases::GateFacts facts;
  facts.workability_errors = basis.version.row.check.error_count;
  facts.has_designer_text = !basis.version.content.designer_text.empty();
  if (const auto& comparison = basis.version.row.comparison; comparison.has_value()) {
    facts.text_compared = true;
    facts.text_errors = comparison->error_count;
  }
  facts.errata_undecided = basis.errata_undecided;
  facts.has_call = basis.call.has_value();
  facts.sizes = SizeFactsOf(basis, stop);
  facts.quantities_unreconciled = Unreconciled(basis);
  return facts;
}

}  // namespace rowproof::usecases
