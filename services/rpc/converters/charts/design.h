// Charts, designs and written rows between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_DESIGN_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_DESIGN_H_

#include <google/protobuf/repeated_field.h>
#include <google/protobuf/timestamp.pb.h>

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/rows.pb.h"
#include "services/domain/chart/design.h"
#include "services/domain/clock.h"
#include "services/domain/rows/writing/writer.h"
#include "services/usecases/charts/read_design.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT with the field below "design" for a value that cannot be read; the file's bytes
// remain in the message. The stop's status if the work has to stop.
absl::StatusOr<usecases::DesignSource> FromProto(const v1::Design& design, const Stop& stop);
// INVALID_ARGUMENT with the field below `field`.
absl::StatusOr<rows::RowStyle> FromProto(const std::string& field, const v1::RowSettings& settings);
v1::RowSettings ToProto(const rows::RowStyle& style);
// None: unspecified.
absl::StatusOr<std::optional<rows::RepeatStyle>> RepeatsFrom(const std::string& field,
                                                             v1::RepeatStyle style);
// The same, read and validated (usecases::Read).
absl::StatusOr<usecases::ReadDesign> DesignFrom(const v1::Design& design, const Stop& stop);
// The size of this name; the first if it is empty. INVALID_ARGUMENT, field "size".
absl::StatusOr<int> SizeIndex(const chart::Design& design, const std::string& name);

v1::Design ToProto(const chart::Design& design);
v1::Chart ChartToProto(const chart::Design& design);
v1::WrittenRows ToProto(const rows::WrittenPattern& pattern);

v1::Colour ToProto(chart::Colour colour);
absl::StatusOr<chart::Colour> ColourFromProto(const std::string& field, v1::Colour colour);
absl::StatusOr<std::vector<chart::Colour>> RowColoursFromProto(
    const std::string& field, const google::protobuf::RepeatedField<int>& colours);
v1::Side ToProto(chart::Side side);
google::protobuf::Timestamp ToProto(Moment moment);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_DESIGN_H_
