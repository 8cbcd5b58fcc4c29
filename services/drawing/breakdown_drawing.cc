#include "services/drawing/breakdown_drawing.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "fmt/format.h"
#include "services/drawing/document.h"
#include "services/drawing/palette.h"
#include "services/drawing/text.h"
#include "services/quantities/units.h"

namespace rowproof::drawing {
namespace {

using estimate::YarnColour;

constexpr Rgb kFaint{0.72, 0.74, 0.78};
constexpr Rgb kPaper{1, 1, 1};
constexpr double kPngScale = 2;  // pixels a point

constexpr double kMargin = 18;
constexpr double kFont = 9;
constexpr double kNameWidth = 62;
constexpr double kBarsWidth = 270;
constexpr double kLabelWidth = 170;
constexpr double kBarHeight = 12;
constexpr double kBarStep = 16;
constexpr double kGap = 6;
constexpr double kWidth = 2 * kMargin + kNameWidth + kBarsWidth + kGap + kLabelWidth;

// How a yarn's bars are filled: a grey, lines leaning one way or both.
struct Filling {
  double grey = 1;
  double spacing = 0;  // of the lines; 0: none
  bool leaning = false;
  bool crossed = false;
};

Filling FillingOf(YarnColour colour) {
  switch (colour) {
    case YarnColour::kA:
      return {0.90, 0, false, false};
    case YarnColour::kB:
      return {0.25, 0, false, false};
    case YarnColour::kBorder:
      return {1, 3, true, true};
    case YarnColour::kC:
      return {0.60, 0, false, false};
    case YarnColour::kD:
      return {1, 4, true, false};
    case YarnColour::kE:
      return {0.75, 4, true, false};
    case YarnColour::kF:
      return {1, 2.5, false, false};
    case YarnColour::kG:
      return {0.75, 5, false, false};
    case YarnColour::kH:
      return {0.85, 5, true, true};
  }
  return {};
}

void FillBar(cairo_t* cr, YarnColour colour, double x, double y, double width) {
  const Filling filling = FillingOf(colour);
  cairo_rectangle(cr, x, y, width, kBarHeight);
  SetColour(cr, {filling.grey, filling.grey, filling.grey});
  cairo_fill_preserve(cr);
  cairo_save(cr);
  cairo_clip(cr);
  SetColour(cr, kInk);
  cairo_set_line_width(cr, 0.6);
  const double lean = filling.leaning ? kBarHeight : 0;
  for (double at = -kBarHeight; filling.spacing > 0 && at < width; at += filling.spacing) {
    cairo_move_to(cr, x + at, y + kBarHeight);
    cairo_line_to(cr, x + at + lean, y);
    if (filling.crossed) {
      cairo_move_to(cr, x + at, y);
      cairo_line_to(cr, x + at + lean, y + kBarHeight);
    }
  }
  cairo_stroke(cr);
  cairo_restore(cr);
  cairo_rectangle(cr, x, y, width, kBarHeight);
  SetColour(cr, kInk);
  cairo_set_line_width(cr, 1);  // two whole pixels of a PNG
  cairo_stroke(cr);
}

std::string Lengths(double mm) {
  const double metres = mm / 1000;
  return fmt::format("{:.1f} m ({:.1f} yd)", metres, metres / quantities::kMetresPerYard);
}

// 1, 2 or 5 times a power of ten, so that an axis of `longest` has four to ten of them.
double AxisStep(double longest) {
  const double power = std::pow(10, std::floor(std::log10(longest)));
  for (const double factor : {0.1, 0.2, 0.5, 1.0}) {
    if (longest / (factor * power) <= 10) return factor * power;
  }
  return power;
}

class Breakdown {
 public:
  Breakdown(const Typesetter& typesetter, const estimate::SizeEstimate& estimate)
      : typesetter_(typesetter), estimate_(estimate) {
    for (const auto& colour : estimate.colours) {
      for (const auto& part : colour.parts)
        longest_m_ = std::max(longest_m_, part.length_mm / 1000);
      bars_ += colour.parts.size();
    }
    longest_m_ = std::max(longest_m_, 1e-3);
    body_ = static_cast<double>(bars_) * kBarStep +
            static_cast<double>(estimate.colours.size()) * (kBarStep + kGap);
  }

  double height() const { return kMargin + kTitle + body_ + kAxis + kMargin; }

