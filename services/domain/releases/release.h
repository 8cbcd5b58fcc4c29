// Releases and their files, as they are kept.
#ifndef ROWPROOF_SERVICES_DOMAIN_RELEASES_RELEASE_H_
#define ROWPROOF_SERVICES_DOMAIN_RELEASES_RELEASE_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "services/domain/releases/gates.h"

namespace rowproof::releases {

// Values are stored; they never change their meaning.
enum class ReleaseFileKind : uint8_t {
  kPatternSheetPdf = 1,
  kErrataSheetPdf = 2,
  kErrataSheetText = 3,
};

struct ReleaseFile {
  ReleaseFileKind kind = ReleaseFileKind::kPatternSheetPdf;
  Sha256 sha256{};
  int64_t size_bytes = 0;
  std::string content;  // empty if only the facts were asked for
};

struct ReleaseRecord {
  PatternId pattern;
  ReleaseId id;
  int version_number = 0;
  CallId call;             // empty: none
  int reconciliation = 0;  // of the call, whose amounts are printed; 0: none
  AccountId author;
  Moment created_at;
  std::vector<Gate> gates;
  std::vector<int> versions_concerned;
  std::vector<ReleaseFile> files;  // by kind; without content but on insert
  std::optional<Moment> withdrawn_at;
  std::string withdraw_reason;
};

}  // namespace rowproof::releases

#endif  // ROWPROOF_SERVICES_DOMAIN_RELEASES_RELEASE_H_
