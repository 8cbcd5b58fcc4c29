// A full-size drawing searched for the bands that a designer would repeat.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPEATS_REPEAT_FINDER_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPEATS_REPEAT_FINDER_H_

#include <cstdint>
#include <optional>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

inline constexpr int kMostRepeatAnswers = 100;

struct RepeatOptions {
  // Answers to return, 1 to kMostRepeatAnswers; the true number is returned as well.
  int most_answers = 10;
  // Also row bands after which RS and WS have changed places: they can be worked, but not written
  // as a repeat (finding `facing-repeat`).
  bool sides_may_change = false;
};

// One way to say the drawing with its repetitions left out.
struct RepeatAnswer {
  // Places in the reduced chart; at least one of the two is there. Without a band its count is 1.
  std::optional<Band> stitch_band;
  std::optional<Band> row_band;
  int stitch_repeats = 1;
  int row_repeats = 1;
  // The drawing with each band once and one size, which gives the drawing back cell by cell.
  Design reduced;
};

struct Repeats {
  std::vector<RepeatAnswer> answers;  // best first
  int64_t count = 0;                  // of all answers
};

// Bands are searched for in the cells as given: a picture's band is a picture's, a working chart's
// a working chart's. Rows are alike if they have the same cells and the same row colour (so that a
// band has an even number of rows in the two-colour alternation, and an explicit order repeats too)
// and, unless `sides_may_change`, the same side of the work.
//
// A band with its repetitions is an answer if it is worked twice at least, is not itself a
// repetition of a smaller band that would do, and has no place with more repetitions in the same
// stretch. A stretch of n bands and some rows (or stitches) more has an answer for each place where
// the band can start; a stretch inside another with a smaller band of its own has its own answers.
// Every answer for the stitches, or none, is combined with every answer for the rows, or none.
//
// Best first:
// 1. the fewest cells to draw, rows times stitches of the reduced chart;
// 2. then the rows by their order, then the stitches by theirs: the fewest to draw, the smallest
//    band, edges of most equal length, the smaller edge below (or at stitch 1).
//
// Time O(rows^2 + stitches^2 + cells / 64 * log rows); thread-safe.
//
// The drawing must be valid (design.h). Errors:
//   INVALID_ARGUMENT  row_band, stitch_band, sizes: the drawing declares a band already, or several
//                     sizes; most_answers out of range
//   the stop's status if the work has to stop
absl::StatusOr<Repeats> FindRepeats(const Design& drawing, const RepeatOptions& options = {},
                                    const Stop& stop = {});

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPEATS_REPEAT_FINDER_H_
