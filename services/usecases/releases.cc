#include "services/usecases/releases.h"

#include <algorithm>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/drawing/sheets/errata_sheet.h"
#include "services/drawing/sheets/pattern_sheet.h"
#include "services/usecases/calls/test_calls.h"
#include "services/usecases/release_basis.h"
#include "services/usecases/sheets/sheets.h"
#include "services/usecases/transactions.h"
#include "storage/releases.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

// What is locked only keeps writes of the same kind apart: InSteps sees to the rest.
Target ReleaseTarget(const PatternId& pattern, int version, const CallId& id, bool writes) {
  using Lock = storage::RootLock;
  if (!id.empty()) return CallTarget(pattern, id, writes ? Lock::kCall : Lock::kNone);
  Target target = PatternTarget(pattern, writes ? Lock::kPattern : Lock::kNone);
  target.type = "version";
  target.name = ToString(VersionName{pattern, version});
  return target;
}

absl::Status RefuseChartWaiver(const std::vector<releases::Waiver>& waivers) {
  for (size_t i = 0; i < waivers.size(); ++i) {
    if (waivers[i].code != releases::GateCode::kChartWorkable) continue;
    return InvalidField(fmt::format("waivers[{}].code", i), releases::CodeName(waivers[i].code),
                        "another gate: a chart with errors is never published");
  }
  return absl::OkStatus();
}

releases::ReleaseFile File(releases::ReleaseFileKind kind, std::string content) {
  releases::ReleaseFile file{kind, Sha256Of(content), static_cast<int64_t>(content.size()), ""};
  file.content = std::move(content);
  return file;
}

absl::Status WriteFiles(const ReleaseBasis& basis, const sheets::SheetStyle& style,
                        const Stop& stop, releases::ReleaseRecord& release) {
  const std::string date = testcalls::FormatDate(TodayInUtc(release.created_at));
  ASSIGN_OR_RETURN(auto sheet, AssemblePatternSheet(basis, style, date, stop));
  ASSIGN_OR_RETURN(auto pattern_pdf, drawing::DrawPatternSheet(sheet, drawing::Paper::kA4, stop));
  const sheets::ErrataSheet errata = AssembleErrataSheet(basis, date, stop);
  RETURN_IF_ERROR(stop.status());
  ASSIGN_OR_RETURN(auto errata_pdf, drawing::DrawErrataSheet(errata, drawing::Paper::kA4, stop));
  release.versions_concerned = errata.versions_concerned;
  release.files.push_back(
      File(releases::ReleaseFileKind::kPatternSheetPdf, std::move(pattern_pdf)));
  release.files.push_back(File(releases::ReleaseFileKind::kErrataSheetPdf, std::move(errata_pdf)));
  release.files.push_back(
      File(releases::ReleaseFileKind::kErrataSheetText, sheets::PlainText(errata)));
  return absl::OkStatus();
}

// As long as the reason of a waiver.
absl::Status ValidateReason(const std::string& reason) {
  if (!releases::IsReason(reason)) {
    return InvalidField(
        "reason", reason,
        fmt::format("{} to {} bytes long", releases::kShortestReason, releases::kLongestReason));
  }
  return ValidateText("reason", reason, releases::kLongestReason, true);
}

// What a release says of who made it, and when it saw the pattern.
struct Publisher {
  AccountId account;
  Moment now;
};

// The release as it would be, without identifier; without files if a gate is open, which only a
// request to validate lets pass.
absl::StatusOr<releases::ReleaseRecord> Compose(const ReleaseBasis& basis,
                                                const Publisher& publisher,
                                                const ReleaseOrder& order, const Stop& stop) {
  auto gates = releases::EvaluateGates(FactsOf(basis, stop));
  RETURN_IF_ERROR(stop.status());
  if (!order.validate_only) {
    RETURN_IF_ERROR(releases::MayPublish(gates, order.waivers));
  }
  ASSIGN_OR_RETURN(auto passed, releases::PassOver(std::move(gates), order.waivers));
  releases::ReleaseRecord release;
  release.pattern = order.pattern;
  release.version_number = order.version;
  release.call = order.call;
  release.reconciliation = basis.reconciliation.has_value() ? basis.reconciliation->number : 0;
  release.author = publisher.account;
  release.created_at = publisher.now;
  release.gates = std::move(passed);
  const bool settled =
      std::none_of(release.gates.begin(), release.gates.end(),
                   [](const auto& gate) { return gate.state == releases::GateState::kOpen; });
  if (settled) {
    RETURN_IF_ERROR(WriteFiles(basis, order.style, stop, release));
  }
  return release;
}

absl::StatusOr<releases::ReleaseRecord> Load(storage::Transaction& transaction,
                                             const PatternId& pattern, const ReleaseId& id) {
  auto release = storage::LoadRelease(transaction, pattern, id);
  if (!release.has_value()) return NotFound("release", ToString(ReleaseName{pattern, id}));
  return std::move(*release);
}

}  // namespace

