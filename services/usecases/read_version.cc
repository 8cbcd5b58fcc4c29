#include "services/usecases/read_version.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/report.h"
#include "services/usecases/calibrations.h"
#include "services/usecases/transactions.h"
#include "storage/patterns.h"

namespace rowproof::usecases {
namespace {

void CopyCalibration(const estimate::Materials& from, estimate::Materials* to) {
  to->assumptions.paths = from.assumptions.paths;
  to->assumptions.path_covariance = from.assumptions.path_covariance;
  to->calibration = from.calibration;
  to->calibration_scope = from.calibration_scope;
}

// The materials that is asked about, before another maker's changes.
absl::Status BaseOf(storage::Transaction& transaction, const access::Standing& standing,
                    const estimate::Materials& of_version, const EstimateQuestion& question,
                    estimate::Materials* base) {
  *base = question.materials.has_value() ? question.materials->materials : of_version;
  auto choice = question.calibration;
  if (!choice.has_value() && question.materials.has_value())
    choice = question.materials->calibration;
  if (!choice.has_value()) return absl::OkStatus();
  if (choice->name != of_version.calibration) {
    return UseChosen(transaction, standing, *choice, base);
  }
  CopyCalibration(of_version, base);
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<ReadVersion> LoadVisibleVersion(storage::Transaction& transaction,
                                               const access::Standing& standing,
                                               const PatternId& pattern, int number) {
  const std::string name = ToString(VersionName{pattern, number});
  auto row = storage::LoadVersion(transaction, pattern, number);
  if (!row.has_value()) return NotFound("version", name);
  const bool reads_all = standing.designs_pattern || standing.edits_pattern;
  if (!reads_all && !storage::WasSentVersion(transaction, pattern, number, standing.account)) {
    return NotFound("version", name);
  }
  patterns::VersionContent content = storage::DecodedContent(*row);
  // Testers are to find faults by themselves.
  if (!reads_all) row->comparison.reset();
  if (row->comparison.has_value()) {
    for (const chart::Size& size : content.design.sizes) {
      row->comparison->sizes.push_back(size.name);
    }
  }
  return ReadVersion{std::move(*row), std::move(content)};
}

absl::StatusOr<ReadVersion> GetVersion(Application& application, RequestContext& context,
                                       const PatternId& pattern, int number) {
  absl::StatusOr<ReadVersion> version = NotFound("version", "");
  auto status = InSnapshot(application, context, PatternTarget(pattern),
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             version =
                                 LoadVisibleVersion(transaction, who.standing, pattern, number);
                             return version.status();
                           });
  if (!status.ok()) return status;
  return version;
}

absl::StatusOr<VersionPage> ListVersions(Application& application, RequestContext& context,
                                         const PatternId& pattern, int before_number, int limit) {
  VersionPage page;
  auto status = InSnapshot(application, context, PatternTarget(pattern),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             page.versions = storage::ListVersions(transaction, pattern,
                                                                   before_number, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.versions.size() > static_cast<size_t>(limit);
  if (page.more) page.versions.pop_back();
  return page;
}

absl::StatusOr<rows::WrittenPattern> WriteVersionRows(Application& application,
                                                      RequestContext& context,
                                                      const PatternId& pattern, int number,
                                                      const rows::RowStyle& asked) {
  ASSIGN_OR_RETURN(auto version, GetVersion(application, context, pattern, number));
  return rows::WriteRows(version.content.design,
                         rows::SettingsOf(rows::Filled(asked, version.content.row_style)),
                         context.stop);
}

absl::StatusOr<patterns::VersionDifference> CompareVersions(Application& application,
                                                            RequestContext& context,
                                                            const PatternId& pattern, int from,
                                                            int to) {
  absl::StatusOr<ReadVersion> before = NotFound("version", "");
  absl::StatusOr<ReadVersion> after = before;
  auto status = InSnapshot(
      application, context, PatternTarget(pattern),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        before = LoadVisibleVersion(transaction, who.standing, pattern, from);
        if (!before.ok()) return before.status();
        after = LoadVisibleVersion(transaction, who.standing, pattern, to);
        return after.status();
      });
  if (!status.ok()) return status;
  auto difference = patterns::Compare(before->content, after->content, context.stop);
  if (context.stop.Now()) return context.stop.status();
  return difference;
}

absl::StatusOr<std::vector<estimate::SizeEstimate>> EstimateVersion(
    Application& application, RequestContext& context, const PatternId& pattern, int number,
    const EstimateQuestion& question) {
  absl::StatusOr<ReadVersion> version = NotFound("version", "");
  estimate::Materials base;
  auto status = InSnapshot(
      application, context, PatternTarget(pattern),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        version = LoadVisibleVersion(transaction, who.standing, pattern, number);
        if (!version.ok()) return version.status();
        return BaseOf(transaction, who.standing, version->content.materials, question, &base);
      });
  if (!status.ok()) return status;
  patterns::VersionContent& content = version->content;
  if (question.materials.has_value()) {
    if (auto s = estimate::SettleFoundation(question.materials->foundation_chain_declared,
                                            content.design, base);
        !s.ok()) {
      return UnderField(s, "materials");
    }
  }
  auto materials = estimate::MadeBy(question.another_maker, base);
  if (!materials.ok()) return UnderField(materials.status(), "another_maker");
  if (question.another_maker.ends.has_value()) {
    chart::Design worked = content.design;
    worked.ends = *question.another_maker.ends;
    if (const char* why = chart::WhyEndsDoNotFit(worked); why != nullptr) {
      return InvalidField("another_maker.ends", chart::Name(worked.ends),
                          fmt::format("ends that go with the version: {}", why));
    }
  }
  // What is wrong with the materials itself is not what another maker does.
  const char* const field =
      estimate::ValidateFor(content.design, base).ok() ? "another_maker" : "materials";
  const int size = testcalls::SizeIndex(content.design, question.size);
  if (size < 0 && !question.size.empty()) {
    return InvalidField("size", question.size,
                        "one of the version's sizes, " + chart::SizesInWords(content.design));
  }
  if (size >= 0) {
    auto one = estimate::EstimateSize(content.design, size, *materials);
    if (!one.ok()) return UnderField(one.status(), field);
    return std::vector{*std::move(one)};
  }
  auto estimates = estimate::EstimateSizes(content.design, *materials);
  if (!estimates.ok()) return UnderField(estimates.status(), field);
  return estimates;
}

}  // namespace rowproof::usecases
