#include "services/domain/identifiers.h"

#include <openssl/evp.h>

#include <algorithm>

#include "services/domain/check.h"

namespace rowproof {
namespace {

constexpr size_t kLongestIdentifier = 40;

}  // namespace

bool IsIdentifier(std::string_view text) {
  return !text.empty() && text.size() <= kLongestIdentifier &&
         std::all_of(text.begin(), text.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); });
}

Sha256 Sha256Of(std::string_view bytes) {
  // Looked up once: that takes longer than to hash a short text.
  static const EVP_MD* const kAlgorithm = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  Sha256 digest;
  ROWPROOF_CHECK(kAlgorithm != nullptr && EVP_Digest(bytes.data(), bytes.size(), digest.data(),
                                                     nullptr, kAlgorithm, nullptr) == 1);
  return digest;
}

std::string HexOf(const Sha256& digest) {
  constexpr char kDigits[] = "0123456789abcdef";
  std::string text;
  for (const uint8_t byte : digest) {
    text += kDigits[byte >> 4];
    text += kDigits[byte & 15];
  }
  return text;
}

}  // namespace rowproof
