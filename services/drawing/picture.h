// One picture of everything: title and heading above, a body, a legend below, a margin around.
#ifndef ROWPROOF_SERVICES_DRAWING_PICTURE_H_
#define ROWPROOF_SERVICES_DRAWING_PICTURE_H_

#include <cairo.h>

#include <functional>
#include <string>

#include "services/drawing/legend.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// What the picture is of: its cells with room for labels around them.
struct PictureBody {
  double left = 0;  // from the body's left edge to the first cell
  double above = 0;
  double width = 0;
  double height = 0;
  // Gets the top left corner of the cells.
  std::function<void(cairo_t*, double x, double y)> paint;
};

class Picture {
 public:
  using MakeLegend = std::function<Legend(double width)>;
  // Lengths in user units. Dies before the typesetter.
  Picture(const Typesetter& typesetter, const std::string& title, const std::string& heading,
          PictureBody body, double font, const MakeLegend& legend);

  double width() const { return width_; }
  double height() const { return height_; }
  void Paint(cairo_t* cr) const;

 private:
  PictureBody body_;
  double font_;
  double margin_;
  double inner_;  // width between the margins
  Legend legend_;
  Text title_;
  Text heading_;
  double title_height_ = 0;
  double head_ = 0;  // height of title and heading
  double width_ = 0;
  double height_ = 0;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_PICTURE_H_
