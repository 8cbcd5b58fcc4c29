// Page sizes and opaque keyset page tokens (AIP-158). Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_PAGE_TOKEN_H_
#define ROWPROOF_SERVICES_RPC_PAGE_TOKEN_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"

namespace rowproof::rpc {

// 0 is 50; more than 1,000 is 1,000. INVALID_ARGUMENT below 0.
absl::StatusOr<int> PageSize(int asked);

// `binding`: the method and the filter that the token belongs to; keys: of the last item sent.
std::string MakePageToken(const std::string& binding, const std::vector<std::string>& keys);

// Empty for an empty token. INVALID_ARGUMENT for one that was made for something else, or altered.
absl::StatusOr<std::vector<std::string>> ReadPageToken(const std::string& token,
                                                       const std::string& binding,
                                                       size_t key_count);

// etag of a resource's revision, and back; -1 for an empty etag. INVALID_ARGUMENT otherwise.
std::string MakeEtag(int revision);
absl::StatusOr<int> ReadEtag(const std::string& etag);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_PAGE_TOKEN_H_
