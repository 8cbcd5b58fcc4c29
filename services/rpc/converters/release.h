// Releases and gates between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_RELEASE_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_RELEASE_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "rowproof/v1/release_service.pb.h"
#include "services/usecases/releases.h"

namespace rowproof::rpc {

v1::Gate ToProto(const releases::Gate& gate);
v1::Release ToProto(const releases::ReleaseRecord& row);
v1::ReleaseFile ToProto(const releases::ReleaseFile& file, int version_number, bool withdrawn);

// INVALID_ARGUMENT "waivers[i].code" for an unspecified or unknown gate.
absl::StatusOr<std::vector<releases::Waiver>> WaiversFrom(const v1::CreateReleaseRequest& request);
// INVALID_ARGUMENT "sheet.terms", "sheet.repeat_style" for foreign numbers.
absl::StatusOr<sheets::SheetStyle> StyleFrom(const v1::SheetSettings& sheet);
// INVALID_ARGUMENT for an unspecified or unknown kind.
absl::StatusOr<releases::ReleaseFileKind> FromProto(const std::string& field,
                                                    v1::ReleaseFileKind kind);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_RELEASE_H_
