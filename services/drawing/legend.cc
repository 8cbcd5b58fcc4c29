#include "services/drawing/legend.h"

#include <utility>

#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

// Swatches take this much of the width, in em.
constexpr double kSwatches = 3.4;
constexpr double kBetween = 0.3;

}  // namespace

void Legend::Add(const std::string& text, Swatch swatch, int most_lines) {
  TextStyle style;
  style.size = font_;
  style.width = width_ - (swatch ? kSwatches * font_ : 0);
  style.most_lines = most_lines;
  Text set = typesetter_.Set(text, style);
  const double height = set.height() + kBetween * font_;
  entries_.push_back({std::move(swatch), std::move(set), height_});
  height_ += height;
}

void Legend::AddLine(const std::string& text, int most_lines) { Add(text, nullptr, most_lines); }

void Legend::Paint(cairo_t* cr, double x, double y) const {
  for (const Entry& entry : entries_) {
    const double top = y + entry.y;
    if (entry.swatch) entry.swatch(cr, x, top);
    SetColour(cr, kInk);
    entry.text.Draw(cr, x + (entry.swatch ? kSwatches * font_ : 0), top);
  }
}

}  // namespace rowproof::drawing
