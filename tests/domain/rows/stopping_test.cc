// Writing, reading and comparing rows end when they are told to, wherever they are.
#include <gtest/gtest.h>

#include <random>
#include <string>

#include "fmt/format.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/writing/writer.h"
#include "tests/support/expect_stops.h"

namespace rowproof::rows {
namespace {

// Drops at random over every second row, so that no two rows are alike.
chart::Design RandomDrops(int rows, int stitches) {
  std::mt19937_64 random(1);
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(rows, stitches);
  for (int row = 3; row <= rows; row += 2) {
    for (int stitch = 2; stitch < stitches; ++stitch) {
      design.cells.set(row, stitch, random() % 2 == 0);
    }
  }
  return design;
}

std::string TextOf(const chart::Design& design) {
  WriterSettings settings;
  settings.every_row = true;
  const auto written = WriteRows(design, settings);
  std::string text = "Terms: US\n";
  for (const WrittenRow& row : written->rows) text += row.text + "\n";
  return text;
}

TEST(Stopping, EndsTheWritingOfRows) {
  const chart::Design design = RandomDrops(60, 160);
  for (const int depth : {0, 2, 4}) {
    WriterSettings settings;
    settings.nesting_depth = depth;
    ExpectStops(depth == 0 ? 2 : 5,
                [&](const Stop& stop) { return WriteRows(design, settings, stop).status(); });
  }
}

TEST(Stopping, LeavesNothingBehindInWrittenRows) {
  const chart::Design design = RandomDrops(40, 60);
  const auto before = WriteRows(design);
  StopsAtLook signal(1);
  EXPECT_EQ(WriteRows(design, {}, Stop(signal)).status().code(), absl::StatusCode::kCancelled);
  EXPECT_EQ(*WriteRows(design), *before);
}

TEST(Stopping, EndsTheReadingOfRows) {
  const std::string text = TextOf(RandomDrops(320, 200));
  ExpectStops(3, [&](const Stop& stop) { return ReadRows(text, {}, stop).status(); });
}

TEST(Stopping, EndsAComparison) {
  const chart::Design design = RandomDrops(100, 120);
  const std::string text = TextOf(design);
  ExpectStops(5, [&](const Stop& stop) { return CompareRows(design, text, {}, stop).status(); });
  // Of another chart: all rows differ.
  const std::string other = TextOf(RandomDrops(101, 119));
  ExpectStops(5, [&](const Stop& stop) { return CompareRows(design, other, {}, stop).status(); });
}

}  // namespace
}  // namespace rowproof::rows
