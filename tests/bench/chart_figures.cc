#include "tests/bench/chart_figures.h"

#include <cstdint>
#include <stdexcept>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/estimate/calibration/calibration.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/rows/writing/writer.h"
#include "tests/bench/sample_charts.h"

namespace rowproof::bench {
namespace {

constexpr double kUsInAMs = 1000;

void Demand(bool held, const char* what) {
  if (!held) throw std::runtime_error(what);
}

// A pass that is too short for the clock is timed in hundreds.
constexpr int kPasses = 100;
// Of a check of a workable chart of two colours.
constexpr char kCheckBound[] = "at most 10";
// Whatever a pass counts, so that it is not left out by the compiler.
volatile int64_t counted = 0;

Figure OverBits(const std::string& name, int runs, const chart::Grid& cells,
                const std::function<void()>& work, const std::string& bound = "") {
  const Pair pair = Interleaved(runs, work, [&] {
    for (int pass = 0; pass < kPasses; ++pass) counted = CountBits(cells);
  });
  return {name, pair.value_us, "us", pair.floor_us / kPasses, bound};
}

Figure RowsOf(const std::string& name, const chart::Design& design) {
  constexpr int kRuns = 3;
  const Pair pair = Interleaved(
      kRuns, [&] { Demand(rows::WriteRows(design).ok(), "the rows cannot be written"); },
      [&] { counted = ReadCells(design.cells); });
  return {name, pair.value_us / kUsInAMs, "ms", pair.floor_us / kUsInAMs, ""};
}

}  // namespace

Figure MeasureCheck() {
  const chart::Design design = RandomDesign(1000, 1000, 1);
  return OverBits(
      "check-1000x1000", 101, design.cells,
      [&] { Demand(chart::Check(design).workable(), "the chart is not workable"); }, kCheckBound);
}

Figure MeasureCheckCarried() {
  chart::Design design = LongRunsDesign(1000, 1000);
  design.ends = chart::Ends::kCarried;
  return OverBits(
      "check-carried-1000x1000", 101, design.cells,
      [&] {
        const auto result = chart::Check(design);
        Demand(result.workable() && result.warning_count > 50'000, "the runs are not found");
      },
      kCheckBound);
}

Figure MeasureCheckOverlay() {
  chart::Design design = LongRunsDesign(1000, 1000);
  design.technique = chart::Technique::kOverlay;
  return OverBits(
      "check-overlay-1000x1000", 101, design.cells,
      [&] { Demand(chart::Check(design).workable(), "the chart is not workable"); }, kCheckBound);
}

Figure MeasureCheckInset() {
  chart::Design design = RandomDesign(1000, 1000, 1);
  design.technique = chart::Technique::kInset;
  design.ends = chart::Ends::kWaiting;
  return OverBits(
      "check-inset-1000x1000", 101, design.cells,
      [&] {
        const auto result = chart::Check(design);
        Demand(result.workable() && result.warning_count > 1'000, "the runs are not found");
      },
      kCheckBound);
}

Figure MeasureRepair() {
  const chart::Design design = RandomCells(1000, 1000, 2);
  return OverBits(
      "repair-1000x1000", 21, design.cells,
      [&] {
        const auto repair = chart::FindRepair(design);
        Demand(repair.ok() && repair->optimal && repair->edit_count > 100'000,
               "too little is mended");
      },
      "at most 250");
}

Figure MeasureEstimate(const std::string& name, chart::Technique technique, bool calibrated) {
  chart::Design design = MotifDesign(400, 300);
  design.technique = technique;
  design.stitch_band = chart::Band{101, 136};
  design.row_band = chart::Band{101, 140};
  design.sizes.clear();
  for (int size = 1; size <= 6; ++size) {
    design.sizes.push_back({"size " + std::to_string(size), size, size});
  }
  estimate::Materials materials = SampleMaterials();
  if (calibrated) {
    estimate::Use(estimate::Calibrate({}).value(), "calibrations/bench/revisions/1",
                  estimate::CalibrationScope{technique, design.facing, design.ends, 4}, materials);
  }
  return OverBits(name, 101, design.cells, [&] {
    const auto sizes = estimate::EstimateSizes(design, materials);
    Demand(sizes.ok() && sizes->size() == design.sizes.size(), "the sizes cannot be estimated");
  });
}

Figure MeasureRowsOfAMotif() { return RowsOf("rows-motif-300x400", EdgedMotifDesign(400, 300)); }

Figure MeasureRowsOfRandomCells() {
  return RowsOf("rows-random-300x400", RandomDesign(400, 300, 3));
}

}  // namespace rowproof::bench
