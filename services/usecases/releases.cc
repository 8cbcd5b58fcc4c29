#include "services/usecases/releases.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/usecases/sheets/sheets.h"
#include "services/usecases/test_calls.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

// The call's row is locked where one is named: no report or decision comes between the gates and
// the release.
Target ReleaseTarget(const PatternId& pattern, int version, const CallId& id, bool writes) {
  using Lock = storage::Door::Lock;
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

storage::ReleaseFileRow File(storage::ReleaseFileKind kind, std::string content) {
  storage::ReleaseFileRow file{kind, Sha256Of(content), static_cast<int64_t>(content.size()), ""};
  file.content = std::move(content);
  return file;
}

absl::Status WriteFiles(const ReleaseBasis& basis, const SheetStyle& style,
                        storage::ReleaseRow& release) {
  const std::string date = testcalls::FormatDate(TodayInUtc(release.created_at));
  auto sheet = AssemblePatternSheet(basis, style, date);
  if (!sheet.ok()) return sheet.status();
  auto pattern_pdf = drawing::DrawPatternSheet(*sheet, drawing::Paper::kA4);
  if (!pattern_pdf.ok()) return pattern_pdf.status();
  const sheets::ErrataSheet errata = AssembleErrataSheet(basis, date);
  auto errata_pdf = drawing::DrawErrataSheet(errata, drawing::Paper::kA4);
  if (!errata_pdf.ok()) return errata_pdf.status();
  release.versions_concerned = errata.versions_concerned;
  release.files.push_back(
      File(storage::ReleaseFileKind::kPatternSheetPdf, std::move(*pattern_pdf)));
  release.files.push_back(File(storage::ReleaseFileKind::kErrataSheetPdf, std::move(*errata_pdf)));
  release.files.push_back(
      File(storage::ReleaseFileKind::kErrataSheetText, sheets::PlainText(errata)));
  return absl::OkStatus();
}

absl::StatusOr<storage::ReleaseRow> Load(storage::Transaction& transaction,
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
  std::vector<releases::Gate> gates;
  auto status = Read(
      application, context, ReleaseTarget(pattern, version, id, false),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        const auto basis = LoadReleaseBasis(application, transaction, who, pattern, version, id);
        if (!basis.ok()) return basis.status();
        gates = releases::EvaluateGates(FactsOf(*basis));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return gates;
}

absl::StatusOr<storage::ReleaseRow> Publish(Application& application, RequestContext& context,
                                            const PatternId& pattern, int version, const CallId& id,
                                            const std::vector<releases::Waiver>& waivers,
                                            const SheetStyle& style) {
  if (auto status = RequireToken(context); !status.ok()) return status;
  if (auto status = RefuseChartWaiver(waivers); !status.ok()) return status;
  absl::StatusOr<storage::ReleaseRow> release = storage::ReleaseRow();
  auto status = Write(
      application, context, ReleaseTarget(pattern, version, id, true),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          release = Load(transaction, pattern, {*who.earlier_result});
          return release.status();
        }
        const auto basis = LoadReleaseBasis(application, transaction, who, pattern, version, id);
        if (!basis.ok()) return basis.status();
        auto gates = releases::EvaluateGates(FactsOf(*basis));
        if (auto s = releases::MayPublish(gates, waivers); !s.ok()) return s;
        auto passed = releases::PassOver(std::move(gates), waivers);
        if (!passed.ok()) return passed.status();
        release = storage::ReleaseRow();
        release->pattern = pattern;
        release->id.value = application.identifiers.NewIdentifier();
        release->version_number = version;
        release->call = id;
        release->reconciliation =
            basis->reconciliation.has_value() ? basis->reconciliation->number : 0;
        release->author = who.standing.account;
        release->created_at = transaction.now();
        release->gates = std::move(*passed);
        if (auto s = WriteFiles(*basis, style, *release); !s.ok()) return s;
        storage::InsertRelease(transaction, *release);
        transaction.SetResult(release->id.value);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return release;
}

absl::StatusOr<storage::ReleaseRow> GetRelease(Application& application, RequestContext& context,
                                               const PatternId& pattern, const ReleaseId& id) {
  absl::StatusOr<storage::ReleaseRow> release = storage::ReleaseRow();
  auto status = Read(application, context, PatternTarget(pattern),
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
  auto status = Read(application, context, PatternTarget(pattern),
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

absl::StatusOr<PublishedFile> GetReleaseFile(Application& application, RequestContext& context,
                                             const PatternId& pattern, const ReleaseId& id,
                                             storage::ReleaseFileKind kind) {
  PublishedFile published;
  auto status =
      Read(application, context, PatternTarget(pattern),
           [&](storage::Transaction& transaction, const storage::Admission&) -> absl::Status {
             const auto release = Load(transaction, pattern, id);
             if (!release.ok()) return release.status();
             published.version_number = release->version_number;
             // A release has one of each kind.
             published.file =
                 storage::NamedRecord(storage::LoadReleaseFile(transaction, pattern, id, kind),
                                      "release_file", ToString(ReleaseName{pattern, id}));
             return absl::OkStatus();
           });
  if (!status.ok()) return status;
  return published;
}

}  // namespace rowproof::usecases
