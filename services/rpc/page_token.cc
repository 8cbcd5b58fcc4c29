#include "services/rpc/page_token.h"

#include <algorithm>
#include <limits>
#include <vector>

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
constexpr size_t kSealLength = 16;
constexpr char kBetween = '\x1f';
// The last moment of the year 9999, in microseconds: what PostgreSQL can surely take.
constexpr int64_t kGreatestNumber = 253'402'300'799'999'999;

// Distinguishes the tokens of different requests. It is no secret, so the content of a token is
// checked like any input.
std::string Seal(const std::string& binding, const std::string& key) {
  return HexOf(Sha256Of(binding + kBetween + key)).substr(0, kSealLength);
}

std::optional<PageKey> ReadKey(const std::string& text) {
  const std::vector<std::string> parts = absl::StrSplit(text, kBetween);
  PageKey key;
  if (parts.size() != 2 || !absl::SimpleAtoi(parts[0], &key.number)) return std::nullopt;
  key.id = parts[1];
  const bool in_range = key.number >= 0 && key.number <= kGreatestNumber;
  if (!in_range || !(key.id.empty() || IsIdentifier(key.id))) return std::nullopt;
  return key;
}

std::optional<PageKey> ReadToken(const std::string& token, const std::string& binding) {
  std::string plain;
  if (token.size() > kLongestToken || !absl::WebSafeBase64Unescape(token, &plain) ||
      plain.size() < kSealLength) {
    return std::nullopt;
  }
  const std::string key = plain.substr(kSealLength);
  if (plain.substr(0, kSealLength) != Seal(binding, key)) return std::nullopt;
  return ReadKey(key);
}

}  // namespace

std::optional<Moment> Page::moment() const {
  if (!last_sent.has_value()) return std::nullopt;
  return MomentOf(last_sent->number);
}

int Page::number(int of_first_page) const {
  if (!last_sent.has_value()) return of_first_page;
  return static_cast<int>(std::min<int64_t>(last_sent->number, std::numeric_limits<int>::max()));
}

absl::StatusOr<Page> ReadPage(int size, const std::string& token, const std::string& binding) {
  if (size < 0) {
    return InvalidField("page_size", std::to_string(size), "between 1 and 1000, or 0 for 50");
  }
  Page page{size == 0 ? kUsualPage : std::min(size, kLongestPage), std::nullopt, binding};
  if (token.empty()) return page;
  page.last_sent = ReadToken(token, binding);
  if (!page.last_sent.has_value()) {
    return InvalidField("page_token", token, "the next_page_token of the same request, or empty");
  }
  return page;
}

std::string NextPageToken(const Page& page, const PageKey& last_sent) {
  const std::string key = std::to_string(last_sent.number) + kBetween + last_sent.id;
  return absl::WebSafeBase64Escape(Seal(page.binding, key) + key);
}

std::string MakeEtag(int revision) { return "r" + std::to_string(revision); }

absl::StatusOr<std::optional<int>> ReadEtag(const std::string& etag) {
  if (etag.empty()) return std::nullopt;
  int revision = 0;
  if (etag.front() != 'r' || etag.size() > 10 || !absl::SimpleAtoi(etag.substr(1), &revision) ||
      revision < 1 || MakeEtag(revision) != etag) {
    return InvalidField("etag", etag, "the etag of the resource as you last read it, or empty");
  }
  return revision;
}

}  // namespace rowproof::rpc
