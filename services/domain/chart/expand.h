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
  std::vector<Colour> row_colours;  // one a row, bottom first
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

// Which side of face 1 is towards the maker in an expanded row (from 1): one-face and overlay
// always RS; two-face RS in odd rows; paired RS in rows 1-2 of every four; tube always RS.
Side SideOfRow(const Design& design, int row);

// The edge at which an expanded row starts: true where it starts at stitch 1 (right-handed: every
// RS row; a left-handed maker starts at the other edge).
bool StartsAtStitchOne(const Design& design, int row, Hand hand);

// drops(r+1, s) = picture(r, s) != colour(r); and back. Row colours one a row.
Grid DropsFromPicture(const Grid& picture, const std::vector<Colour>& row_colours);
Grid PictureFromDrops(const Grid& drops, const std::vector<Colour>& row_colours);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_EXPAND_H_
