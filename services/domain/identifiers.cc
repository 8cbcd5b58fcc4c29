#include "services/domain/identifiers.h"

#include <openssl/evp.h>
#include <openssl/rand.h>

#include <algorithm>
#include <span>

#include "services/domain/check.h"

namespace rowproof {
namespace {

constexpr size_t kLongestIdentifier = 40;

// Base 32 of RFC 4648 in lower case, without padding.
std::string Base32(std::span<const uint8_t> bytes) {
  constexpr char kDigits[] = "abcdefghijklmnopqrstuvwxyz234567";
  std::string text;
  uint32_t held = 0;
  int bits = 0;
  for (const uint8_t byte : bytes) {
    held = held << 8 | byte;
    bits += 8;
    while (bits >= 5) {
      bits -= 5;
      text += kDigits[held >> bits & 31];
    }
  }
  if (bits > 0) text += kDigits[held << (5 - bits) & 31];
  return text;
}

std::string RandomText(size_t byte_count) {
  std::array<uint8_t, 32> bytes{};
  ROWPROOF_CHECK(byte_count <= bytes.size());
  ROWPROOF_CHECK(RAND_priv_bytes(bytes.data(), static_cast<int>(byte_count)) == 1);
  return Base32(std::span(bytes).first(byte_count));
}

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

std::string RandomIdentifiers::NewIdentifier() { return RandomText(10); }

std::string RandomIdentifiers::NewSecret() { return "rp_" + RandomText(32); }

}  // namespace rowproof
