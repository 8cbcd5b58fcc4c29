// Estimates for people: breakdown, amounts, sizes, ways with the ends. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_ESTIMATE_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_ESTIMATE_H_

#include <string>

#include "rowproof/v1/estimate.pb.h"

namespace rowproof::client {

std::string TextOf(const v1::SizeEstimate& estimate);
std::string TextOf(const v1::EndsComparison& comparison);
std::string TextOf(const v1::SizeChoice& choice);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_ESTIMATE_H_
