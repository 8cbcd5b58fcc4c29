// What the yarn colours A to H look like, and the textures that distinguish them without colour.
#ifndef ROWPROOF_SERVICES_DRAWING_PALETTE_H_
#define ROWPROOF_SERVICES_DRAWING_PALETTE_H_

#include <cairo.h>

#include <array>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/paper.h"

namespace rowproof::drawing {

// One look for each yarn colour, A first.
using Palette = std::array<Rgb, chart::kMostColours>;

inline constexpr Rgb kInk{0.08, 0.09, 0.12};
inline constexpr Rgb kWhite{1, 1, 1};
// Lines and words of repeated bands.
inline constexpr Rgb kRepeat{0.70, 0.10, 0.10};

// Index of a colour in a Palette.
inline size_t IndexOf(chart::Colour colour) { return static_cast<size_t>(colour); }
// "A" to "H".
std::string LetterOf(size_t colour);
// "colour A", "colour A, Oat".
std::string NameOf(size_t colour, const DrawingRequest& request);

// The colours that the request gives, the drawing's own for the rest.
Palette PaletteOf(const DrawingRequest& request);
// Pale backgrounds against which a working chart's dark marks are clear.
const Palette& Tints();

// Perceived lightness by the weights of ITU-R BT.709, from 0 to 1 (parts not
// linearised: two colours are compared as a photocopier sees them).
double Lightness(const Rgb& colour);
// Black or white, whichever is clearer.
Rgb Contrasting(const Rgb& ground);
// `share` of `other` in `colour`, from 0 to 1.
Rgb Mixed(const Rgb& colour, const Rgb& other, double share);

// Lightnesses closer than this look alike on a photocopy.
inline constexpr double kLeastLightnessApart = 0.25;
// Whether tone alone does not distinguish the colours: more than two, or two that look alike.
bool NeedTexture(const std::vector<size_t>& colours, const Palette& palette);
// Adds the lines of a colour's texture in one square cell to the path, to be
// stroked. A has none; B to H have one of their own: rising, falling, level,
// upright, crossed, plus and square.
void AddTexture(cairo_t* cr, size_t colour, double x, double y, double cell);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_PALETTE_H_
