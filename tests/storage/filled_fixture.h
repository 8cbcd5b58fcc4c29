// A database with a record of each kind in it, all invented. Included after <pqxx/pqxx>.
#ifndef ROWPROOF_TESTS_STORAGE_FILLED_FIXTURE_H_
#define ROWPROOF_TESTS_STORAGE_FILLED_FIXTURE_H_

#include <string>
#include <vector>

#include "services/domain/patterns/canonical.h"
#include "storage/calibrations.h"
#include "storage/editors.h"
#include "storage/errata.h"
#include "storage/patterns.h"
#include "storage/reconciliations.h"
#include "storage/releases.h"
#include "storage/reports.h"
#include "storage/seats.h"
#include "storage/test_calls.h"
#include "tests/domain/estimate/sample_designs.h"
#include "tests/storage/storage_fixture.h"

namespace rowproof::storage {

// ada designs "shawl" with one version and the open call "spring"; tea holds its seat "s1" and has
// reported once, with the erratum "e1"; an editor is invited; set aside, reconciled and released;
// ada keeps calibration "c1".
class FilledStorage : public StorageTest {
 protected:
  FilledStorage() {
    AddAccount("ada");
    AddAccount("tea", false);
    AddPattern("shawl", "ada");
    const absl::Status submitted =
        WriteByStatement("ada", kPattern, [&](Transaction& transaction, const Admission&) {
          InsertVersion(transaction, Version());
          return absl::OkStatus();
        });
    EXPECT_TRUE(submitted.ok()) << submitted;
    const absl::Status filled = Write([&](Transaction& transaction, const Admission&) {
      OpenCall(transaction);
      KeepCalibration(transaction);
      InsertEditor(transaction,
                   {kPattern, {"e1"}, {}, "", "for Edi", clock_.Now(), clock_.Now(), std::nullopt},
                   Sha256Of("invitation"));
      return absl::OkStatus();
    });
    EXPECT_TRUE(filled.ok()) << filled;
    Report();
    const absl::Status released = Write([&](Transaction& transaction, const Admission&) {
      Reconcile(transaction);
      Release(transaction);
      return absl::OkStatus();
    });
    EXPECT_TRUE(released.ok()) << released;
  }

  static inline const PatternId kPattern = {"shawl"};
  static inline const CallId kCall = {"spring"};
  static inline const SeatId kSeat = {"s1"};

  // Of tea, with a report on the seat.
  static TransactionScope SeatScope() {
    TransactionScope scope = ScopeFor("tea");
    scope.pattern = kPattern;
    scope.call = kCall;
    scope.lock = RootLock::kByStatement;
    scope.report = TransactionScope::Report{kSeat, 1};
    return scope;
  }

 private:
  patterns::VersionRecord Version() {
    patterns::VersionContent content;
    content.title = "Invented shawl";
    content.design = estimate::TwentyRows();
    content.materials = estimate::RoundMaking();
    patterns::VersionRecord version;
    version.pattern = kPattern;
    version.number = 1;
    version.author = {"ada"};
    version.created_at = clock_.Now();
    version.content = patterns::Encode(content);
    version.content_hash = Sha256Of(version.content);
    version.rules_version = chart::kRulesVersion;
    chart::Finding finding;
    finding.code = chart::FindingCode::kEdgeDrop;
    finding.row = 4;
    finding.stitch = finding.last_stitch = 6;
    finding.edit = chart::Edit{4, 6, false, chart::Colour::kA};
    version.check.findings = {finding};
    version.check.code_counts[static_cast<size_t>(finding.code)] = 1;
    version.model_version = estimate::kModelVersion;
    version.estimates = estimate::EstimateSizes(content.design, content.materials).value();
    rows::ComparisonFinding compared;
    compared.sizes = {0};
    compared.off_by = {1};
    compared.rows = {4};
    version.comparison.emplace();
    version.comparison->findings = {compared};
    rows::TextFinding passed_over;
    passed_over.code = rows::TextFindingCode::kPassedOver;
    passed_over.severity = chart::Severity::kNote;
    version.comparison->reading = {passed_over};
    version.comparison_version = rows::kComparisonVersion;
    return version;
  }

