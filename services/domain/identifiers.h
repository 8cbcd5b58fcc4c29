// Strong types for the names of things, and the source of new ones.
#ifndef ROWPROOF_SERVICES_DOMAIN_IDENTIFIERS_H_
#define ROWPROOF_SERVICES_DOMAIN_IDENTIFIERS_H_

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace rowproof {

// A server-made, random identifier: 1 to 40 characters of a-z and 0-9.
template <typename Tag>
struct Identifier {
  std::string value;
  bool empty() const { return value.empty(); }
  auto operator<=>(const Identifier&) const = default;
};

using AccountId = Identifier<struct AccountTag>;
using TokenId = Identifier<struct TokenTag>;
using PatternId = Identifier<struct PatternTag>;
using EditorId = Identifier<struct EditorTag>;
using CallId = Identifier<struct CallTag>;
using SeatId = Identifier<struct SeatTag>;
using ErratumId = Identifier<struct ErratumTag>;
using SetAsideId = Identifier<struct SetAsideTag>;
using ReleaseId = Identifier<struct ReleaseTag>;
using CalibrationId = Identifier<struct CalibrationTag>;

// Whether `text` has the form of an identifier.
bool IsIdentifier(std::string_view text);

using Sha256 = std::array<uint8_t, 32>;
Sha256 Sha256Of(std::string_view bytes);
std::string HexOf(const Sha256& digest);

// Source of identifiers and secrets; a seam, so that tests can foresee them. Thread-safe.
class IdentifierSource {
 public:
  virtual ~IdentifierSource() = default;
  // A new identifier: 80 random bits, 16 characters.
  virtual std::string NewIdentifier() = 0;
  // A new secret: 256 random bits, 52 characters of a-z and 2-7 after the prefix "rp_".
  virtual std::string NewSecret() = 0;
};

}  // namespace rowproof

#endif  // ROWPROOF_SERVICES_DOMAIN_IDENTIFIERS_H_
