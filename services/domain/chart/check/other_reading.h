// Charts that were given in the wrong convention, or with black and white exchanged.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_OTHER_READING_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_OTHER_READING_H_

#include <cstdint>
#include <optional>
#include <span>

#include "services/domain/chart/check/findings.h"

namespace rowproof::chart {

// Readings, in the order in which they are tried; the first that is certain is offered:
//   kOtherConvention         the same cells, read as the other convention: set cells are colour B
//                            instead of drops, or drops instead of colour B
//   kMarksOfOtherConvention  the same marks, one row apart: what was read as drops are the
//                            off-colour cells of a picture (or off-colour cells are drops)
//   kColoursSwapped          set and unset cells exchanged (in a picture black is then colour A)
inline constexpr FindingCode kOtherReadings[] = {FindingCode::kOtherConvention,
                                                 FindingCode::kMarksOfOtherConvention,
                                                 FindingCode::kColoursSwapped};

// A chart of fewer stitches or rows says too little about how it was meant.
inline constexpr int kFewestStitchesToJudge = 3;
inline constexpr int kFewestRowsToJudge = 3;

// The design read so; bands, sizes and colours stay. `reading` is one of kOtherReadings, the
// colours do not go beyond A and B.
Design InReading(const Design& design, FindingCode reading);

// Another reading is certain if the chart as given has a cell error (no-anchor, drop-over-drop,
// uncovered-top-row) in at least half of its stitches, and in the other reading none in any size.
// So a few slips never suffice: a picture read as a working chart has no anchor in all of row 2;
// marks one row too high leave the last row uncovered. A picture that may be a working chart is
// judged by the stitches with a set cell, if at least three of them fail: plain stitches fail in
// neither reading, however many there are around a motif. `faulty` has the chart's stitches with
// such an error, 64 to a word. None for a chart of more than two colours.
std::optional<FindingCode> CertainReading(const Design& design, std::span<const uint64_t> faulty);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_OTHER_READING_H_
