// Designs and materials that several tests of this folder start from. All are invented.
#ifndef ROWPROOF_TESTS_DOMAIN_ESTIMATE_SAMPLE_DESIGNS_H_
#define ROWPROOF_TESTS_DOMAIN_ESTIMATE_SAMPLE_DESIGNS_H_

#include <random>

#include "services/domain/chart/design.h"
#include "services/domain/estimate/estimate.h"

namespace rowproof::estimate {

// w = 5 mm, h = 4 mm, d = 2 mm for all yarns, A to H; no ball bands.
inline Materials RoundMaking() {
  Materials materials;
  materials.yarn_a.wraps_per_inch = 12.7;
  materials.yarn_b.wraps_per_inch = 12.7;
  materials.more_yarns.assign(kMostMoreYarns, materials.yarn_b);
  materials.gauge.stitches_per_decimetre = 20;
  materials.gauge.rows_per_decimetre = 25;
  return materials;
}

// A working chart of 24 stitches and 20 rows: A (odd) rows have four drops each from row 3 on, B
// rows two each from row 4 on.
inline chart::Design TwentyRows() {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(20, 24);
  for (int row = 3; row <= 20; ++row) {
    if (row % 2 == 1) {
      for (const int stitch : {3, 9, 15, 21}) design.cells.set(row, stitch, true);
    } else {
      for (const int stitch : {6, 18}) design.cells.set(row, stitch, true);
    }
  }
  return design;
}

// A well-formed random design of any technique, form and number of colours; not always workable.
chart::Design RandomDesign(std::mt19937& random);

// The length of a part; 0 where the colour or the part is not listed.
inline double LengthOf(const SizeEstimate& estimate, YarnColour colour, PartKind kind) {
  for (const ColourEstimate& yarn : estimate.colours) {
    if (yarn.colour != colour) continue;
    for (const Part& part : yarn.parts) {
      if (part.part == kind) return part.length_mm;
    }
  }
  return 0;
}

inline const ColourEstimate* FindColour(const SizeEstimate& estimate, YarnColour colour) {
  for (const ColourEstimate& yarn : estimate.colours) {
    if (yarn.colour == colour) return &yarn;
  }
  return nullptr;
}

}  // namespace rowproof::estimate

#endif  // ROWPROOF_TESTS_DOMAIN_ESTIMATE_SAMPLE_DESIGNS_H_
