#include "services/rpc/converters/release.h"

#include "rowproof/v1/release_service.pb.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

// The version, and the test call if one is named.
struct Subject {
  PatternId pattern;
  int version = 0;
  CallId call;
};

absl::StatusOr<Subject> ReadSubject(const std::string& version, const std::string& of_call) {
  ASSIGN_OR_RETURN(auto name, ParseName<VersionName>("version", version));
  if (of_call.empty()) return Subject{name.pattern, name.version, {}};
  auto call = ParseName<TestCallName>("test_call", of_call);
  if (!call.ok()) return call.status();
  if (call->pattern != name.pattern) {
    return InvalidField("test_call", of_call, "a call of the version's pattern");
  }
  return Subject{name.pattern, name.version, call->call};
}

absl::StatusOr<v1::GetGatesResponse> GetGates(Application& application, RequestContext& context,
                                              const v1::GetGatesRequest& request) {
  ASSIGN_OR_RETURN(auto name, ReadSubject(request.version(), request.test_call()));
  ASSIGN_OR_RETURN(auto gates,
                   usecases::GetGates(application, context, name.pattern, name.version, name.call));
  v1::GetGatesResponse response;
  for (const auto& gate : gates) *response.add_gates() = ToProto(gate);
  return response;
}

absl::StatusOr<v1::Release> CreateRelease(Application& application, RequestContext& context,
                                          const v1::CreateReleaseRequest& request) {
  ASSIGN_OR_RETURN(auto parent, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto name, ReadSubject(request.version(), request.test_call()));
  if (name.pattern != parent.pattern) {
    return InvalidField("version", request.version(),
                        "a version of the pattern that \"parent\" names");
  }
  ASSIGN_OR_RETURN(auto waivers, WaiversFrom(request));
  ASSIGN_OR_RETURN(auto style, StyleFrom(request.sheet()));
  ASSIGN_OR_RETURN(auto release,
                   usecases::CreateRelease(application, context,
                                           {name.pattern, name.version, name.call,
                                            std::move(waivers), style, request.validate_only()}));
  return ToProto(release);
}

absl::StatusOr<v1::Release> GetRelease(Application& application, RequestContext& context,
                                       const v1::GetReleaseRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ReleaseName>("name", request.name()));
  ASSIGN_OR_RETURN(auto release,
                   usecases::GetRelease(application, context, name.pattern, name.release));
  return ToProto(release);
}

absl::StatusOr<v1::ListReleasesResponse> ListReleases(Application& application,
                                                      RequestContext& context,
                                                      const v1::ListReleasesRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page, usecases::ListReleases(application, context, name.pattern,
                                                     asked.moment(), {asked.id()}, asked.size));
  v1::ListReleasesResponse response;
  for (const auto& row : page.releases) *response.add_releases() = ToProto(row);
  if (page.more) {
    const auto& last = page.releases.back();
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Release> WithdrawRelease(Application& application, RequestContext& context,
                                            const v1::WithdrawReleaseRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ReleaseName>("name", request.name()));
  ASSIGN_OR_RETURN(auto release, usecases::WithdrawRelease(application, context, name.pattern,
                                                           name.release, request.reason()));
  return ToProto(release);
}

absl::StatusOr<v1::ReleaseFile> GetReleaseFile(Application& application, RequestContext& context,
                                               const v1::GetReleaseFileRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ReleaseName>("name", request.name()));
  ASSIGN_OR_RETURN(auto kind, FromProto("kind", request.kind()));
  auto file = usecases::GetReleaseFile(application, context, name.pattern, name.release, kind);
  if (!file.ok()) return file.status();
  return ToProto(file->file, file->version_number, file->withdrawn);
}

}  // namespace

std::unique_ptr<Service> MakeReleaseService(const Dispatcher& dispatcher,
                                            usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "ReleaseService",
      std::vector<Method>{MethodOf("GetGates", GetGates, application),
                          MethodOf("CreateRelease", CreateRelease, application),
                          MethodOf("GetRelease", GetRelease, application),
                          MethodOf("ListReleases", ListReleases, application),
                          MethodOf("WithdrawRelease", WithdrawRelease, application),
                          MethodOf("GetReleaseFile", GetReleaseFile, application)});
}

}  // namespace rowproof::rpc
