// Cautions that go with an item, its fibres and its ends. They defer to local rules and to the
// maker of the material. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CAUTIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CAUTIONS_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::estimate {

enum class CautionCode : uint8_t {
  kHeat,
  kMeltingFibre,
  kUnknownFibre,
  kSmallChildren,
  kLooseParts,
  kShowThrough,
  kBleeding,
  kCare,
  kStrain,
};
inline constexpr size_t kCautionCodes = 9;

struct Caution {
  CautionCode code = CautionCode::kStrain;
  std::string sentence;
  bool operator==(const Caution&) const = default;
};

// What applies to a design made so; the most serious first. The materials must be valid.
std::vector<Caution> Cautions(const chart::Design& design, const Materials& materials);

// True if a fibre's name is one of a thermoplastic (acrylic, polyester, nylon, ...), in English.
bool NamesMeltingFibre(const std::string& fibre);

const char* CodeName(CautionCode code);  // "heat", "melting-fibre", ...

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CAUTIONS_H_
