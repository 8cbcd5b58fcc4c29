#include "services/drawing/palette.h"

#include <cmath>

#include "fmt/format.h"

namespace rowproof::drawing {
namespace {

// Oat, ink, clay, moss, mist, plum, honey, ash: our own. A and B are as far apart in tone as paper
// allows; the others are also distinguished by their textures.
constexpr Palette kOwn = {{{0.98, 0.95, 0.87},
                           {0.13, 0.24, 0.35},
                           {0.80, 0.42, 0.28},
                           {0.45, 0.56, 0.30},
                           {0.66, 0.82, 0.90},
                           {0.46, 0.18, 0.40},
                           {0.93, 0.75, 0.30},
                           {0.62, 0.62, 0.64}}};
constexpr Palette kTints = {{{1.00, 0.985, 0.94},
                             {0.66, 0.73, 0.80},
                             {0.96, 0.82, 0.74},
                             {0.80, 0.87, 0.70},
                             {0.84, 0.94, 0.99},
                             {0.84, 0.72, 0.82},
                             {0.99, 0.92, 0.68},
                             {0.84, 0.84, 0.86}}};

}  // namespace

std::string LetterOf(size_t colour) { return std::string(1, static_cast<char>('A' + colour)); }

std::string NameOf(size_t colour, const DrawingRequest& request) {
  const std::string name = colour < request.names.size() ? request.names[colour] : "";
  return name.empty() ? fmt::format("colour {}", LetterOf(colour))
                      : fmt::format("colour {}, {}", LetterOf(colour), name);
}

Palette PaletteOf(const DrawingRequest& request) {
  Palette palette = kOwn;
  for (size_t i = 0; i < palette.size() && i < request.colours.size(); ++i) {
    palette[i] = request.colours[i];
  }
  return palette;
}

const Palette& Tints() { return kTints; }

double Lightness(const Rgb& colour) {
  return 0.2126 * colour.red + 0.7152 * colour.green + 0.0722 * colour.blue;
}

Rgb Contrasting(const Rgb& ground) { return Lightness(ground) > 0.5 ? kInk : kWhite; }

Rgb Mixed(const Rgb& colour, const Rgb& other, double share) {
  return {colour.red + (other.red - colour.red) * share,
          colour.green + (other.green - colour.green) * share,
          colour.blue + (other.blue - colour.blue) * share};
}

bool NeedTexture(const std::vector<size_t>& colours, const Palette& palette) {
  if (colours.size() != 2) return colours.size() > 2;
  return std::abs(Lightness(palette[colours[0]]) - Lightness(palette[colours[1]])) <
         kLeastLightnessApart;
}

void AddTexture(cairo_t* cr, size_t colour, double x, double y, double cell) {
  const auto line = [&](double x1, double y1, double x2, double y2) {
    cairo_move_to(cr, x + x1 * cell, y + y1 * cell);
    cairo_line_to(cr, x + x2 * cell, y + y2 * cell);
  };
  switch (colour) {
    case 1:
      return line(0, 1, 1, 0);
    case 2:
      return line(0, 0, 1, 1);
    case 3:
      return line(0, 0.5, 1, 0.5);
    case 4:
      return line(0.5, 0, 0.5, 1);
    case 5:
      line(0.1, 0.1, 0.9, 0.9);
      return line(0.1, 0.9, 0.9, 0.1);
    case 6:
      line(0.5, 0.12, 0.5, 0.88);
      return line(0.12, 0.5, 0.88, 0.5);
    case 7:
      cairo_rectangle(cr, x + 0.22 * cell, y + 0.22 * cell, 0.56 * cell, 0.56 * cell);
      return;
    default:
      return;
  }
}

}  // namespace rowproof::drawing
