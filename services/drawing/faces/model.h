// What one face of the finished fabric shows, stitch by stitch, worked row by worked row.
//
// Rules: a drop covers the stitch of the row below. A spike covers it on both faces; the double
// crochet of overlay and inset is in front of it, on face 1 only, so that face 2 shows plain
// stripes (inset: of two rows, with the chains that bridge the skipped stitches).
#ifndef ROWPROOF_SERVICES_DRAWING_FACES_MODEL_H_
#define ROWPROOF_SERVICES_DRAWING_FACES_MODEL_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/drawing/charts/drawing.h"

namespace rowproof::drawing {

enum class StitchLook : uint8_t {
  kFront,      // worked with this face towards the maker
  kBack,       // worked with the other face towards the maker
  kDropFront,  // the top of a drop, likewise
  kDropBack,
  kLegs,   // a stitch covered by the drop of the row above: the drop's lower part
  kChain,  // a chain over a skipped stitch
};

// One worked row as a strip of the fabric.
struct FaceStrip {
  int number = 0;  // as the written rows number it
  chart::Side side = chart::Side::kRightSide;
  bool front = true;        // this face was towards the maker
  bool free_loops = false;  // the row above leaves a loop of each plain stitch lying on this face
  double height = 1;        // in row pitches of the gauge; the strips' sum is their number
};

// Immutable after Make.
struct FaceModel {
  int face = 1;
  chart::Technique technique = chart::Technique::kSpike;
  chart::Facing facing = chart::Facing::kTwoFace;
  bool tube = false;
  bool posts = false;     // drops are double crochets: one thick post, not two strands
  bool squeezed = false;  // WS and RS rows do not show alike (two-face)
  double wrong_side_share = 1;
  int stitches = 0;
  // The first strip is row 0, the foundation of worked stitches that the chart declares. Its side
  // is that of the row before row 1 in the facing's order (assumption: charts do not say).
  bool foundation = false;
  std::vector<FaceStrip> strips;  // bottom first
  // By strip from the bottom, stitch 1 first.
  std::vector<uint8_t> colours;
  std::vector<StitchLook> looks;
  std::string size_shown;  // name of the size that is written out; empty: bands once
  bool has_bands = false;
  // Cells in which face 1 cannot be as the picture names it.
  int64_t unlike_picture = 0;

  size_t At(int strip, int stitch) const {
    return static_cast<size_t>(strip - 1) * static_cast<size_t>(stitches) +
           static_cast<size_t>(stitch - 1);
  }
  int rows() const { return static_cast<int>(strips.size()); }
  // Heights of the lowest 0, 1, ... all strips together, in row pitches.
  std::vector<double> Heights() const;

  // Face 1 or 2 of a valid design, whose size, if one is asked for, exists.
  static FaceModel Make(const chart::Design& design, const DrawingRequest& request,
                        const Stop& stop = {});
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_FACES_MODEL_H_
