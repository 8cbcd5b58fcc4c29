#include "services/rpc/converters/charts/calibration.h"

#include <optional>

#include "fmt/format.h"
#include "rowproof/v1/calibration_service.pb.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/kept_calibration.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"
#include "services/rpc/update_mask.h"
#include "services/usecases/calibrations.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

template <typename Read>
auto Answer(const absl::StatusOr<Read>& read) -> absl::StatusOr<decltype(ToProto(*read))> {
  if (!read.ok()) return read.status();
  return ToProto(*read);
}

absl::StatusOr<v1::Calibration> CreateCalibration(Application& application, RequestContext& context,
                                                  const v1::CreateCalibrationRequest& request) {
  RETURN_IF_ERROR(usecases::RequireToken(context));
  ASSIGN_OR_RETURN(auto wanted, FromProto(request, context.stop));
  return Answer(usecases::CreateCalibration(application, context, wanted));
}

absl::StatusOr<v1::Calibration> GetCalibration(Application& application, RequestContext& context,
                                               const v1::GetCalibrationRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<CalibrationName>("name", request.name()));
  return Answer(usecases::GetCalibration(application, context, name.calibration));
}

absl::StatusOr<v1::ListCalibrationsResponse> ListCalibrations(
    Application& application, RequestContext& context, const v1::ListCalibrationsRequest& request) {
  v1::CalibrationScope filter;
  filter.set_technique(request.technique());
  if (request.has_weight_class()) filter.set_weight_class(request.weight_class());
  ASSIGN_OR_RETURN(auto scope, FromProto(filter));
  ASSIGN_OR_RETURN(
      auto asked,
      ReadPage(request,
               fmt::format("{} {} {}", context.method, static_cast<int>(request.technique()),
                           request.has_weight_class() ? request.weight_class() : -1)));
  ASSIGN_OR_RETURN(auto page, usecases::ListCalibrations(application, context,
                                                         {scope.technique, scope.weight_class},
                                                         asked.moment(), {asked.id()}, asked.size));
  v1::ListCalibrationsResponse response;
  for (const auto& row : page.calibrations) *response.add_calibrations() = ToProto(row);
  if (page.more) {
    const auto& last = page.calibrations.back();
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Calibration> UpdateCalibration(Application& application, RequestContext& context,
                                                  const v1::UpdateCalibrationRequest& request) {
  constexpr std::string_view kChangeable[] = {"title"};
  const v1::Calibration& sent = request.calibration();
  ASSIGN_OR_RETURN(auto name, ParseName<CalibrationName>("calibration.name", sent.name()));
  ASSIGN_OR_RETURN(auto mask, ReadUpdateMask(request.update_mask(), sent, kChangeable));
  auto changes = ReadEtag(sent.etag());
  if (!changes.ok()) return UnderField(changes.status(), "calibration");
  auto renamed =
      usecases::RenameCalibration(application, context, name.calibration, sent.title(), *changes);
  if (!renamed.ok()) return UnderField(renamed.status(), "calibration");
  return ToProto(*renamed);
}

absl::StatusOr<v1::DeleteCalibrationResponse> DeleteCalibration(
    Application& application, RequestContext& context,
    const v1::DeleteCalibrationRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<CalibrationName>("name", request.name()));
  ASSIGN_OR_RETURN(auto changes, ReadEtag(request.etag()));
  auto status = usecases::DeleteCalibration(application, context, name.calibration, changes);
  if (!status.ok()) return status;
  return v1::DeleteCalibrationResponse();
}

absl::StatusOr<v1::CalibrationRevision> CreateCalibrationRevision(
    Application& application, RequestContext& context,
    const v1::CreateCalibrationRevisionRequest& request) {
  RETURN_IF_ERROR(usecases::RequireToken(context));
  ASSIGN_OR_RETURN(auto name, ParseName<CalibrationName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto changes, ReadEtag(request.etag()));
  ASSIGN_OR_RETURN(auto change, FromProto(request, context.stop));
  return Answer(usecases::AppendRevision(application, context, name.calibration, change, changes));
}

absl::StatusOr<v1::CalibrationRevision> GetCalibrationRevision(
    Application& application, RequestContext& context,
    const v1::GetCalibrationRevisionRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<RevisionName>("name", request.name()));
  return Answer(usecases::GetRevision(application, context, name.calibration, name.revision));
}

absl::StatusOr<v1::ListCalibrationRevisionsResponse> ListCalibrationRevisions(
    Application& application, RequestContext& context,
    const v1::ListCalibrationRevisionsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<CalibrationName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page, usecases::ListRevisions(application, context, name.calibration,
                                                      asked.number(0), asked.size));
  v1::ListCalibrationRevisionsResponse response;
  for (const auto& revision : page.revisions) {
    *response.add_revisions() = ListedRevision(revision);
  }
  if (page.more) {
    response.set_next_page_token(NextPageToken(asked, {page.revisions.back().row.number, ""}));
  }
  return response;
}

}  // namespace

std::unique_ptr<Service> MakeCalibrationService(const Dispatcher& dispatcher,
                                                usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "CalibrationService",
      std::vector<Method>{
          MethodOf("CreateCalibration", CreateCalibration, application),
          MethodOf("GetCalibration", GetCalibration, application),
          MethodOf("ListCalibrations", ListCalibrations, application),
          MethodOf("UpdateCalibration", UpdateCalibration, application),
          MethodOf("DeleteCalibration", DeleteCalibration, application),
          MethodOf("CreateCalibrationRevision", CreateCalibrationRevision, application),
          MethodOf("GetCalibrationRevision", GetCalibrationRevision, application),
          MethodOf("ListCalibrationRevisions", ListCalibrationRevisions, application)});
}

}  // namespace rowproof::rpc
