#include <cmath>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "services/usecases/assemble_sheet.h"
#include "services/usecases/sheet_words.h"

namespace rowproof::usecases {
namespace {

// What testers' pieces make of an estimated width or height.
struct Correction {
  double factor = 1;  // exp of mu's posterior median: the middle of what new makers get
  int pieces = 0;     // measured, and not set aside
};

std::optional<Correction> CorrectionOf(const ReleaseGround& ground, reconcile::Quantity which) {
  if (!ground.reconciliation.has_value()) return std::nullopt;
  for (const reconcile::QuantityResult& quantity : ground.reconciliation->result.quantities) {
    if (quantity.quantity != which || quantity.used == 0) continue;
    return Correction{std::exp(quantity.mu.median), quantity.used};
  }
  return std::nullopt;
}

std::string Basis(const char* what, const std::optional<Correction>& correction) {
  if (!correction.has_value()) {
    return fmt::format("{}: estimated from the gauge; no tester's piece was measured.", what);
  }
  return fmt::format("{}: the estimate corrected by {} ({:+.1f} %).", what,
                     correction->pieces == 1
                         ? std::string("one tester's measured piece")
                         : fmt::format("{} testers' measured pieces", correction->pieces),
                     100 * (correction->factor - 1));
}

}  // namespace

void AddSizes(const ReleaseGround& ground, drawing::PatternSheet& sheet) {
  const bool tube = ground.version.content.design.form == chart::Form::kTube;
  const auto width = CorrectionOf(ground, reconcile::Quantity::kWidth);
  const auto height = CorrectionOf(ground, reconcile::Quantity::kHeight);
  for (const estimate::SizeEstimate& size : ground.version.row.estimates) {
    const estimate::Extent& extent =
        size.after_blocking.has_value() ? *size.after_blocking : size.before_blocking;
    const double width_mm = extent.width_mm * width.value_or(Correction()).factor;
    const double height_mm = extent.height_mm * height.value_or(Correction()).factor;
    sheet.sizes.push_back(
        {size.size, fmt::format("{} sts x {} {}", size.stitches, size.rows, tube ? "rnds" : "rows"),
         fmt::format("{} x {} cm", Centimetres(width_mm), Centimetres(height_mm)),
         fmt::format("{} x {} in", Inches(width_mm), Inches(height_mm))});
  }
  sheet.size_notes = {Basis(tube ? "Circumference" : "Width", width),
                      Basis(tube ? "Length" : "Height", height)};
}

}  // namespace rowproof::usecases
