// Lines of a key or caption, each with a small drawing before it.
#ifndef ROWPROOF_SERVICES_DRAWING_LEGEND_H_
#define ROWPROOF_SERVICES_DRAWING_LEGEND_H_

#include <cairo.h>

#include <functional>
#include <string>
#include <vector>

#include "services/drawing/text.h"

namespace rowproof::drawing {

// Set once for a width; painted any number of times. Dies before its typesetter.
class Legend {
 public:
  using Swatch = std::function<void(cairo_t*, double x, double y)>;

  // `font` in user units.
  Legend(const Typesetter& typesetter, double font, double width)
      : typesetter_(typesetter), font_(font), width_(width) {}

  // Side of a square swatch; two of them have room before the words, SwatchPitch() apart.
  double SwatchSide() const { return font_ * 1.15; }
  double SwatchPitch() const { return SwatchSide() * 1.25; }

  // What is longer than `most_lines` is cut.
  void Add(const std::string& text, Swatch swatch, int most_lines = 2);
  // A line without a drawing, over the full width.
  void AddLine(const std::string& text, int most_lines = 3);

  double height() const { return height_; }
  void Paint(cairo_t* cr, double x, double y) const;

 private:
  struct Entry {
    Swatch swatch;
    Text text;
    double y;
  };

  const Typesetter& typesetter_;
  double font_;
  double width_;
  double height_ = 0;
  std::vector<Entry> entries_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_LEGEND_H_
