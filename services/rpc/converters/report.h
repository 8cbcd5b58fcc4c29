// Reports and errata between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_REPORT_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_REPORT_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/report.pb.h"
#include "services/usecases/reports/read_reports.h"

namespace rowproof::rpc {

// A report on a version of this pattern. INVALID_ARGUMENT with the field below "content" for a
// value that cannot be read; what the values mean is checked by testcalls::Validate.
absl::StatusOr<testcalls::Report> FromProto(const PatternId& pattern,
                                            const v1::ReportContent& content);

v1::ReportContent ToProto(const PatternId& pattern, const testcalls::Report& report);
// Without questions, as lists have it.
v1::Report ToProto(const testcalls::ReportRecord& row);
v1::Report ToProto(const usecases::ReadReport& report);
v1::Erratum ToProto(const faults::ErratumRecord& erratum);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_REPORT_H_
