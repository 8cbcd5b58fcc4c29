// Chart files between proto, domain and images. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CHART_FILE_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CHART_FILE_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/chart_file.pb.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/usecases/charts/export_chart.h"
#include "services/usecases/charts/read_design.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT with the field below "file"; the file's bytes remain in the message.
absl::StatusOr<usecases::DesignFile> FromProto(const v1::ChartFile& file);
// The design that a file makes, without anything beyond the chart.
v1::ImportedChart ToProto(const usecases::DesignFile& file, images::ImportedChart imported);

// INVALID_ARGUMENT: format, cell_scale, colours[2].
absl::StatusOr<usecases::ExportSettings> FromProto(const v1::ExportChartRequest& request);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CHART_FILE_H_
