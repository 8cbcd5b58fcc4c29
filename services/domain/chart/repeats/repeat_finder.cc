#include "services/domain/chart/repeats/repeat_finder.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <queue>
#include <string>
#include <tuple>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/bit_copy.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/repeats/periods.h"
#include "services/domain/chart/repeats/transposed.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::chart {
namespace {

// A band in one direction: `edge` lines, the band `repeats` times, the rest. Repeats 1: no band.
struct Fold {
  int length = 0;  // of the drawing
  int edge = 0;
  int band = 0;
  int repeats = 1;

  int drawn() const { return length - (repeats - 1) * band; }
  int rest() const { return length - edge - repeats * band; }
  std::optional<Band> Place() const {
    if (repeats == 1) return std::nullopt;
    return Band{edge + 1, edge + band};
  }
  // Line of the drawing (from 1) for line `line` of the reduced chart.
  int Source(int line) const { return line <= edge + band ? line : line + (repeats - 1) * band; }
  bool operator<(const Fold& other) const {
    const auto rank = [](const Fold& fold) {
      return std::tuple(fold.drawn(), fold.band, std::abs(fold.edge - fold.rest()), fold.edge);
    };
    return rank(*this) < rank(other);
  }
};

// Best first; the last is the whole without a band.
std::vector<Fold> FoldsOf(const std::vector<int>& letters, const Stop& stop) {
  const int length = static_cast<int>(letters.size());
  std::vector<Fold> folds;
  for (const Repetition& repetition : Repetitions(letters, stop)) {
    const int stretch = repetition.last - repetition.first + 1;
    if (stop.After(stretch % repetition.period)) break;
    for (int more = 0; more <= stretch % repetition.period; ++more) {
      folds.push_back(
          {length, repetition.first - 1 + more, repetition.period, stretch / repetition.period});
    }
  }
  std::sort(folds.begin(), folds.end());
  folds.push_back({length, 0, 0, 1});
  return folds;
}

// What the cells hold, as grids: the cells themselves or, if cells name colours, the colours'
// bits.
std::vector<Grid> Planes(const Design& drawing, const Stop& stop) {
  if (!NamesColours(drawing)) return {drawing.cells};
  constexpr unsigned kBits = 3;
  static_assert(kMostColours <= 1U << kBits);
  std::vector<Grid> planes(kBits, Grid(drawing.cells.rows(), drawing.cells.stitches()));
  for (int row = 1; row <= drawing.cells.rows(); ++row) {
    if (stop.After(drawing.cells.stitches())) break;
    for (int stitch = 1; stitch <= drawing.cells.stitches(); ++stitch) {
      const auto colour =
          static_cast<unsigned>(drawing.picture_colours[PictureCell(drawing, row, stitch)]);
      for (unsigned bit = 0; bit < kBits; ++bit) {
        if ((colour >> bit & 1) != 0) planes[bit].set(row, stitch, true);
      }
    }
  }
  return planes;
}

// One number for each line, equal for equal lines. `add` adds what counts besides the cells.
template <typename Add>
std::vector<int> LettersOf(const std::vector<Grid>& planes, const Stop& stop, Add add) {
  std::map<std::vector<uint64_t>, int> known;
  std::vector<int> letters;
  for (int line = 1; line <= planes.front().rows(); ++line) {
    if (stop.After(4 * planes.front().words_per_row())) break;
    std::vector<uint64_t> content;
    for (const Grid& plane : planes) {
      const auto words = plane.row(line);
      content.insert(content.end(), words.begin(), words.end());
    }
    add(line, content);
    const int next = static_cast<int>(known.size());
    letters.push_back(known.emplace(std::move(content), next).first->second);
  }
  return letters;
}

std::vector<int> RowLetters(const Design& drawing, const std::vector<Grid>& planes,
                            bool sides_may_change, const Stop& stop) {
  const int period = sides_may_change ? 1 : FacingPeriod(drawing);
  return LettersOf(planes, stop, [&](int row, std::vector<uint64_t>& content) {
    content.push_back(static_cast<uint64_t>(RowColour(drawing, row)));
    content.push_back(static_cast<uint64_t>((row - 1) * WorkedRows(drawing) % period));
  });
}

std::vector<int> StitchLetters(const std::vector<Grid>& planes, const Stop& stop) {
  std::vector<Grid> columns;
  for (const Grid& plane : planes) columns.push_back(Transposed(plane));
  return LettersOf(columns, stop, [](int, std::vector<uint64_t>&) {});
}

RepeatAnswer AnswerOf(const Design& drawing, const Fold& rows, const Fold& stitches) {
  RepeatAnswer answer;
  answer.row_band = rows.Place();
  answer.stitch_band = stitches.Place();
  answer.row_repeats = rows.repeats;
  answer.stitch_repeats = stitches.repeats;
  Design& reduced = answer.reduced;
  reduced = drawing;
  reduced.cells = Grid(rows.drawn(), stitches.drawn());
  reduced.row_colours.clear();
  reduced.picture_colours.clear();
  reduced.row_band = answer.row_band;
  reduced.stitch_band = answer.stitch_band;
  reduced.sizes = {{drawing.sizes.front().name, answer.stitch_repeats, answer.row_repeats}};
  const auto head = static_cast<size_t>(stitches.edge + stitches.band);
  const size_t tail = static_cast<size_t>(stitches.drawn()) - head;
  for (int row = 1; row <= rows.drawn(); ++row) {
    const int from = rows.Source(row);
    if (!drawing.row_colours.empty()) {
      reduced.row_colours.push_back(drawing.row_colours[static_cast<size_t>(from - 1)]);
    }
    const auto cells = drawing.cells.row(from);
    const auto target = reduced.cells.mutable_row(row);
    CopyBits(cells, 0, head, target, 0);
    CopyBits(cells, static_cast<size_t>(stitches.length) - tail, tail, target, head);
    if (!NamesColours(drawing)) continue;
    for (int stitch = 1; stitch <= stitches.drawn(); ++stitch) {
      reduced.picture_colours.push_back(
          drawing.picture_colours[PictureCell(drawing, from, stitches.Source(stitch))]);
    }
  }
  return answer;
}

absl::Status RequireDrawing(const Design& drawing, const RepeatOptions& options) {
  if (options.most_answers < 1 || options.most_answers > kMostRepeatAnswers) {
    return InvalidField("max_answer_count", std::to_string(options.most_answers),
                        fmt::format("a whole number from 1 to {}", kMostRepeatAnswers));
  }
  const auto refuse = [](const char* field, const std::optional<Band>& band) {
    return InvalidField(field, fmt::format("{} to {}", band->first, band->last),
                        "unset: repeats are looked for in a drawing of the whole size");
  };
  if (drawing.row_band.has_value()) return refuse("row_band", drawing.row_band);
  if (drawing.stitch_band.has_value()) return refuse("stitch_band", drawing.stitch_band);
  if (drawing.sizes.size() != 1) {
    return InvalidField("sizes", fmt::format("{} sizes", drawing.sizes.size()),
                        "one size, drawn whole");
  }
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<Repeats> FindRepeats(const Design& drawing, const RepeatOptions& options,
                                    const Stop& stop) {
  RETURN_IF_ERROR(RequireDrawing(drawing, options));
  const std::vector<Grid> planes = Planes(drawing, stop);
  const std::vector<Fold> rows =
      FoldsOf(RowLetters(drawing, planes, options.sides_may_change, stop), stop);
  const std::vector<Fold> stitches = FoldsOf(StitchLetters(planes, stop), stop);
  RETURN_IF_ERROR(stop.status());
  Repeats repeats;
  // All pairs but the one without any band.
  repeats.count = static_cast<int64_t>(rows.size()) * static_cast<int64_t>(stitches.size()) - 1;

  // Both lists ascend in what there is to draw, so that a pair is never better than the pair with
  // the row fold or the stitch fold before it: the best not yet taken is one of those waiting.
  using Pair = std::tuple<int64_t, size_t, size_t>;  // cells to draw, index of rows, of stitches
  std::priority_queue<Pair, std::vector<Pair>, std::greater<>> waiting;
  const auto wait = [&](size_t row, size_t stitch) {
    if (row >= rows.size() || stitch >= stitches.size()) return;
    if (row + 1 == rows.size() && stitch + 1 == stitches.size()) return;
    waiting.emplace(int64_t{rows[row].drawn()} * stitches[stitch].drawn(), row, stitch);
  };
  wait(0, 0);
  while (!waiting.empty() && repeats.answers.size() < static_cast<size_t>(options.most_answers)) {
    const auto [cells, row, stitch] = waiting.top();
    waiting.pop();
    // An answer holds a chart of its own.
    if (stop.After(cells / 64 + rows[row].drawn())) return stop.status();
    if (NamesColours(drawing) && stop.After(cells)) return stop.status();
    repeats.answers.push_back(AnswerOf(drawing, rows[row], stitches[stitch]));
    // Each pair has one pair that brings it: the next row fold comes with the first stitch fold.
    if (stitch == 0) wait(row + 1, 0);
    wait(row, stitch + 1);
  }
  return repeats;
}

}  // namespace rowproof::chart
