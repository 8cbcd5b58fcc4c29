// How a chart or a face is cut into pages, and the small map that each page carries.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_PAGE_PLAN_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_PAGE_PLAN_H_

#include <cairo.h>

#include <functional>
#include <string>

#include "services/drawing/flow.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// Rows and stitches first..last, from 1, both inclusive.
struct ChartPart {
  int first_row = 1;
  int last_row = 1;
  int first_stitch = 1;
  int last_stitch = 1;
  int rows() const { return last_row - first_row + 1; }
  int stitches() const { return last_stitch - first_stitch + 1; }
};

// Pages are numbered in the order of working: page 1 has row 1 and stitch 1, the next are beside
// it, then above.
struct PagePlan {
  int rows = 0;  // of all
  int stitches = 0;
  double cell = 0;
  bool stitch_one_left = false;  // as face 2 is seen; else at the right
  int pages_down = 1;
  int pages_across = 1;
  int rows_per_page = 0;
  int stitches_per_page = 0;
  int pages() const { return pages_down * pages_across; }
};

// A plan with even pages for at most so many rows and stitches on each (2 or
// more).
PagePlan EvenPlan(int rows, int stitches, double cell, int most_rows, int most_stitches);

// The part on page `index` (from 0). Neighbouring parts share one row or
// stitch.
ChartPart PartOf(const PagePlan& plan, int index);

// Where page `index` is, in words: "column 2 of 3 from the right, row 1 of 2 from the bottom".
std::string PlaceOf(const PagePlan& plan, int index);
// Which of its cells another page has too: "Its top row is also on page 5,
// ...". Empty for one page.
std::string SharedWith(const PagePlan& plan, int index);

// The numbers of all pages over a picture of the whole, whose top left corner
// is (x, y): a box around each page's part. `height_to` is the height of rows
// 1..n.
void PaintPageNumbers(cairo_t* cr, const Typesetter& typesetter, const PagePlan& plan, double x,
                      double y, double stitch_width,
                      const std::function<double(int rows)>& height_to);

// The lines and the small map above a part, `heading` the first of them.
void AddPartHeading(Flow& flow, const PagePlan& plan, int index, const std::string& heading);

// Room for a page's map, in points.
inline constexpr double kPageMapWidth = 120;
inline constexpr double kPageMapHeight = 34;
inline constexpr double kPartHeading = kPageMapHeight + 6;  // with the lines next to it
// The grid of pages with this page dark, flush with the right end of the room
// at (x, y).
void PaintPageMap(cairo_t* cr, const Typesetter& typesetter, const PagePlan& plan, int index,
                  double x, double y);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_PAGE_PLAN_H_
