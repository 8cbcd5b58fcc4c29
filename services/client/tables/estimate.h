// Estimates for people: breakdown, amounts, sizes, ways with the ends. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_ESTIMATE_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_ESTIMATE_H_

#include <string>

#include "rowproof/v1/estimate.pb.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

// Size, time and what to buy; with details the parts, ranges, notes, assumptions and cautions.
std::string TextOf(const v1::SizeEstimate& estimate, const Style& style);
// A line for each size: stitches, rows, finished size, time and yarn.
std::string SizeTable(const google::protobuf::RepeatedPtrField<v1::SizeEstimate>& estimates,
                      const Style& style);

std::string TextOf(const v1::EndsComparison& comparison, const Style& style);
std::string TextOf(const v1::SizeChoice& choice, const Style& style);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_ESTIMATE_H_
