#include "services/rpc/handlers/release.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/rpc/converters/release.h"
#include "services/rpc/page_token.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::Call;

// The version, and the test call if one is named.
struct Subject {
  PatternId pattern;
  int version = 0;
  CallId call;
};

absl::StatusOr<Subject> ReadSubject(const std::string& version, const std::string& of_call) {
  auto name = ParseName<VersionName>("version", version);
  if (!name.ok()) return name.status();
  if (of_call.empty()) return Subject{name->pattern, name->version, {}};
  auto call = ParseName<TestCallName>("call", of_call);
  if (!call.ok()) return call.status();
  if (call->pattern != name->pattern) {
    return InvalidField("call", of_call, "a call of the version's pattern");
  }
  return Subject{name->pattern, name->version, call->call};
}

absl::StatusOr<v1::GetGatesResponse> Gates(Application& application, Call& call,
                                           const v1::GetGatesRequest& request) {
  auto name = ReadSubject(request.version(), request.call());
  if (!name.ok()) return name.status();
  auto gates = usecases::GetGates(application, call, name->pattern, name->version, name->call);
  if (!gates.ok()) return gates.status();
  v1::GetGatesResponse response;
  for (const auto& gate : *gates) *response.add_gates() = ToProto(gate);
  return response;
}

absl::StatusOr<v1::Release> Publish(Application& application, Call& call,
                                    const v1::PublishRequest& request) {
  auto name = ReadSubject(request.version(), request.call());
  if (!name.ok()) return name.status();
  auto waivers = WaiversFrom(request);
  if (!waivers.ok()) return waivers.status();
  auto style = StyleFrom(request.sheet());
  if (!style.ok()) return style.status();
  auto release = usecases::Publish(application, call, name->pattern, name->version, name->call,
                                   *waivers, *style);
  if (!release.ok()) return release.status();
  return ToProto(*release);
}

absl::StatusOr<v1::Release> Get(Application& application, Call& call,
                                const v1::GetReleaseRequest& request) {
  auto name = ParseName<ReleaseName>("name", request.name());
  if (!name.ok()) return name.status();
  auto release = usecases::GetRelease(application, call, name->pattern, name->release);
  if (!release.ok()) return release.status();
  return ToProto(*release);
}

absl::StatusOr<v1::ListReleasesResponse> List(Application& application, Call& call,
                                              const v1::ListReleasesRequest& request) {
  auto name = ParseName<PatternName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto asked = ReadPage(request, call.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListReleases(application, call, name->pattern, asked->moment(),
                                     {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListReleasesResponse response;
  for (const auto& row : page->releases) *response.add_releases() = ToProto(row);
  if (page->more) {
    const auto& last = page->releases.back();
    response.set_next_page_token(NextPageToken(*asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::ReleaseFile> GetFile(Application& application, Call& call,
                                        const v1::GetReleaseFileRequest& request) {
  auto name = ParseName<ReleaseName>("name", request.name());
  if (!name.ok()) return name.status();
  auto kind = FromProto("kind", request.kind());
  if (!kind.ok()) return kind.status();
  auto file = usecases::GetReleaseFile(application, call, name->pattern, name->release, *kind);
  if (!file.ok()) return file.status();
  return ToProto(file->file, file->version_number);
}

}  // namespace

grpc::Status ReleaseHandlers::GetGates(grpc::ServerContext* context,
                                       const v1::GetGatesRequest* request,
                                       v1::GetGatesResponse* response) {
  return desk_.Serve(*context, "ReleaseService.GetGates", *request, response,
                     [&](Call& call) { return Gates(desk_.application(), call, *request); });
}

grpc::Status ReleaseHandlers::Publish(grpc::ServerContext* context,
                                      const v1::PublishRequest* request, v1::Release* response) {
  return desk_.Serve(*context, "ReleaseService.Publish", *request, response,
                     [&](Call& call) { return rpc::Publish(desk_.application(), call, *request); });
}

grpc::Status ReleaseHandlers::GetRelease(grpc::ServerContext* context,
                                         const v1::GetReleaseRequest* request,
                                         v1::Release* response) {
  return desk_.Serve(*context, "ReleaseService.GetRelease", *request, response,
                     [&](Call& call) { return Get(desk_.application(), call, *request); });
}

grpc::Status ReleaseHandlers::ListReleases(grpc::ServerContext* context,
                                           const v1::ListReleasesRequest* request,
                                           v1::ListReleasesResponse* response) {
  return desk_.Serve(*context, "ReleaseService.ListReleases", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status ReleaseHandlers::GetReleaseFile(grpc::ServerContext* context,
                                             const v1::GetReleaseFileRequest* request,
                                             v1::ReleaseFile* response) {
  return desk_.Serve(*context, "ReleaseService.GetReleaseFile", *request, response,
                     [&](Call& call) { return GetFile(desk_.application(), call, *request); });
}

}  // namespace rowproof::rpc
