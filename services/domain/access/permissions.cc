#include "services/domain/access/permissions.h"

#include <algorithm>
#include <array>

#include "services/domain/check.h"
#include "services/domain/errors.h"

namespace rowproof::access {
namespace {

constexpr MethodRule kRules[] = {
    {"AccountService.GetMyAccount", Callers::kSignedIn, false},
    {"AccountService.UpdateMyAccount", Callers::kSignedIn, false},
    {"AccountService.CreateToken", Callers::kSignedIn, false},
    {"AccountService.GetToken", Callers::kSignedIn, false},
    {"AccountService.ListTokens", Callers::kSignedIn, false},
    {"AccountService.RevokeToken", Callers::kSignedIn, false},
    {"AccountService.ExportPersonalData", Callers::kSignedIn, false},
    {"AccountService.ErasePersonalData", Callers::kSignedIn, false},
    {"CalibrationService.CreateCalibration", Callers::kPatternMakers, false},
    {"CalibrationService.GetCalibration", Callers::kOwner, false},
    {"CalibrationService.ListCalibrations", Callers::kOwner, false},
    {"CalibrationService.UpdateCalibration", Callers::kOwner, false},
    {"CalibrationService.DeleteCalibration", Callers::kOwner, false},
    {"CalibrationService.CreateCalibrationRevision", Callers::kOwner, false},
    {"CalibrationService.GetCalibrationRevision", Callers::kOwner, false},
    {"CalibrationService.ListCalibrationRevisions", Callers::kOwner, false},
    {"ChartService.CheckChart", Callers::kAnyone, false},
    {"ChartService.RepairChart", Callers::kAnyone, false},
    {"ChartService.ConvertChart", Callers::kAnyone, false},
    {"ChartService.FindRepeats", Callers::kAnyone, false},
    {"ChartService.ImportChart", Callers::kAnyone, false},
    {"ChartService.ExportChart", Callers::kAnyone, false},
    {"ChartService.WriteRows", Callers::kAnyone, false},
    {"ChartService.ReadRows", Callers::kAnyone, false},
    {"ChartService.CompareRows", Callers::kAnyone, false},
    {"ChartService.EstimateChart", Callers::kAnyone, false},
    {"ChartService.CalibrateYarn", Callers::kAnyone, false},
    {"ChartService.CompareEnds", Callers::kAnyone, false},
    {"ChartService.ChooseSize", Callers::kAnyone, false},
    {"ChartService.DrawEstimate", Callers::kAnyone, false},
    {"ChartService.DrawChart", Callers::kAnyone, false},
    {"PatternService.CreatePattern", Callers::kPatternMakers, false},
    {"PatternService.GetPattern", Callers::kPatternPeople, false},
    {"PatternService.ListPatterns", Callers::kSignedIn, false},
    {"PatternService.UpdatePattern", Callers::kPatternDesigner, false},
    {"PatternService.ArchivePattern", Callers::kPatternDesigner, false},
    {"PatternService.UnarchivePattern", Callers::kPatternDesigner, false},
    {"PatternService.CreateVersion", Callers::kPatternDesigner, false},
    {"PatternService.GetVersion", Callers::kPatternPeople, false},
    {"PatternService.ListVersions", Callers::kPatternReaders, false},
    {"PatternService.WriteVersionRows", Callers::kPatternPeople, false},
    {"PatternService.CompareVersionRows", Callers::kPatternReaders, false},
    {"PatternService.CompareVersions", Callers::kPatternPeople, false},
    {"PatternService.EstimateVersion", Callers::kPatternPeople, false},
    {"PatternService.CreateEditor", Callers::kPatternDesigner, false},
    {"PatternService.AcceptEditorInvitation", Callers::kInvited, false},
    {"PatternService.GetEditor", Callers::kPatternDesigner, false},
    {"PatternService.DeleteEditor", Callers::kPatternDesigner, false},
    {"PatternService.ListEditors", Callers::kPatternDesigner, false},
    {"TestCallService.CreateTestCall", Callers::kPatternDesigner, false},
    {"TestCallService.GetTestCall", Callers::kCallPeople, true},
    {"TestCallService.ListTestCalls", Callers::kPatternPeople, false},
    {"TestCallService.UpdateTestCall", Callers::kPatternDesigner, true},
    {"TestCallService.DeleteTestCall", Callers::kPatternDesigner, true},
    {"TestCallService.OpenTestCall", Callers::kPatternDesigner, true},
    {"TestCallService.CloseTestCall", Callers::kPatternDesigner, true},
    {"TestCallService.ReopenTestCall", Callers::kPatternDesigner, true},
    {"TestCallService.SendVersion", Callers::kPatternDesigner, true},
    {"TestCallService.CreateSeat", Callers::kPatternDesigner, true},
    {"TestCallService.BatchCreateSeats", Callers::kPatternDesigner, true},
    {"TestCallService.ListSeats", Callers::kPatternReaders, true},
    {"TestCallService.ListMySeats", Callers::kSignedIn, false},
    {"TestCallService.GetSeat", Callers::kCallPeopleOrEnded, true},
    {"TestCallService.TakeSeat", Callers::kInvited, false},
    {"TestCallService.GiveUpSeat", Callers::kSeatHolder, true},
    {"TestCallService.CancelSeat", Callers::kPatternDesigner, true},
    {"TestCallService.GetSeatForm", Callers::kCallSeats, true},
    {"TestCallService.GetSeatChanges", Callers::kCallPeople, true},
    {"ReportService.CreateReport", Callers::kCallSeats, true},
    {"ReportService.CreateReportFromForm", Callers::kCallSeats, true},
    {"ReportService.GetReport", Callers::kCallPeopleOrEnded, true},
    {"ReportService.ListReports", Callers::kCallPeopleOrEnded, true},
    {"ReportService.GetErratum", Callers::kCallPeople, true},
    {"ReportService.ListErrata", Callers::kCallPeople, true},
    {"ReportService.DecideErratum", Callers::kPatternDesigner, true},
    {"ReportService.ConfirmErratum", Callers::kCallTesters, true},
    {"ReconciliationService.CreateReconciliation", Callers::kPatternDesigner, true},
    {"ReconciliationService.GetReconciliation", Callers::kPatternReaders, true},
    {"ReconciliationService.ListReconciliations", Callers::kPatternReaders, true},
    {"ReconciliationService.CreateSetAside", Callers::kPatternDesigner, true},
    {"ReconciliationService.GetSetAside", Callers::kPatternReaders, true},
    {"ReconciliationService.ListSetAsides", Callers::kPatternReaders, true},
    {"ReconciliationService.DeleteSetAside", Callers::kPatternDesigner, true},
    {"ReleaseService.GetGates", Callers::kPatternReaders, false},
    {"ReleaseService.CreateRelease", Callers::kPatternDesigner, false},
    {"ReleaseService.GetRelease", Callers::kPatternPeople, false},
    {"ReleaseService.ListReleases", Callers::kPatternPeople, false},
    {"ReleaseService.WithdrawRelease", Callers::kPatternDesigner, false},
    {"ReleaseService.GetReleaseFile", Callers::kPatternPeople, false},
};

bool Fits(Callers callers, const Standing& who) {
  switch (callers) {
    case Callers::kAnyone:
    case Callers::kInvited:
      return true;
    case Callers::kSignedIn:
    case Callers::kOwner:
      return who.signed_in();
    case Callers::kPatternMakers:
      return who.creates_patterns;
    case Callers::kPatternDesigner:
      return who.designs_pattern;
    case Callers::kPatternReaders:
      return who.designs_pattern || who.edits_pattern;
    case Callers::kPatternPeople:
      return who.knows_pattern();
    case Callers::kCallPeople:
      return who.designs_pattern || who.edits_pattern || who.tests_in_call();
    case Callers::kCallPeopleOrEnded:
      return who.knows_call();
    case Callers::kCallTesters:
      return who.tests_in_call();
    case Callers::kSeatHolder:
      return !who.seat.empty();
    case Callers::kCallSeats:
      return who.designs_pattern || who.tests_in_call();
  }
  return false;
}

const char* WhoMay(Callers callers) {
  switch (callers) {
    case Callers::kAnyone:
    case Callers::kInvited:
      return "anyone";
    case Callers::kSignedIn:
      return "a signed-in account";
    case Callers::kOwner:
      return "its owner";
    case Callers::kPatternMakers:
      return "an account with the right to create patterns";
    case Callers::kPatternDesigner:
      return "the pattern's designer";
    case Callers::kPatternReaders:
      return "the pattern's designer and editors";
    case Callers::kPatternPeople:
      return "the pattern's designer, editors and testers";
    case Callers::kCallPeople:
      return "the pattern's designer and editors and the call's testers";
    case Callers::kCallPeopleOrEnded:
      return "the pattern's designer and editors and whoever has or had a seat in the call";
    case Callers::kCallTesters:
      return "the call's testers";
    case Callers::kSeatHolder:
      return "the seat's tester";
    case Callers::kCallSeats:
      return "the pattern's designer and the seat's tester";
  }
  return "";
}

bool NamesResource(Callers callers) {
  return callers != Callers::kAnyone && callers != Callers::kInvited &&
         callers != Callers::kSignedIn && callers != Callers::kOwner &&
         callers != Callers::kPatternMakers;
}

}  // namespace

std::span<const MethodRule> MethodRules() { return kRules; }

absl::Status Admit(std::string_view method, const Standing& standing,
                   const std::string& resource_type, const std::string& resource_name) {
  const auto* rule = std::find_if(std::begin(kRules), std::end(kRules),
                                  [&](const MethodRule& r) { return r.method == method; });
  ROWPROOF_CHECK(rule != std::end(kRules));
  if (rule->callers == Callers::kAnyone || rule->callers == Callers::kInvited) {
    return absl::OkStatus();
  }
  if (!standing.signed_in()) return NotSignedIn();
  if (NamesResource(rule->callers)) {
    const bool knows = rule->needs_call ? standing.knows_call() : standing.knows_pattern();
    if (!knows) return NotFound(resource_type, resource_name);
  }
  if (!Fits(rule->callers, standing)) {
    if (rule->needs_call && standing.seat_ended) return SeatHasEnded();
    return NotAllowed("use " + std::string(method), WhoMay(rule->callers));
  }
  return absl::OkStatus();
}

}  // namespace rowproof::access
