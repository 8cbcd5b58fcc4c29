// What a design asks of the maker, in words, and what is another between two designs. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_MAKER_CHANGES_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_MAKER_CHANGES_H_

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

enum class MakerAspect : uint8_t {
  kChart,        // what a cell says
  kPlainStitch,  // and its loops
  kDropStitch,   // its loops, and what it covers
  kWorkedRows,   // worked rows a chart row
  kEdges,        // the first and last stitch
  kFacing,       // when the work is turned
  kEnds,         // what becomes of the yarn
  kFaceTwo,      // what the other face shows
};
inline constexpr std::array<MakerAspect, 8> kMakerAspects = {
    MakerAspect::kChart,      MakerAspect::kPlainStitch, MakerAspect::kDropStitch,
    MakerAspect::kWorkedRows, MakerAspect::kEdges,       MakerAspect::kFacing,
    MakerAspect::kEnds,       MakerAspect::kFaceTwo};

const char* Name(MakerAspect aspect);  // "chart", "plain-stitch", ..., "face-2"

// One clause without a capital or a full stop: "sc in the back loop only".
std::string Words(MakerAspect aspect, const Design& design, Terms terms);

struct MakerChange {
  MakerAspect aspect = MakerAspect::kChart;
  std::string was;
  std::string now;
  bool operator==(const MakerChange&) const = default;
};

// The aspects whose words differ, in the order of the enum.
std::vector<MakerChange> ChangesForMaker(const Design& before, const Design& after, Terms terms);

// "Drops: mdc in the front loop of ... (before: ssc under both loops of ...)." With a full stop.
std::string Sentence(const MakerChange& change);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CONVERSION_MAKER_CHANGES_H_
