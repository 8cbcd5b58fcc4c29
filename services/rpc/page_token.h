// Page sizes and opaque keyset page tokens (AIP-158). Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_PAGE_TOKEN_H_
#define ROWPROOF_SERVICES_RPC_PAGE_TOKEN_H_

#include <cstdint>
#include <optional>
#include <string>

#include "absl/status/statusor.h"
#include "services/domain/clock.h"

namespace rowproof::rpc {

// What a list sent last; the next page begins after it.
struct PageKey {
  int64_t number = 0;  // a moment's microseconds, a version, a row ...; not negative
  std::string id;      // an identifier, or empty
  bool operator==(const PageKey&) const = default;
};

// One page that a list method is asked for.
struct Page {
  int size = 0;
  std::optional<PageKey> last_sent;  // absent: the first page
  std::string binding;               // the method and the filter that its token belongs to

  std::optional<Moment> moment() const;
  int number(int of_first_page) const;
  std::string id() const { return last_sent.has_value() ? last_sent->id : std::string(); }
};

// A size of 0 is 50, more than 1,000 is 1,000. INVALID_ARGUMENT for a size below 0 and for a token
// that was made for something else, or altered.
absl::StatusOr<Page> ReadPage(int size, const std::string& token, const std::string& binding);
template <typename Request>
absl::StatusOr<Page> ReadPage(const Request& request, const std::string& binding) {
  return ReadPage(request.page_size(), request.page_token(), binding);
}

// The token of the page after this one.
std::string NextPageToken(const Page& page, const PageKey& last_sent);

// etag of a resource's revision, and back; none for an empty etag. INVALID_ARGUMENT for any
// other text.
std::string MakeEtag(int revision);
absl::StatusOr<std::optional<int>> ReadEtag(const std::string& etag);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_PAGE_TOKEN_H_
