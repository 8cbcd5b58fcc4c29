// How a chart is cut into pages, and the small map that each page carries.
#ifndef ROWPROOF_SERVICES_DRAWING_PAGE_PLAN_H_
#define ROWPROOF_SERVICES_DRAWING_PAGE_PLAN_H_

#include <cairo.h>

#include <string>

#include "services/drawing/chart_painter.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// Pages are numbered in the order of working: page 1 has row 1 and stitch 1,
// the next lie to its left, then above.
struct PagePlan {
  double cell = 0;
  int pages_down = 1;
  int pages_across = 1;
  int rows_per_page = 0;
  int stitches_per_page = 0;
  int pages() const { return pages_down * pages_across; }
};

// A plan with even pages for at most so many rows and stitches on each (2 or
// more).
PagePlan EvenPlan(const ChartModel& model, double cell, int most_rows, int most_stitches);

// The part on page `index` (from 0). Neighbouring parts share one row or
// stitch.
ChartPart PartOf(const PagePlan& plan, const ChartModel& model, int index);

// Where page `index` lies, in words: "column 2 of 3 from the right, row 1 of 2
// from the bottom".
std::string PlaceOf(const PagePlan& plan, int index);
// Which of its cells another page has too: "Its top row is also on page 5,
// ...". Empty for one page.
std::string SharedWith(const PagePlan& plan, int index);

// Room for a page's map, in points.
inline constexpr double kPageMapWidth = 120;
inline constexpr double kPageMapHeight = 34;
// The grid of pages with this page dark, flush with the right end of the room
// at (x, y).
void PaintPageMap(cairo_t* cr, const Typesetter& typesetter, const PagePlan& plan, int index,
                  double x, double y);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_PAGE_PLAN_H_
