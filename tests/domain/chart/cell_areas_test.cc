#include "services/domain/chart/cell_areas.h"

#include <gtest/gtest.h>

#include <random>

#include "tests/support/expect_stops.h"

namespace rowproof::chart {
namespace {

Grid CellByCell(const std::vector<CellArea>& areas, int rows, int stitches) {
  Grid cells(rows, stitches);
  for (const CellArea& area : areas) {
    for (int row = area.rows.first; row <= area.rows.last; ++row) {
      for (int stitch = area.stitches.first; stitch <= area.stitches.last; ++stitch) {
        cells.set(row, stitch, true);
      }
    }
  }
  return cells;
}

TEST(CellAreas, AreTheCellsOfEachOfThem) {
  std::mt19937 chance(7);
  const auto within = [&chance](int first, int last) {
    return std::uniform_int_distribution<int>(first, last)(chance);
  };
  for (int i = 0; i < 500; ++i) {
    const int rows = within(1, 20);
    const int stitches = within(1, 90);
    std::vector<CellArea> areas(static_cast<size_t>(within(0, 12)));
    for (CellArea& area : areas) {
      area.rows.first = within(1, rows);
      area.rows.last = within(area.rows.first, rows);
      area.stitches.first = within(1, stitches);
      area.stitches.last = within(area.stitches.first, stitches);
    }
    EXPECT_TRUE(CellsOf(areas, rows, stitches, Stop()) == CellByCell(areas, rows, stitches)) << i;
  }
}

TEST(CellAreas, StopWhenTheyAreTold) {
  const std::vector<CellArea> areas(100, CellArea{{1, kMostRows}, {1, kMostStitches}});
  ExpectStops(300, [&areas](const Stop& stop) {
    CellsOf(areas, kMostRows, kMostStitches, stop);
    return stop.status();
  });
}

}  // namespace
}  // namespace rowproof::chart
