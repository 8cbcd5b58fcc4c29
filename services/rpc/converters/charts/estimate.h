// Estimates between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_ESTIMATE_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_ESTIMATE_H_

#include <string>
#include <vector>

#include "rowproof/v1/estimate.pb.h"
#include "services/domain/estimate/ends_methods.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/size_choice.h"

namespace rowproof::rpc {

v1::SizeEstimate ToProto(const estimate::SizeEstimate& size);
v1::EndsComparison ToProto(const std::string& size, const std::vector<estimate::EndsMethod>& ways,
                           double minutes_per_end);
v1::SizeChoice ToProto(const estimate::SizeChoice& choice);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_ESTIMATE_H_
