// What an estimate took for granted, in sentences. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ASSUMED_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ASSUMED_H_

#include <string>
#include <vector>

#include "services/domain/estimate/part_lengths.h"

namespace rowproof::estimate {

std::vector<std::string> Assumed(const Piece& piece);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ASSUMED_H_
