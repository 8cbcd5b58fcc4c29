#include "services/rpc/converters/pattern.h"

#include "rowproof/v1/pattern_service.pb.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/estimate.h"
#include "services/rpc/converters/charts/materials.h"
#include "services/rpc/converters/charts/text.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"
#include "services/rpc/update_mask.h"
#include "services/usecases/compare_text.h"
#include "services/usecases/editors.h"
#include "services/usecases/patterns.h"
#include "services/usecases/read_version.h"
#include "services/usecases/submit_version.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

absl::StatusOr<v1::Pattern> Answer(const absl::StatusOr<patterns::PatternRecord>& row) {
  if (!row.ok()) return row.status();
  return ToProto(*row);
}

absl::StatusOr<v1::ListPatternsResponse> ListPatterns(Application& application,
                                                      RequestContext& context,
                                                      const v1::ListPatternsRequest& request) {
  ASSIGN_OR_RETURN(
      auto asked, ReadPage(request, context.method + (request.show_archived() ? " archived" : "")));
  ASSIGN_OR_RETURN(auto page, usecases::ListPatterns(application, context, request.show_archived(),
                                                     asked.moment(), {asked.id()}, asked.size));
  v1::ListPatternsResponse response;
  for (const auto& row : page.patterns) *response.add_patterns() = ToProto(row);
  if (page.more) {
    const auto& last = page.patterns.back();
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Pattern> UpdatePattern(Application& application, RequestContext& context,
                                          const v1::UpdatePatternRequest& request) {
  constexpr std::string_view kChangeable[] = {"title"};
  const v1::Pattern& sent = request.pattern();
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("pattern.name", sent.name()));
  ASSIGN_OR_RETURN(auto mask, ReadUpdateMask(request.update_mask(), sent, kChangeable));
  auto revision = ReadEtag(sent.etag());
  if (!revision.ok()) return UnderField(revision.status(), "pattern");
  auto updated =
      usecases::UpdatePattern(application, context, name.pattern, sent.title(), *revision);
  if (!updated.ok()) return UnderField(updated.status(), "pattern");
  return ToProto(*updated);
}

template <typename Request>
absl::StatusOr<v1::Pattern> Archive(Application& application, RequestContext& context,
                                    const Request& request, bool archived) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("name", request.name()));
  ASSIGN_OR_RETURN(auto revision, ReadEtag(request.etag()));
  return Answer(usecases::ArchivePattern(application, context, name.pattern, archived, revision));
}

absl::StatusOr<v1::Pattern> ArchivePattern(Application& application, RequestContext& context,
                                           const v1::ArchivePatternRequest& request) {
  return Archive(application, context, request, true);
}

absl::StatusOr<v1::Pattern> UnarchivePattern(Application& application, RequestContext& context,
                                             const v1::UnarchivePatternRequest& request) {
  return Archive(application, context, request, false);
}

absl::StatusOr<v1::Version> CreateVersion(Application& application, RequestContext& context,
                                          const v1::CreateVersionRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto parent,
                   VersionOf("parent_version", name.pattern, request.parent_version()));
  ASSIGN_OR_RETURN(auto submission, FromProto(request.content(), context.stop));
  submission.pattern = name.pattern;
  submission.note = request.note();
  submission.parent_number = parent;
  submission.validate_only = request.validate_only();
  ASSIGN_OR_RETURN(auto submitted,
                   usecases::SubmitVersion(application, context, std::move(submission)));
  return ToProto(submitted.version, submitted.swap_colours_offered);
}

absl::StatusOr<v1::Version> GetVersion(Application& application, RequestContext& context,
                                       const v1::GetVersionRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<VersionName>("name", request.name()));
  ASSIGN_OR_RETURN(auto version,
                   usecases::GetVersion(application, context, name.pattern, name.version));
  return ToProto(version, false);
}

