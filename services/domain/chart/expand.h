// One size of a design with its bands repeated, as working rows: the form that the written rows,
// the estimate and the faces are made from.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_EXPAND_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_EXPAND_H_

#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

struct ExpandedSize {
  // A set cell is a drop. An off-colour cell in a picture's last row has no row to be worked in and
  // is left out (Check reports it).
  Grid drops;
  std::vector<Colour> row_colours;  // one for each row, bottom first
  // Chart row and stitch (from 1) of each expanded row and stitch; index 0 is row or stitch 1.
  std::vector<int> chart_row;
  std::vector<int> chart_stitch;
};

// Rows and stitches of one size after its bands are repeated. `size` indexes design.sizes.
int ExpandedRows(const Design& design, int size);
int ExpandedStitches(const Design& design, int size);

// The design must be valid. The size is expanded in the convention in which the chart was given,
// then converted; with the alternation the colours follow the expanded row's number.
ExpandedSize Expand(const Design& design, int size);

// Worked rows a chart row: 2 for inset (RS, then WS), else 1. Worked row k belongs to the expanded
// chart row (k - 1) / WorkedRows + 1.
int WorkedRows(const Design& design);
inline int ChartRowOfWorkedRow(const Design& design, int worked_row) {
  return (worked_row - 1) / WorkedRows(design) + 1;
}

// The row of the chart as drawn (from 1) that each worked row of a size works; index 0 is worked
// row 1. In inset each chart row occurs twice in succession. And the chart's stitch that each
// stitch of the size is. Neither looks at the cells.
std::vector<int> ChartRowsAsWorked(const Design& design, int size);
std::vector<int> ChartStitchesAsWorked(const Design& design, int size);

// Which side of face 1 is towards the maker in a worked row (from 1): one-face and overlay always
// RS; two-face and inset RS in odd rows; paired RS in rows 1-2 of every four; tube always RS.
Side SideOfWorkedRow(const Design& design, int worked_row);

// The edge at which a worked row starts: true if it starts at stitch 1 (right-handed: every RS
// row; a left-handed maker starts at the other edge).
bool WorkedRowStartsAtStitchOne(const Design& design, int worked_row, Hand hand);

// The edge where the yarn is after a worked row: true at stitch 1. A tube's round ends at its join,
// where it started.
bool YarnEndsAtStitchOne(const Design& design, int worked_row, Hand hand);

// The same for the first worked row of an expanded chart row (from 1).
Side SideOfRow(const Design& design, int row);
bool StartsAtStitchOne(const Design& design, int row, Hand hand);

// drops(r+1, s) = picture(r, s) != colour(r); and back. One row colour for each row, A and B only,
// a set cell of the picture is B.
Grid DropsFromPicture(const Grid& picture, const std::vector<Colour>& row_colours);
Grid PictureFromDrops(const Grid& drops, const std::vector<Colour>& row_colours);

// The picture of any colours, row by row from row 1, stitch 1 first (one byte per cell).
std::vector<Colour> PictureColours(const Grid& drops, const std::vector<Colour>& row_colours);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_EXPAND_H_
