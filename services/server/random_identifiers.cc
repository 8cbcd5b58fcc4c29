#include "services/server/random_identifiers.h"

#include <openssl/rand.h>

#include <array>
#include <cstdint>
#include <span>

#include "services/domain/check.h"

namespace rowproof::server {
namespace {

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

void FillRandom(std::span<uint8_t> bytes) {
  ROWPROOF_CHECK(RAND_priv_bytes(bytes.data(), static_cast<int>(bytes.size())) == 1);
}

}  // namespace

std::string RandomIdentifiers::NewIdentifier() {
  // Drawn for many at once: asking takes longer than drawing. Secrets are never kept so.
  constexpr size_t kBytes = 10;
  thread_local std::array<uint8_t, 64 * kBytes> drawn;
  thread_local size_t used = drawn.size();
  if (used == drawn.size()) {
    FillRandom(drawn);
    used = 0;
  }
  used += kBytes;
  return Base32(std::span(drawn).subspan(used - kBytes, kBytes));
}

std::string RandomIdentifiers::NewSecret() {
  std::array<uint8_t, 32> bytes{};
  FillRandom(bytes);
  return "rp_" + Base32(bytes);
}

}  // namespace rowproof::server
