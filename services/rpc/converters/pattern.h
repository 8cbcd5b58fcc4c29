// Patterns, versions and differences between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_PATTERN_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_PATTERN_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/pattern.pb.h"
#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/pattern.h"
#include "services/usecases/read_version.h"
#include "services/usecases/submit_version.h"

namespace rowproof::rpc {

v1::Pattern ToProto(const patterns::PatternRecord& row);
// Without content, findings and estimates, as lists have it.
v1::Version ToProto(const patterns::VersionRecord& row);
v1::Version ToProto(const usecases::ReadVersion& version, bool swap_colours_offered);
v1::RowDifference ToProto(const patterns::RowDifference& row);
v1::VersionDifference ToProto(const patterns::VersionDifference& difference,
                              const PatternId& pattern, int from, int to);

// Content with its design's source; the file's bytes remain in the message.
absl::StatusOr<usecases::VersionSubmission> FromProto(const v1::VersionContent& content,
                                                      const Stop& stop);

// The number of a version of this pattern; 0: `name` is empty. INVALID_ARGUMENT with `field` for
// anything else, another pattern's version included.
absl::StatusOr<int> VersionOf(const std::string& field, const PatternId& pattern,
                              const std::string& name);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_PATTERN_H_
