#include "services/drawing/charts/request_limits.h"

#include <cmath>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/document.h"

namespace rowproof::drawing {
namespace {

constexpr double kLeastGauge = 1;
constexpr double kMostGauge = 200;
constexpr double kMostGaugeRatio = 10;

// True for no NaN either.
bool Within(double value, double least, double most) { return value >= least && value <= most; }

absl::Status ValidateColours(const DrawingRequest& request) {
  for (const auto& [field, count] : {std::pair{"colours", request.colours.size()},
                                     std::pair{"colour_names", request.names.size()}}) {
    if (count > chart::kMostColours) {
      return InvalidField(field, fmt::format("{}", count),
                          fmt::format("at most {} in number", chart::kMostColours));
    }
  }
  for (size_t i = 0; i < request.colours.size(); ++i) {
    const Rgb& colour = request.colours[i];
    for (const double part : {colour.red, colour.green, colour.blue}) {
      if (Within(part, 0, 1)) continue;
      return InvalidField(fmt::format("colours[{}]", i), fmt::format("{}", part),
                          "red, green and blue between 0 and 1");
    }
  }
  return absl::OkStatus();
}

absl::Status ValidateTexts(const DrawingRequest& request) {
  const auto check = [](const std::string& field, const std::string& text) {
    if (text.size() <= kLongestTitle) return absl::OkStatus();
    return InvalidField(field, fmt::format("{} bytes", text.size()),
                        fmt::format("at most {} bytes long", kLongestTitle));
  };
  for (size_t i = 0; i < request.names.size(); ++i) {
    if (auto status = check(fmt::format("colour_names[{}]", i), request.names[i]); !status.ok()) {
      return status;
    }
  }
  return check("title", request.title);
}

absl::Status ValidateGauge(const DrawnGauge& gauge) {
  for (const auto& [field, value] :
       {std::pair{"gauge.stitches_per_decimetre", gauge.stitches_per_decimetre},
        std::pair{"gauge.rows_per_decimetre", gauge.rows_per_decimetre}}) {
    if (!Within(value, kLeastGauge, kMostGauge)) {
      return InvalidField(field, fmt::format("{}", value),
                          fmt::format("between {} and {}", kLeastGauge, kMostGauge));
    }
  }
  const double ratio = gauge.rows_per_decimetre / gauge.stitches_per_decimetre;
  if (Within(ratio, 1 / kMostGaugeRatio, kMostGaugeRatio)) return absl::OkStatus();
  return InvalidField("gauge", fmt::format("{:.1f} rows a stitch", ratio),
                      fmt::format("in proportion: neither rows nor stitches more than {} times "
                                  "the other",
                                  kMostGaugeRatio));
}

}  // namespace

absl::Status Validate(const DrawingRequest& request) {
  if (auto status = ValidateColours(request); !status.ok()) return status;
  if (auto status = ValidateTexts(request); !status.ok()) return status;
  if (request.cell_pixels.has_value() &&
      (*request.cell_pixels < kLeastCellPixels || *request.cell_pixels > kMostCellPixels)) {
    return InvalidField(
        "cell_size_px", std::to_string(*request.cell_pixels),
        fmt::format("a whole number from {} to {}", kLeastCellPixels, kMostCellPixels));
  }
  if (request.cell_mm.has_value() && !Within(*request.cell_mm, kLeastCellMm, kMostCellMm)) {
    return InvalidField("cell_size_mm", fmt::format("{}", *request.cell_mm),
                        fmt::format("between {} and {} mm", kLeastCellMm, kMostCellMm));
  }
  if (request.gauge.has_value()) {
    if (auto status = ValidateGauge(*request.gauge); !status.ok()) return status;
  }
  if (request.wrong_side_share.has_value() &&
      !Within(*request.wrong_side_share, kLeastWrongSideShare, 1)) {
    return InvalidField("wrong_side_share", fmt::format("{}", *request.wrong_side_share),
                        fmt::format("between {} and 1", kLeastWrongSideShare));
  }
  return ValidateDate("date", request.date);
}

}  // namespace rowproof::drawing
