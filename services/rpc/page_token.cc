#include "services/rpc/page_token.h"

#include <algorithm>

#include "absl/strings/escaping.h"
#include "absl/strings/numbers.h"
#include "absl/strings/str_split.h"
#include "services/domain/errors.h"
#include "services/domain/identifiers.h"

namespace rowproof::rpc {
namespace {

constexpr int kUsualPage = 50;
constexpr int kLongestPage = 1000;
constexpr size_t kLongestToken = 400;
constexpr char kBetween = '\x1f';

std::string Seal(const std::string& binding, const std::string& keys) {
  return HexOf(Sha256Of(binding + kBetween + keys)).substr(0, 16);
}

}  // namespace

absl::StatusOr<int> PageSize(int asked) {
  if (asked < 0) {
    return InvalidField("page_size", std::to_string(asked), "0 for 50, or 1 to 1000");
  }
  return asked == 0 ? kUsualPage : std::min(asked, kLongestPage);
}

std::string MakePageToken(const std::string& binding, const std::vector<std::string>& keys) {
  std::string joined;
  for (const std::string& key : keys) joined += key + kBetween;
  return absl::WebSafeBase64Escape(Seal(binding, joined) + joined);
}

absl::StatusOr<std::vector<std::string>> ReadPageToken(const std::string& token,
                                                       const std::string& binding,
                                                       size_t key_count) {
  if (token.empty()) return std::vector<std::string>{};
  const auto refuse = [&] {
    return InvalidField("page_token", token, "the next_page_token of the same request, or nothing");
  };
  std::string plain;
  if (token.size() > kLongestToken || !absl::WebSafeBase64Unescape(token, &plain) ||
      plain.size() < 16 || plain.substr(0, 16) != Seal(binding, plain.substr(16))) {
    return refuse();
  }
  std::vector<std::string> keys = absl::StrSplit(plain.substr(16), kBetween);
  keys.pop_back();
  if (keys.size() != key_count) return refuse();
  return keys;
}

std::string MakeEtag(int revision) { return "r" + std::to_string(revision); }

absl::StatusOr<int> ReadEtag(const std::string& etag) {
  if (etag.empty()) return -1;
  int revision = 0;
  if (etag.front() != 'r' || etag.size() > 10 || !absl::SimpleAtoi(etag.substr(1), &revision) ||
      revision < 1 || MakeEtag(revision) != etag) {
    return InvalidField("etag", etag, "the etag of the resource as last read, or nothing");
  }
  return revision;
}

}  // namespace rowproof::rpc
