// What a use case knows about the request that it serves.
#ifndef ROWPROOF_SERVICES_USECASES_REQUEST_CONTEXT_H_
#define ROWPROOF_SERVICES_USECASES_REQUEST_CONTEXT_H_

#include <chrono>
#include <optional>
#include <string>

#include "absl/status/status.h"
#include "services/domain/errors.h"
#include "services/domain/identifiers.h"
#include "services/domain/stop.h"

namespace rowproof::usecases {

// One request. Belongs to one thread.
struct RequestContext {
  std::string method;  // "PatternService.CreateVersion"
  std::chrono::steady_clock::time_point deadline;
  // Passed to every computation: its deadline, its cancellation.
  Stop stop;
  std::optional<Sha256> token_sha256;
  // The client's request id, or empty; `digest` covers the decoded input.
  std::string request_id;
  Sha256 digest{};
  // Filled on admission, for the log.
  AccountId account;
};

// Refuses a request that cannot reach a transaction for lack of a token.
inline absl::Status RequireToken(const RequestContext& context) {
  return context.token_sha256.has_value() ? absl::OkStatus() : NotSignedIn();
}

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_REQUEST_CONTEXT_H_