absl::StatusOr<v1::ListVersionsResponse> ListVersions(Application& application,
                                                      RequestContext& context,
                                                      const v1::ListVersionsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page, usecases::ListVersions(application, context, name.pattern,
                                                     asked.number(0), asked.size));
  v1::ListVersionsResponse response;
  for (const auto& row : page.versions) *response.add_versions() = ToProto(row);
  if (page.more) {
    response.set_next_page_token(NextPageToken(asked, {page.versions.back().number, ""}));
  }
  return response;
}

absl::StatusOr<v1::WrittenRows> WriteVersionRows(Application& application, RequestContext& context,
                                                 const v1::WriteVersionRowsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<VersionName>("name", request.name()));
  ASSIGN_OR_RETURN(auto style, FromProto("settings", request.settings()));
  ASSIGN_OR_RETURN(auto written, usecases::WriteVersionRows(application, context, name.pattern,
                                                            name.version, style));
  return ToProto(written);
}

absl::StatusOr<v1::TextComparison> CompareVersionRows(
    Application& application, RequestContext& context,
    const v1::CompareVersionRowsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<VersionName>("name", request.name()));
  ASSIGN_OR_RETURN(auto comparison,
                   usecases::CompareVersionRows(application, context, name.pattern, name.version));
  return ToProto(comparison, rows::kComparisonVersion);
}

absl::StatusOr<v1::VersionDifference> CompareVersions(Application& application,
                                                      RequestContext& context,
                                                      const v1::CompareVersionsRequest& request) {
  ASSIGN_OR_RETURN(auto from, ParseName<VersionName>("from", request.from()));
  ASSIGN_OR_RETURN(auto to, ParseName<VersionName>("to", request.to()));
  if (from.pattern != to.pattern) {
    return InvalidField("to", request.to(), "a version of the pattern that \"from\" names");
  }
  ASSIGN_OR_RETURN(auto difference, usecases::CompareVersions(application, context, from.pattern,
                                                              from.version, to.version));
  return ToProto(difference, from.pattern, from.version, to.version);
}

absl::StatusOr<v1::EstimateResult> EstimateVersion(Application& application,
                                                   RequestContext& context,
                                                   const v1::EstimateVersionRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<VersionName>("name", request.name()));
  usecases::EstimateQuestion question;
  if (request.has_materials()) {
    auto read = FromProto(request.materials());
    if (!read.ok()) return UnderField(read.status(), "materials");
    question.materials = std::move(*read);
  }
  auto maker = FromProto(request.another_maker());
  if (!maker.ok()) return UnderField(maker.status(), "another_maker");
  question.another_maker = std::move(*maker);
  question.size = request.size();
  if (!request.calibration().empty()) {
    ASSIGN_OR_RETURN(auto choice, ChoiceFrom(request.calibration()));
    question.calibration = std::move(choice);
  }
  ASSIGN_OR_RETURN(auto sizes, usecases::EstimateVersion(application, context, name.pattern,
                                                         name.version, question));
  v1::EstimateResult result;
  for (const auto& size : sizes) *result.add_sizes() = ToProto(size);
  result.set_model_version(estimate::kModelVersion);
  return result;
}

v1::EditorState StateOf(const usecases::ReadEditor& editor) {
  if (editor.row.accepted_at.has_value()) return v1::EDITOR_STATE_ACTIVE;
  return editor.row.expires_at > editor.now ? v1::EDITOR_STATE_INVITED : v1::EDITOR_STATE_EXPIRED;
}

v1::Editor EditorOf(const usecases::ReadEditor& editor) {
  const access::EditorRecord& row = editor.row;
  v1::Editor to;
  to.set_name(ToString(EditorName{row.pattern, row.id}));
  to.set_state(StateOf(editor));
  to.set_label(row.label);
  if (!row.account.empty()) to.set_account(ToString(AccountName{row.account}));
  to.set_display_name(row.display_name);
  *to.mutable_create_time() = ToProto(row.created_at);
  if (row.accepted_at.has_value()) {
    *to.mutable_accept_time() = ToProto(*row.accepted_at);
  } else {
    *to.mutable_expire_time() = ToProto(row.expires_at);
  }
  return to;
}

