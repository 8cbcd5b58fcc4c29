// Which loops a technique's stitches are worked into: what a maker has to know besides the
// stitches' names. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUES_HANDWORK_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUES_HANDWORK_H_

#include <cstdint>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

enum class Loops : uint8_t { kBack, kFront, kBoth };

struct Handwork {
  Loops plain = Loops::kBack;
  Loops drop = Loops::kBoth;
  // How many worked rows below the drop its anchor was worked: two, or three.
  int drop_rows_down = 2;
  // What a drop does with the row between, one clause.
  const char* drop_covers = "";
  // The first and last stitch of a flat row, one clause.
  const char* edges = "";
  // What face 2 shows if the picture is on face 1 only; empty if it is on both.
  const char* face_two = "";
};

const Handwork& HandworkOf(Technique technique);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUES_HANDWORK_H_
