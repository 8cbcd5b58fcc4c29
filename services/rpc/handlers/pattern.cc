#include "services/rpc/handlers/pattern.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/rpc/converters/design.h"
#include "services/rpc/converters/estimate.h"
#include "services/rpc/converters/pattern.h"
#include "services/rpc/converters/text.h"
#include "services/rpc/page_token.h"
#include "services/usecases/patterns.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::Call;

absl::StatusOr<v1::Pattern> Answer(const absl::StatusOr<storage::PatternRow>& row) {
  if (!row.ok()) return row.status();
  return ToProto(*row);
}

absl::StatusOr<v1::ListPatternsResponse> List(Application& application, Call& call,
                                              const v1::ListPatternsRequest& request) {
  auto asked = ReadPage(request, call.method);
  if (!asked.ok()) return asked.status();
  auto page =
      usecases::ListPatterns(application, call, asked->moment(), {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListPatternsResponse response;
  for (const auto& row : page->patterns) *response.add_patterns() = ToProto(row);
  if (page->more) {
    const auto& last = page->patterns.back();
    response.set_next_page_token(NextPageToken(*asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Pattern> Update(Application& application, Call& call,
                                   const v1::UpdatePatternRequest& request) {
  auto name = ParseName<PatternName>("name", request.name());
  if (!name.ok()) return name.status();
  auto revision = ReadEtag(request.etag());
  if (!revision.ok()) return revision.status();
  return Answer(
      usecases::UpdatePattern(application, call, name->pattern, request.title(),
                              *revision < 0 ? std::nullopt : std::optional<int>(*revision)));
}

absl::StatusOr<v1::Version> Submit(Application& application, Call& call,
                                   const v1::CreateVersionRequest& request) {
  auto name = ParseName<PatternName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto submission = FromProto(request.content());
  if (!submission.ok()) return submission.status();
  submission->pattern = name->pattern;
  submission->note = request.note();
  submission->parent_number = request.parent_number();
  submission->validate_only = request.validate_only();
  auto submitted = usecases::SubmitVersion(application, call, std::move(*submission));
  if (!submitted.ok()) return submitted.status();
  return ToProto(submitted->version, submitted->swap_colours_offered);
}

absl::StatusOr<v1::Version> Get(Application& application, Call& call,
                                const v1::GetVersionRequest& request) {
  auto name = ParseName<VersionName>("name", request.name());
  if (!name.ok()) return name.status();
  auto version = usecases::GetVersion(application, call, name->pattern, name->version);
  if (!version.ok()) return version.status();
  return ToProto(*version, false);
}

absl::StatusOr<v1::ListVersionsResponse> List(Application& application, Call& call,
                                              const v1::ListVersionsRequest& request) {
  auto name = ParseName<PatternName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto asked = ReadPage(request, call.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page =
      usecases::ListVersions(application, call, name->pattern, asked->number(0), asked->size);
  if (!page.ok()) return page.status();
  v1::ListVersionsResponse response;
  for (const auto& row : page->versions) *response.add_versions() = ToProto(row);
  if (page->more) {
    response.set_next_page_token(NextPageToken(*asked, {page->versions.back().number, ""}));
  }
  return response;
}

absl::StatusOr<v1::WrittenRows> Write(Application& application, Call& call,
                                      const v1::WriteVersionRowsRequest& request) {
  auto name = ParseName<VersionName>("name", request.name());
  if (!name.ok()) return name.status();
  auto settings = FromProto(request.settings());
  if (!settings.ok()) return settings.status();
  auto written =
      usecases::WriteVersionRows(application, call, name->pattern, name->version, *settings);
  if (!written.ok()) return written.status();
  return ToProto(*written);
}

absl::StatusOr<v1::TextComparison> Compare(Application& application, Call& call,
                                           const v1::CompareVersionRowsRequest& request) {
  auto name = ParseName<VersionName>("name", request.name());
  if (!name.ok()) return name.status();
  auto comparison = usecases::CompareVersionRows(application, call, name->pattern, name->version);
  if (!comparison.ok()) return comparison.status();
  return ToProto(*comparison, rows::kComparisonVersion);
}

absl::StatusOr<v1::VersionDifference> Compare(Application& application, Call& call,
                                              const v1::CompareVersionsRequest& request) {
  auto from = ParseName<VersionName>("from", request.from());
  if (!from.ok()) return from.status();
  auto to = ParseName<VersionName>("to", request.to());
  if (!to.ok()) return to.status();
  if (from->pattern != to->pattern) {
    return InvalidField("to", request.to(), "a version of the pattern that \"from\" names");
  }
  auto difference =
      usecases::CompareVersions(application, call, from->pattern, from->version, to->version);
  if (!difference.ok()) return difference.status();
  return ToProto(*difference, from->pattern, from->version, to->version);
}

absl::StatusOr<v1::EstimateResult> Estimate(Application& application, Call& call,
                                            const v1::EstimateVersionRequest& request) {
  auto name = ParseName<VersionName>("name", request.name());
  if (!name.ok()) return name.status();
  usecases::EstimateQuestion question;
  if (request.has_making()) {
    auto read = FromProto(request.making());
    if (!read.ok()) return UnderField(read.status(), "making");
    question.making = std::move(*read);
  }
  auto maker = FromProto(request.another_maker());
  if (!maker.ok()) return UnderField(maker.status(), "another_maker");
  question.another_maker = std::move(*maker);
  question.size = request.size();
  if (!request.calibration().empty()) {
    auto choice = ChoiceFrom(request.calibration());
    if (!choice.ok()) return choice.status();
    question.calibration = *std::move(choice);
  }
  auto sizes = usecases::EstimateVersion(application, call, name->pattern, name->version, question);
  if (!sizes.ok()) return sizes.status();
  v1::EstimateResult result;
  for (const auto& size : *sizes) *result.add_sizes() = ToProto(size);
  result.set_model_version(estimate::kModelVersion);
  return result;
}

v1::Editor ToProto(const PatternId& pattern, const storage::EditorRow& row) {
  v1::Editor editor;
  editor.set_name(ToString(EditorName{pattern, row.account}));
  editor.set_display_name(row.display_name);
  return editor;
}

absl::StatusOr<v1::Editor> Create(Application& application, Call& call,
                                  const v1::CreateEditorRequest& request) {
  auto name = ParseName<PatternName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto made = usecases::CreateEditor(application, call, name->pattern, request.display_name());
  if (!made.ok()) return made.status();
  v1::Editor editor = ToProto(name->pattern, made->editor);
  editor.set_secret(made->secret);
  return editor;
}

absl::StatusOr<v1::DeleteEditorResponse> Delete(Application& application, Call& call,
                                                const v1::DeleteEditorRequest& request) {
  auto name = ParseName<EditorName>("name", request.name());
  if (!name.ok()) return name.status();
  auto status = usecases::DeleteEditor(application, call, name->pattern, name->editor);
  if (!status.ok()) return status;
  return v1::DeleteEditorResponse();
}

absl::StatusOr<v1::ListEditorsResponse> List(Application& application, Call& call,
                                             const v1::ListEditorsRequest& request) {
  auto name = ParseName<PatternName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto editors = usecases::ListEditors(application, call, name->pattern);
  if (!editors.ok()) return editors.status();
  v1::ListEditorsResponse response;
  for (const auto& row : *editors) *response.add_editors() = ToProto(name->pattern, row);
  return response;
}

}  // namespace

grpc::Status PatternHandlers::CreatePattern(grpc::ServerContext* context,
                                            const v1::CreatePatternRequest* request,
                                            v1::Pattern* response) {
  return desk_.Serve(*context, "PatternService.CreatePattern", *request, response, [&](Call& call) {
    return Answer(usecases::CreatePattern(desk_.application(), call, request->title()));
  });
}

grpc::Status PatternHandlers::GetPattern(grpc::ServerContext* context,
                                         const v1::GetPatternRequest* request,
                                         v1::Pattern* response) {
  return desk_.Serve(
      *context, "PatternService.GetPattern", *request, response,
      [&](Call& call) -> absl::StatusOr<v1::Pattern> {
        auto name = ParseName<PatternName>("name", request->name());
        if (!name.ok()) return name.status();
        return Answer(usecases::GetPattern(desk_.application(), call, name->pattern));
      });
}

grpc::Status PatternHandlers::ListPatterns(grpc::ServerContext* context,
                                           const v1::ListPatternsRequest* request,
                                           v1::ListPatternsResponse* response) {
  return desk_.Serve(*context, "PatternService.ListPatterns", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::UpdatePattern(grpc::ServerContext* context,
                                            const v1::UpdatePatternRequest* request,
                                            v1::Pattern* response) {
  return desk_.Serve(*context, "PatternService.UpdatePattern", *request, response,
                     [&](Call& call) { return Update(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::CreateVersion(grpc::ServerContext* context,
                                            const v1::CreateVersionRequest* request,
                                            v1::Version* response) {
  return desk_.Serve(*context, "PatternService.CreateVersion", *request, response,
                     [&](Call& call) { return Submit(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::GetVersion(grpc::ServerContext* context,
                                         const v1::GetVersionRequest* request,
                                         v1::Version* response) {
  return desk_.Serve(*context, "PatternService.GetVersion", *request, response,
                     [&](Call& call) { return Get(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::ListVersions(grpc::ServerContext* context,
                                           const v1::ListVersionsRequest* request,
                                           v1::ListVersionsResponse* response) {
  return desk_.Serve(*context, "PatternService.ListVersions", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::WriteVersionRows(grpc::ServerContext* context,
                                               const v1::WriteVersionRowsRequest* request,
                                               v1::WrittenRows* response) {
  return desk_.Serve(*context, "PatternService.WriteVersionRows", *request, response,
                     [&](Call& call) { return Write(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::CompareVersionRows(grpc::ServerContext* context,
                                                 const v1::CompareVersionRowsRequest* request,
                                                 v1::TextComparison* response) {
  return desk_.Serve(*context, "PatternService.CompareVersionRows", *request, response,
                     [&](Call& call) { return Compare(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::CompareVersions(grpc::ServerContext* context,
                                              const v1::CompareVersionsRequest* request,
                                              v1::VersionDifference* response) {
  return desk_.Serve(*context, "PatternService.CompareVersions", *request, response,
                     [&](Call& call) { return Compare(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::EstimateVersion(grpc::ServerContext* context,
                                              const v1::EstimateVersionRequest* request,
                                              v1::EstimateResult* response) {
  return desk_.Serve(*context, "PatternService.EstimateVersion", *request, response,
                     [&](Call& call) { return Estimate(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::CreateEditor(grpc::ServerContext* context,
                                           const v1::CreateEditorRequest* request,
                                           v1::Editor* response) {
  return desk_.Serve(*context, "PatternService.CreateEditor", *request, response,
                     [&](Call& call) { return Create(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::DeleteEditor(grpc::ServerContext* context,
                                           const v1::DeleteEditorRequest* request,
                                           v1::DeleteEditorResponse* response) {
  return desk_.Serve(*context, "PatternService.DeleteEditor", *request, response,
                     [&](Call& call) { return Delete(desk_.application(), call, *request); });
}

grpc::Status PatternHandlers::ListEditors(grpc::ServerContext* context,
                                          const v1::ListEditorsRequest* request,
                                          v1::ListEditorsResponse* response) {
  return desk_.Serve(*context, "PatternService.ListEditors", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

}  // namespace rowproof::rpc
