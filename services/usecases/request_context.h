// What a use case knows about the request that it serves.
#ifndef ROWPROOF_SERVICES_USECASES_REQUEST_CONTEXT_H_
#define ROWPROOF_SERVICES_USECASES_REQUEST_CONTEXT_H_

#include <chrono>
#include <optional>
#include <string>

#include "services/domain/identifiers.h"

namespace rowproof::usecases {

// One request. Belongs to one thread.
struct RequestContext {
  std::string method;  // "PatternService.CreateVersion"
  std::chrono::steady_clock::time_point deadline;
  std::optional<Sha256> token_sha256;
  // The client's request id, or empty; `digest` covers the decoded input.
  std::string request_id;
  Sha256 digest{};
  // Filled on admission, for the log.
  AccountId account;
};

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_REQUEST_CONTEXT_H_
