// Paints a face of the finished fabric: the strips of its rows with their stitches, and the numbers
// of rows and stitches.
#ifndef ROWPROOF_SERVICES_DRAWING_FACES_PAINTER_H_
#define ROWPROOF_SERVICES_DRAWING_FACES_PAINTER_H_

#include <cairo.h>

#include "services/drawing/charts/page_plan.h"
#include "services/drawing/faces/model.h"
#include "services/drawing/palette.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

inline constexpr double kPaperFont = 7.5;  // points

// Lengths in user units.
struct FaceLook {
  double cell = 12;  // width of a stitch
  double row = 12;   // mean height of a worked row
  double font = 7;
  bool whole_pixels = false;  // strips begin on whole pixels
  Palette colours{};
};

// Whether single stitches are drawn: not if they are too small to be seen or too many for a
// file. Rows then keep their strips, and WS rows a darker tone.
bool ShowsStitches(const FaceModel& model, const FaceLook& look);

// Space for numbers: left of and below the fabric.
double FaceRoomLeft(const FaceModel& model, const FaceLook& look);
double FaceRoomBelow(const FaceLook& look);

// Strips, as rows of a part, and stitches.
ChartPart WholeFace(const FaceModel& model);

// (x, y) is the top left corner of the part of the fabric.
void PaintFace(cairo_t* cr, const Typesetter& typesetter, const FaceModel& model,
               const FaceLook& look, const ChartPart& part, double x, double y);

// One stitch alone in a square, for the caption; `posts` as in the model.
void PaintStitch(cairo_t* cr, bool posts, const Rgb& colour, StitchLook stitch, double x, double y,
                 double side);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_FACES_PAINTER_H_
