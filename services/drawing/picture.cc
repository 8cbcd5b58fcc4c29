#include "services/drawing/picture.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

// A legend narrower than this has lines of a few words.
constexpr double kLeastWidth = 44;  // em

}  // namespace

Picture::Picture(const Typesetter& typesetter, const std::string& title, const std::string& heading,
                 PictureBody body, double font, const MakeLegend& legend)
    : body_(std::move(body)),
      font_(font),
      margin_(1.5 * font),
      inner_(std::max(body_.width, kLeastWidth * font)),
      legend_(legend(inner_)) {
  TextStyle style;
  style.size = 1.6 * font;
  style.bold = true;
  style.width = inner_;
  style.most_lines = 2;
  title_ = typesetter.Set(title, style);
  title_height_ = title.empty() ? 0 : title_.height() + 0.2 * font;
  style.size = 1.2 * font;
  heading_ = typesetter.Set(heading, style);
  head_ = title_height_ + heading_.height() + 0.7 * font;
  width_ = inner_ + 2 * margin_;
  height_ = margin_ + head_ + body_.height + font + legend_.height() + margin_;
}

void Picture::Paint(cairo_t* cr) const {
  SetColour(cr, kInk);
  if (title_height_ > 0) title_.Draw(cr, margin_, margin_);
  heading_.Draw(cr, margin_, margin_ + title_height_);
  // Whole units, so that cells are sharp in a picture of pixels.
  body_.paint(cr, std::round(margin_ + (inner_ - body_.width) / 2 + body_.left),
              std::round(margin_ + head_ + body_.above));
  legend_.Paint(cr, margin_, margin_ + head_ + body_.height + font_);
}

}  // namespace rowproof::drawing