absl::StatusOr<v1::Editor> CreateEditor(Application& application, RequestContext& context,
                                        const v1::CreateEditorRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto made, usecases::CreateEditor(application, context, name.pattern,
                                                     request.label(), request.valid_days()));
  v1::Editor editor = EditorOf(made.editor);
  editor.set_invitation(made.invitation);
  return editor;
}

absl::StatusOr<v1::AcceptEditorInvitationResponse> AcceptEditorInvitation(
    Application& application, RequestContext& context,
    const v1::AcceptEditorInvitationRequest& request) {
  ASSIGN_OR_RETURN(auto accepted, usecases::AcceptEditorInvitation(
                                      application, context, request.invitation(),
                                      {request.display_name(), request.mail_address()}));
  v1::AcceptEditorInvitationResponse response;
  *response.mutable_editor() = EditorOf(accepted.editor);
  response.set_secret(accepted.secret);
  return response;
}

absl::StatusOr<v1::Editor> GetEditor(Application& application, RequestContext& context,
                                     const v1::GetEditorRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<EditorName>("name", request.name()));
  ASSIGN_OR_RETURN(auto editor, usecases::GetEditor(application, context, name));
  return EditorOf(editor);
}

absl::StatusOr<v1::ListEditorsResponse> ListEditors(Application& application,
                                                    RequestContext& context,
                                                    const v1::ListEditorsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page, usecases::ListEditors(application, context, name.pattern,
                                                    asked.moment(), {asked.id()}, asked.size));
  v1::ListEditorsResponse response;
  for (const auto& editor : page.editors) *response.add_editors() = EditorOf(editor);
  if (page.more) {
    const auto& last = page.editors.back().row;
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::DeleteEditorResponse> DeleteEditor(Application& application,
                                                      RequestContext& context,
                                                      const v1::DeleteEditorRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<EditorName>("name", request.name()));
  auto status = usecases::DeleteEditor(application, context, name);
  if (!status.ok()) return status;
  return v1::DeleteEditorResponse();
}

absl::StatusOr<v1::Pattern> CreatePattern(Application& application, RequestContext& context,
                                          const v1::CreatePatternRequest& request) {
  return Answer(usecases::CreatePattern(application, context, request.title()));
}

absl::StatusOr<v1::Pattern> GetPattern(Application& application, RequestContext& context,
                                       const v1::GetPatternRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("name", request.name()));
  return Answer(usecases::GetPattern(application, context, name.pattern));
}

}  // namespace

std::unique_ptr<Service> MakePatternService(const Dispatcher& dispatcher,
                                            usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "PatternService",
      std::vector<Method>{MethodOf("CreatePattern", CreatePattern, application),
                          MethodOf("GetPattern", GetPattern, application),
                          MethodOf("ListPatterns", ListPatterns, application),
                          MethodOf("UpdatePattern", UpdatePattern, application),
                          MethodOf("ArchivePattern", ArchivePattern, application),
                          MethodOf("UnarchivePattern", UnarchivePattern, application),
                          MethodOf("CreateVersion", CreateVersion, application),
                          MethodOf("GetVersion", GetVersion, application),
                          MethodOf("ListVersions", ListVersions, application),
                          MethodOf("WriteVersionRows", WriteVersionRows, application),
                          MethodOf("CompareVersionRows", CompareVersionRows, application),
                          MethodOf("CompareVersions", CompareVersions, application),
                          MethodOf("EstimateVersion", EstimateVersion, application),
                          MethodOf("CreateEditor", CreateEditor, application),
                          MethodOf("AcceptEditorInvitation", AcceptEditorInvitation, application),
                          MethodOf("GetEditor", GetEditor, application),
                          MethodOf("ListEditors", ListEditors, application),
                          MethodOf("DeleteEditor", DeleteEditor, application)});
}

}  // namespace rowproof::rpc