  void Paint(cairo_t* cr) const {
    SetColour(cr, kPaper);
    cairo_paint(cr);
    Write(cr, fmt::format("Yarn of size \"{}\" by part", estimate_.size), kMargin, kMargin, 13,
          true, kWidth - 2 * kMargin, Align::kLeft);
    PaintAxis(cr);
    double y = kMargin + kTitle;
    for (const auto& colour : estimate_.colours) y = PaintColour(cr, colour, y);
  }

 private:
  static constexpr double kTitle = 24;
  static constexpr double kAxis = 30;

  void Write(cairo_t* cr, const std::string& text, double x, double y, double size, bool bold,
             double width, Align align) const {
    TextStyle style;
    style.size = size;
    style.bold = bold;
    style.width = width;
    style.align = align;
    style.most_lines = 1;
    const Text set = typesetter_.Set(text, style);
    if (align == Align::kLeft) {  // no line of the axis runs through it
      SetColour(cr, kPaper);
      cairo_rectangle(cr, x - 2, y, set.width() + 4, set.height());
      cairo_fill(cr);
    }
    SetColour(cr, kInk);
    set.Draw(cr, x, y);
  }

  double X(double metres) const { return kMargin + kNameWidth + metres / longest_m_ * kBarsWidth; }

  void PaintAxis(cairo_t* cr) const {
    const double top = kMargin + kTitle;
    const double bottom = top + body_;
    const double step = AxisStep(longest_m_);
    cairo_set_line_width(cr, 0.5);
    for (int mark = 0; mark * step <= longest_m_ * (1 + 1e-9); ++mark) {
      const double x = X(mark * step);
      SetColour(cr, mark == 0 ? kInk : kFaint);
      cairo_move_to(cr, x, top);
      cairo_line_to(cr, x, bottom);
      cairo_stroke(cr);
      Write(cr, fmt::format("{:g}", mark * step), x - 25, bottom + 2, 8, false, 50, Align::kCentre);
    }
    Write(cr, "metres", kMargin + kNameWidth, bottom + 14, 8, false, kBarsWidth, Align::kCentre);
  }

  double PaintColour(cairo_t* cr, const estimate::ColourEstimate& colour, double y) const {
    Write(cr, fmt::format("Yarn {}: {}", estimate::Name(colour.colour), Lengths(colour.length_mm)),
          kMargin, y, kFont, true, kWidth - 2 * kMargin, Align::kLeft);
    y += kBarStep;
    for (const auto& part : colour.parts) {
      const double width = std::max(X(part.length_mm / 1000) - X(0), 0.5);
      const double text_y = y + (kBarHeight - 1.3 * kFont) / 2;
      Write(cr, estimate::Name(part.part), kMargin, text_y, kFont, false, kNameWidth - kGap,
            Align::kRight);
      FillBar(cr, colour.colour, X(0), y, width);
      Write(cr, fmt::format("{}, {:.1f} %", Lengths(part.length_mm), 100 * part.share),
            X(0) + width + kGap, text_y, kFont, false, kLabelWidth, Align::kLeft);
      y += kBarStep;
    }
    return y + kGap;
  }

  const Typesetter& typesetter_;
  const estimate::SizeEstimate& estimate_;
  size_t bars_ = 0;
  double longest_m_ = 0;
  double body_ = 0;
};

}  // namespace

absl::StatusOr<std::string> BreakdownSvg(const estimate::SizeEstimate& estimate) {
  auto typesetter = Typesetter::Open();
  if (!typesetter.ok()) return typesetter.status();
  const Breakdown breakdown(*typesetter, estimate);
  return WriteSvg(*typesetter, kWidth, breakdown.height(),
                  [&](cairo_t* cr) { breakdown.Paint(cr); });
}

absl::StatusOr<std::string> BreakdownPng(const estimate::SizeEstimate& estimate) {
  auto typesetter = Typesetter::Open();
  if (!typesetter.ok()) return typesetter.status();
  const Breakdown breakdown(*typesetter, estimate);
  return WritePng(*typesetter, static_cast<int>(std::ceil(kPngScale * kWidth)),
                  static_cast<int>(std::ceil(kPngScale * breakdown.height())), [&](cairo_t* cr) {
                    cairo_scale(cr, kPngScale, kPngScale);
                    breakdown.Paint(cr);
                  });
}

}  // namespace rowproof::drawing
