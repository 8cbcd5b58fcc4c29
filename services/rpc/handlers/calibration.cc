#include "services/rpc/handlers/calibration.h"

#include <optional>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/rpc/converters/calibration.h"
#include "services/rpc/converters/kept_calibration.h"
#include "services/rpc/page_token.h"
#include "services/usecases/calibrations.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::Call;

template <typename Read>
auto Answer(const absl::StatusOr<Read>& read) -> absl::StatusOr<decltype(ToProto(*read))> {
  if (!read.ok()) return read.status();
  return ToProto(*read);
}

absl::StatusOr<std::optional<int>> ChangesFrom(const std::string& etag) {
  auto changes = ReadEtag(etag);
  if (!changes.ok()) return changes.status();
  return *changes < 0 ? std::nullopt : std::optional<int>(*changes);
}

absl::StatusOr<v1::Calibration> Create(Application& application, Call& call,
                                       const v1::CreateCalibrationRequest& request) {
  if (auto s = usecases::RequireToken(call); !s.ok()) return s;
  auto wanted = FromProto(request);
  if (!wanted.ok()) return wanted.status();
  return Answer(usecases::CreateCalibration(application, call, *wanted));
}

absl::StatusOr<v1::Calibration> Get(Application& application, Call& call,
                                    const v1::GetCalibrationRequest& request) {
  auto name = ParseName<CalibrationName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(usecases::GetCalibration(application, call, name->calibration));
}

absl::StatusOr<v1::ListCalibrationsResponse> List(Application& application, Call& call,
                                                  const v1::ListCalibrationsRequest& request) {
  v1::CalibrationScope filter;
  filter.set_technique(request.technique());
  if (request.has_weight_class()) filter.set_weight_class(request.weight_class());
  auto scope = FromProto(filter);
  if (!scope.ok()) return scope.status();
  auto asked =
      ReadPage(request, fmt::format("{} {} {}", call.method, static_cast<int>(request.technique()),
                                    request.has_weight_class() ? request.weight_class() : -1));
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListCalibrations(application, call, {scope->technique, scope->weight_class},
                                         asked->moment(), {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListCalibrationsResponse response;
  for (const auto& row : page->calibrations) *response.add_calibrations() = ToProto(row);
  if (page->more) {
    const auto& last = page->calibrations.back();
    response.set_next_page_token(NextPageToken(*asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Calibration> Update(Application& application, Call& call,
                                       const v1::UpdateCalibrationRequest& request) {
  auto name = ParseName<CalibrationName>("name", request.name());
  if (!name.ok()) return name.status();
  auto changes = ChangesFrom(request.etag());
  if (!changes.ok()) return changes.status();
  return Answer(
      usecases::RenameCalibration(application, call, name->calibration, request.title(), *changes));
}

absl::StatusOr<v1::DeleteCalibrationResponse> Delete(Application& application, Call& call,
                                                     const v1::DeleteCalibrationRequest& request) {
  auto name = ParseName<CalibrationName>("name", request.name());
  if (!name.ok()) return name.status();
  auto changes = ChangesFrom(request.etag());
  if (!changes.ok()) return changes.status();
  auto status = usecases::DeleteCalibration(application, call, name->calibration, *changes);
  if (!status.ok()) return status;
  return v1::DeleteCalibrationResponse();
}

absl::StatusOr<v1::CalibrationRevision> Append(
    Application& application, Call& call, const v1::CreateCalibrationRevisionRequest& request) {
  if (auto s = usecases::RequireToken(call); !s.ok()) return s;
  auto name = ParseName<CalibrationName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto changes = ChangesFrom(request.etag());
  if (!changes.ok()) return changes.status();
  auto change = FromProto(request);
  if (!change.ok()) return change.status();
  return Answer(usecases::AppendRevision(application, call, name->calibration, *change, *changes));
}

absl::StatusOr<v1::CalibrationRevision> Get(Application& application, Call& call,
                                            const v1::GetCalibrationRevisionRequest& request) {
  auto name = ParseName<RevisionName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(usecases::GetRevision(application, call, name->calibration, name->revision));
}

absl::StatusOr<v1::ListCalibrationRevisionsResponse> List(
    Application& application, Call& call, const v1::ListCalibrationRevisionsRequest& request) {
  auto name = ParseName<CalibrationName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto asked = ReadPage(request, call.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page =
      usecases::ListRevisions(application, call, name->calibration, asked->number(0), asked->size);
  if (!page.ok()) return page.status();
  v1::ListCalibrationRevisionsResponse response;
  for (const auto& revision : page->revisions) {
    *response.add_revisions() = ListedRevision(revision);
  }
  if (page->more) {
    response.set_next_page_token(NextPageToken(*asked, {page->revisions.back().row.number, ""}));
  }
  return response;
}

}  // namespace

grpc::Status CalibrationHandlers::CreateCalibration(grpc::ServerContext* context,
                                                    const v1::CreateCalibrationRequest* request,
                                                    v1::Calibration* response) {
  return desk_.Serve(*context, "CalibrationService.CreateCalibration", *request, response,
                     [&](Call& call) { return Create(desk_.application(), call, *request); });
}

grpc::Status CalibrationHandlers::GetCalibration(grpc::ServerContext* context,
                                                 const v1::GetCalibrationRequest* request,
                                                 v1::Calibration* response) {
  return desk_.Serve(*context, "CalibrationService.GetCalibration", *request, response,
                     [&](Call& call) { return Get(desk_.application(), call, *request); });
}

grpc::Status CalibrationHandlers::ListCalibrations(grpc::ServerContext* context,
                                                   const v1::ListCalibrationsRequest* request,
                                                   v1::ListCalibrationsResponse* response) {
  return desk_.Serve(*context, "CalibrationService.ListCalibrations", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status CalibrationHandlers::UpdateCalibration(grpc::ServerContext* context,
                                                    const v1::UpdateCalibrationRequest* request,
                                                    v1::Calibration* response) {
  return desk_.Serve(*context, "CalibrationService.UpdateCalibration", *request, response,
                     [&](Call& call) { return Update(desk_.application(), call, *request); });
}

grpc::Status CalibrationHandlers::DeleteCalibration(grpc::ServerContext* context,
                                                    const v1::DeleteCalibrationRequest* request,
                                                    v1::DeleteCalibrationResponse* response) {
  return desk_.Serve(*context, "CalibrationService.DeleteCalibration", *request, response,
                     [&](Call& call) { return Delete(desk_.application(), call, *request); });
}

grpc::Status CalibrationHandlers::CreateCalibrationRevision(
    grpc::ServerContext* context, const v1::CreateCalibrationRevisionRequest* request,
    v1::CalibrationRevision* response) {
  return desk_.Serve(*context, "CalibrationService.CreateCalibrationRevision", *request, response,
                     [&](Call& call) { return Append(desk_.application(), call, *request); });
}

grpc::Status CalibrationHandlers::GetCalibrationRevision(
    grpc::ServerContext* context, const v1::GetCalibrationRevisionRequest* request,
    v1::CalibrationRevision* response) {
  return desk_.Serve(*context, "CalibrationService.GetCalibrationRevision", *request, response,
                     [&](Call& call) { return Get(desk_.application(), call, *request); });
}

grpc::Status CalibrationHandlers::ListCalibrationRevisions(
    grpc::ServerContext* context, const v1::ListCalibrationRevisionsRequest* request,
    v1::ListCalibrationRevisionsResponse* response) {
  return desk_.Serve(*context, "CalibrationService.ListCalibrationRevisions", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

}  // namespace rowproof::rpc
