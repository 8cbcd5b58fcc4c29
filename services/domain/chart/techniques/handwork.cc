#include "services/domain/chart/techniques/handwork.h"

namespace rowproof::chart {
namespace {

constexpr Handwork kSpike = {
    .plain = Loops::kBack,
    .drop = Loops::kBoth,
    .drop_rows_down = 2,
    .drop_covers = "covering the row between on both faces",
    .edges = "the first and last stitch are worked as the chart shows them",
    .face_two = "",
};
constexpr Handwork kOverlay = {
    .plain = Loops::kBack,
    .drop = Loops::kFront,
    .drop_rows_down = 2,
    .drop_covers = "in front of the work",
    .edges = "the first and last stitch are plain, through both loops, and never a drop",
    .face_two = "plain stripes, one row a stripe",
};
constexpr Handwork kInset = {
    .plain = Loops::kBoth,
    .drop = Loops::kBoth,
    .drop_rows_down = 3,
    .drop_covers = "in front of the chains",
    .edges = "the first and last stitch are worked in every row, never skipped",
    .face_two = "stripes, two worked rows a stripe",
};

}  // namespace

const Handwork& HandworkOf(Technique technique) {
  switch (technique) {
    case Technique::kSpike:
      return kSpike;
    case Technique::kOverlay:
      return kOverlay;
    case Technique::kInset:
      return kInset;
  }
  return kSpike;
}

}  // namespace rowproof::chart