  void OpenCall(Transaction& transaction) {
    testcalls::CallSettings settings;
    settings.title = "Spring";
    settings.sizes = {{"one size", 2, 1}};
    settings.deadline = absl::CivilDay(2026, 3, 1);
    const testcalls::TestCallRecord call{kPattern,     kCall,   testcalls::CallState::kOpen, 1, 1,
                                         clock_.Now(), settings};
    InsertTestCall(transaction, call);
    testcalls::SeatRecord seat;
    seat.pattern = kPattern;
    seat.call = kCall;
    seat.id = kSeat;
    seat.size = "one size";
    seat.created_at = clock_.Now();
    InsertSeat(transaction, seat, Sha256Of("invitation"));
    seat.state = testcalls::SeatState::kTaken;
    seat.account = {"tea"};
    seat.taken_at = clock_.Now();
    TakeSeat(transaction, seat);
  }

  void Report() {
    TransactionScope scope = SeatScope();
    scope.request = RequestIdentity{"report", "Test", {}};
    const absl::Status status = database_.Write(
        "Report", Later(), scope, [&](Transaction& transaction, const Admission& admission) {
          testcalls::ReportRecord row{kPattern,          kCall, kSeat, 1, {"tea"}, false,
                                      transaction.now(), {},    {}};
          row.report.version = 1;
          row.report.size = "one size";
          row.report.hook_mm = 4.5;
          row.report.last_row = 12;
          testcalls::YarnUse yarn;
          yarn.yarn = estimate::Yarn{"Oat", "wool", 4, 9.5, 125.0, 50.0, 400.0};
          yarn.length_m = 120;
          row.report.yarn = {yarn};
          row.report.gauge_after = {{20, 24, 100, 100, 1}};
          faults::Erratum erratum;
          erratum.row = 7;
          erratum.was = "59 sts";
          erratum.should_be = "60 sts";
          row.report.errata = {erratum};
          InsertReport(
              transaction, row, {{{"e1"}, true, 7, {2, 5}}}, {},
              {admission.basis->seat_state, testcalls::SeatState::kTaken, admission.call->state});
          return absl::OkStatus();
        });
    EXPECT_TRUE(status.ok()) << status;
  }

  void Reconcile(Transaction& transaction) {
    const auto erratum = LoadErratum(transaction, kPattern, kCall, {"e1"});
    UpsertConfirmation(transaction, erratum.value(),
                       {kSeat, faults::Confirmation::kMetItToo, clock_.Now()});
    InsertSetAside(transaction, kPattern, kCall,
                   {{"x1"}, {"s1", reconcile::Quantity::kWidth, "inches"}, clock_.Now()});
    reconcile::ReconciliationRecord row;
    row.pattern = kPattern;
    row.call = kCall;
    row.number = 1;
    row.author = {"ada"};
    row.created_at = clock_.Now();
    row.version_number = 1;
    row.model_version = 1;
    row.result.reports = {{"s1", 1, 1, "one size", 12}};
    row.result.quantities.emplace_back().measurements.emplace_back().seat = "s1";
    InsertReconciliation(transaction, row);
  }

  void Release(Transaction& transaction) {
    releases::ReleaseRecord release;
    release.pattern = kPattern;
    release.id = {"r1"};
    release.version_number = 1;
    release.author = {"ada"};
    release.created_at = clock_.Now();
    release.gates = {{releases::GateCode::kChartWorkable, releases::GateState::kMet, "It is.", ""}};
    release.versions_concerned = {1};
    for (const releases::ReleaseFileKind kind :
         {releases::ReleaseFileKind::kPatternSheetPdf, releases::ReleaseFileKind::kErrataSheetPdf,
          releases::ReleaseFileKind::kErrataSheetText}) {
      release.files.push_back({kind, Sha256Of("invented"), 8, "invented"});
    }
    InsertRelease(transaction, release);
  }

  void KeepCalibration(Transaction& transaction) {
    estimate::CalibrationRecord row;
    row.id = {"c1"};
    row.owner = {"ada"};
    row.title = "My hands";
    row.scope = {chart::Technique::kInset, chart::Facing::kPaired, std::nullopt, 4};
    row.created_at = clock_.Now();
    estimate::RevisionRecord revision;
    revision.number = 1;
    revision.created_at = clock_.Now();
    revision.model_version = estimate::kModelVersion;
    revision.calibration = estimate::Calibrate({}).value();
    estimate::Measurement measurement;
    measurement.observation.stitches.fill(100);
    measurement.observation.fabric = {5, 4, 2};
    measurement.observation.length_mm = 9'000;
    InsertCalibration(transaction, row, revision, {measurement});
  }
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_TESTS_STORAGE_FILLED_FIXTURE_H_
