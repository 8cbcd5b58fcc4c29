#include "services/rpc/converters/charts/conversion.h"

#include <optional>
#include <string>

#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/estimate.h"
#include "services/rpc/converters/charts/findings.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

// Absent if the request leaves it as it is.
template <typename Enum, typename ProtoEnum>
absl::Status ReadWanted(const std::string& field, ProtoEnum value, int count, const char* accepted,
                        std::optional<Enum>* wanted) {
  if (static_cast<int>(value) == 0) return absl::OkStatus();
  ASSIGN_OR_RETURN(auto read, EnumFrom(field, value, Enum{}, count, accepted));
  *wanted = read;
  return absl::OkStatus();
}

absl::Status ReadTarget(const v1::ConvertChartRequest& request, chart::ConversionTarget* target) {
  RETURN_IF_ERROR(ReadWanted("technique", request.technique(), 3, "spike, overlay or inset",
                             &target->technique));
  RETURN_IF_ERROR(
      ReadWanted("convention", request.convention(), 2, "picture or working", &target->convention));
  RETURN_IF_ERROR(
      ReadWanted("facing", request.facing(), 3, "one-face, two-face or paired", &target->facing));
  return ReadWanted("ends", request.ends(), 3, "cut, carried or waiting", &target->ends);
}

}  // namespace

absl::StatusOr<usecases::ConversionAsked> FromProto(const v1::ConvertChartRequest& request) {
  usecases::ConversionAsked asked;
  RETURN_IF_ERROR(ReadTarget(request, &asked.target));
  ASSIGN_OR_RETURN(auto terms,
                   EnumFrom("terms", request.terms(), chart::Terms::kUs, 2, "US or UK"));
  asked.terms = terms;
  return asked;
}

v1::ConvertedChart ToProto(const usecases::ConvertedChart& converted, const chart::Design& before,
                           const Stop& stop) {
  v1::ConvertedChart to;
  const chart::Conversion& conversion = converted.conversion;
  *to.mutable_design() = ToProto(conversion.design);
  *to.mutable_edits() = ToProto(conversion.edits, before, stop);
  to.set_edit_count(conversion.edit_count);
  for (const auto& change : converted.changes) {
    auto* added = to.add_changes();
    added->set_aspect(EnumTo<v1::MakerAspect>(change.aspect));
    added->set_was(change.was);
    added->set_now(change.now);
    added->set_sentence(chart::Sentence(change));
  }
  to.set_facing_changed(conversion.facing_changed);
  to.set_ends_changed(conversion.ends_changed);
  for (const auto& size : converted.sizes) {
    auto* added = to.add_sizes();
    added->set_size(size.size);
    added->set_stitch_count(size.stitches);
    added->set_row_count_before(size.rows_before);
    added->set_row_count_after(size.rows_after);
    if (size.before.has_value()) *added->mutable_before() = ToProto(*size.before);
    if (size.after.has_value()) *added->mutable_after() = ToProto(*size.after);
  }
  *to.mutable_check() = ToProto(converted.check, conversion.design, chart::kRulesVersion, false);
  return to;
}

}  // namespace rowproof::rpc
