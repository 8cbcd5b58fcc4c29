#include "services/domain/chart/techniques/handwork.h"

namespace rowproof::chart {
namespace {

constexpr Handwork kSpike = {
    .plain = Loops::kBack,
    .drop = Loops::kBoth,
    .drop_rows_down = 2,
    .drop_covers = "covering the row between on both faces",
    .edges = "the first and last stitch are worked as charted",
    .face_two = "",
};
constexpr Handwork kOverlay = {
    .plain = Loops::kBack,
    .drop = Loops::kFront,
    .drop_rows_down = 2,
    .drop_covers = "in front of the work",
    .edges = "the first and last stitch are always plain, through both loops",
    .face_two = "plain stripes of one row",
};
constexpr Handwork kInset = {
    .plain = Loops::kBoth,
    .drop = Loops::kBoth,
    .drop_rows_down = 3,
    .drop_covers = "in front of the chains",
    .edges = "the first and last stitch are worked in every row",
    .face_two = "stripes of two rows",
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
