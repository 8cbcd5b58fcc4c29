// What a maker buys for a length of yarn: joins at new balls, printed amounts, balls. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_PURCHASE_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_PURCHASE_H_

#include <cstdint>

#include "services/domain/estimate/estimate.h"

namespace rowproof::estimate {

// Balls after the first that a length needs, where each of them takes two tails more.
int64_t JoinCount(double length_mm, double ball_mm, double tail_mm);

// Fills upper_length_mm, published_*, balls and left_over_m from the length and its uncertainty;
// false if one passes kMostPublished.
bool Publish(const Yarn& yarn, const Materials& materials, ColourEstimate& colour);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_PURCHASE_H_
