#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/domain/sheets/words.h"
#include "services/usecases/sheets/sheets.h"

namespace rowproof::usecases {
namespace {

// The factor by which testers' pieces correct an estimated width or height: exp of mu's posterior
// median, the middle of what new makers get.
std::optional<double> CorrectionOf(const ReleaseBasis& basis, reconcile::Quantity which) {
  if (!basis.reconciliation.has_value()) return std::nullopt;
  for (const reconcile::QuantityResult& quantity : basis.reconciliation->result.quantities) {
    if (quantity.quantity != which || quantity.used == 0) continue;
    return std::exp(quantity.mu.median);
  }
  return std::nullopt;
}

// A size that testers measured needs no note.
void AddBasis(const char* what, const std::optional<double>& correction,
              std::vector<std::string>& notes) {
  if (correction.has_value()) return;
  notes.push_back(fmt::format("{}: estimated from the gauge.", what));
}

}  // namespace

void AddSizes(const ReleaseBasis& basis, drawing::PatternSheet& sheet) {
  const bool tube = basis.version.content.design.form == chart::Form::kTube;
  const auto width = CorrectionOf(basis, reconcile::Quantity::kWidth);
  const auto height = CorrectionOf(basis, reconcile::Quantity::kHeight);
  for (const estimate::SizeEstimate& size : basis.version.row.estimates) {
    const estimate::Extent& extent =
        size.after_blocking.has_value() ? *size.after_blocking : size.before_blocking;
    const double width_mm = extent.width_mm * width.value_or(1);
    const double height_mm = extent.height_mm * height.value_or(1);
    sheet.sizes.push_back(
        {size.size, fmt::format("{} sts x {} {}", size.stitches, size.rows, tube ? "rnds" : "rows"),
         fmt::format("{} x {} cm", sheets::Centimetres(width_mm), sheets::Centimetres(height_mm)),
         fmt::format("{} x {} in", sheets::Inches(width_mm), sheets::Inches(height_mm))});
  }
  AddBasis(tube ? "Circumference" : "Width", width, sheet.size_notes);
  AddBasis(tube ? "Length" : "Height", height, sheet.size_notes);
}

}  // namespace rowproof::usecases