absl::StatusOr<std::vector<releases::Gate>> GetGates(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, int version,
                                                     const CallId& id) {
  absl::StatusOr<ReleaseBasis> basis = ReleaseBasis();
  RETURN_IF_ERROR(InSnapshot(application, context, ReleaseTarget(pattern, version, id, false),
                             [&](storage::Transaction& transaction, const storage::Admission& who) {
                               basis = LoadReleaseBasis(application, transaction, who, pattern,
                                                        version, id);
                               return basis.status();
                             }));
  std::vector<releases::Gate> gates = releases::EvaluateGates(FactsOf(*basis, context.stop));
  RETURN_IF_ERROR(context.stop.status());
  return gates;
}

absl::StatusOr<releases::ReleaseRecord> CreateRelease(Application& application,
                                                      RequestContext& context,
                                                      const ReleaseOrder& order) {
  RETURN_IF_ERROR(RequireToken(context));
  RETURN_IF_ERROR(RefuseChartWaiver(order.waivers));
  absl::StatusOr<releases::ReleaseRecord> release = releases::ReleaseRecord();
  absl::StatusOr<ReleaseBasis> basis = ReleaseBasis();
  Publisher publisher;
  Steps steps;
  steps.read = [&](storage::Transaction& transaction, const storage::Admission& who) {
    if (who.earlier_result.has_value()) {
      release = Load(transaction, order.pattern, {*who.earlier_result});
      return release.status();
    }
    basis =
        LoadReleaseBasis(application, transaction, who, order.pattern, order.version, order.call);
    publisher = {who.standing.account, transaction.now()};
    return basis.status();
  };
  steps.make = [&] {
    release = Compose(*basis, publisher, order, context.stop);
    return release.status();
  };
  steps.write = [&](storage::Transaction& transaction, const storage::Admission&) {
    release->id.value = application.identifiers.NewIdentifier();
    storage::InsertRelease(transaction, *release);
    transaction.SetResult(release->id.value);
    return absl::OkStatus();
  };
  const Target target =
      ReleaseTarget(order.pattern, order.version, order.call, !order.validate_only);
  if (!order.validate_only) {
    RETURN_IF_ERROR(InSteps(application, context, target, steps));
    return release;
  }
  RETURN_IF_ERROR(InSnapshot(application, context, target, steps.read));
  RETURN_IF_ERROR(steps.make());
  release->files.clear();
  return release;
}

absl::StatusOr<releases::ReleaseRecord> GetRelease(Application& application,
                                                   RequestContext& context,
                                                   const PatternId& pattern, const ReleaseId& id) {
  absl::StatusOr<releases::ReleaseRecord> release = releases::ReleaseRecord();
  auto status = InSnapshot(application, context, PatternTarget(pattern),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             release = Load(transaction, pattern, id);
                             return release.status();
                           });
  if (!status.ok()) return status;
  return release;
}

absl::StatusOr<ReleasePage> ListReleases(Application& application, RequestContext& context,
                                         const PatternId& pattern, std::optional<Moment> before,
                                         const ReleaseId& before_id, int limit) {
  ReleasePage page;
  auto status = InSnapshot(application, context, PatternTarget(pattern),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             page.releases = storage::ListReleases(transaction, pattern, before,
                                                                   before_id, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.releases.size() > static_cast<size_t>(limit);
  if (page.more) page.releases.pop_back();
  return page;
}

absl::StatusOr<releases::ReleaseRecord> WithdrawRelease(Application& application,
                                                        RequestContext& context,
                                                        const PatternId& pattern,
                                                        const ReleaseId& id,
                                                        const std::string& reason) {
  RETURN_IF_ERROR(ValidateReason(reason));
  absl::StatusOr<releases::ReleaseRecord> release = releases::ReleaseRecord();
  auto status = InTransaction(
      application, context, PatternTarget(pattern, storage::RootLock::kPattern),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        release = Load(transaction, pattern, id);
        if (!release.ok() || who.earlier_result.has_value()) return release.status();
        const std::string name = ToString(ReleaseName{pattern, id});
        if (release->withdrawn_at.has_value()) {
          return WrongState("RELEASE_STATE", name, "The release is already withdrawn.");
        }
        release->withdrawn_at = transaction.now();
        release->withdraw_reason = reason;
        storage::WithdrawRelease(transaction, pattern, id, transaction.now(), reason);
        transaction.SetResult(name);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return release;
}

absl::StatusOr<PublishedFile> GetReleaseFile(Application& application, RequestContext& context,
                                             const PatternId& pattern, const ReleaseId& id,
                                             releases::ReleaseFileKind kind) {
  PublishedFile published;
  auto status =
      InSnapshot(application, context, PatternTarget(pattern),
                 [&](storage::Transaction& transaction, const storage::Admission&) -> absl::Status {
                   ASSIGN_OR_RETURN(const auto release, Load(transaction, pattern, id));
                   published.version_number = release.version_number;
                   published.withdrawn = release.withdrawn_at.has_value();
                   // A release has one of each kind.
                   published.file = storage::NamedRecord(
                       storage::LoadReleaseFile(transaction, pattern, id, kind), "release_file",
                       ToString(ReleaseName{pattern, id}));
                   return absl::OkStatus();
                 });
  if (!status.ok()) return status;
  return published;
}

}  // namespace rowproof::usecases
