#include "services/images/grid_finder.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "fmt/format.h"
#include "services/images/axis_fit.h"
#include "services/images/cell_size.h"
#include "services/images/line_runs.h"

namespace rowproof::images {
namespace {

// Over all trials of one picture, each of which looks at every pixel about once.
constexpr int64_t kMostPixelsLookedAt = 4'000'000'000;
constexpr int kSoftestEdge = 2;
constexpr size_t kMostFitsTried = 10;  // of one colour of lines

constexpr size_t kMostCells = size_t{chart::kMostRows} * chart::kMostStitches;
constexpr char kUncertain[] =
    "the lines and the surroundings have the colour of cells, so that the chart's edge is not "
    "certain";

// The most frequent colours that are apart by more than the tolerance: those of the cells, of lines
// of two kinds, of the margin and of its numbers.
std::vector<Rgb> FrequentColours(const Picture& picture, const Region& region,
                                 const ImportSettings& settings) {
  PixelCounts counts(picture.palette().size(), 0);
  picture.Count(region, &counts);
  const size_t most = CountOfLetters(settings) + 4;
  std::vector<Rgb> frequent;
  for (const size_t number : ByFrequency(picture.palette(), counts)) {
    if (frequent.size() == most) break;
    const Rgb colour = picture.palette()[number];
    if (std::all_of(frequent.begin(), frequent.end(),
                    [&](Rgb other) { return Distance(colour, other) > settings.tolerance; })) {
      frequent.push_back(colour);
    }
  }
  return frequent;
}

// Single colours first, then pairs.
std::vector<std::vector<Rgb>> LineColours(const std::vector<Rgb>& frequent) {
  std::vector<std::vector<Rgb>> sets;
  for (const Rgb colour : frequent) sets.push_back({colour});
  for (size_t i = 0; i < frequent.size(); ++i) {
    for (size_t j = i + 1; j < frequent.size(); ++j) sets.push_back({frequent[i], frequent[j]});
  }
  return sets;
}

std::vector<uint8_t> NumbersNear(const std::vector<Rgb>& palette, const std::vector<Rgb>& colours,
                                 int tolerance) {
  std::vector<uint8_t> near(palette.size(), 0);
  for (size_t i = 0; i < palette.size(); ++i) {
    near[i] = std::any_of(colours.begin(), colours.end(),
                          [&](Rgb colour) { return Distance(palette[i], colour) <= tolerance; });
  }
  return near;
}

struct Fit {
  AxisFit x;
  AxisFit y;
  size_t cells() const { return x.cells.size() * y.cells.size(); }
  bool hides_cells() const { return x.hides_cells() || y.hides_cells(); }
  bool operator==(const Fit&) const = default;
};

// Of a place of an axis that is fitted, in units of Stop.
constexpr size_t kPlaceWork = 4;

// Most cells first.
std::vector<Fit> FitsOf(const Picture& picture, const LongestRuns& runs) {
  std::vector<Fit> fits;
  for (const Span upright : SharedRuns(runs.of_columns)) {
    const auto columns = Covering(runs.of_columns, upright);
    for (const Span level : SharedRuns(runs.of_lines)) {
      const auto lines = Covering(runs.of_lines, level);
      for (const LineSpread spread : {LineSpread::kBesideCells, LineSpread::kOverCells}) {
        if (picture.StopAfter(kPlaceWork * (columns.size() + lines.size()))) return fits;
        const auto x = FitAxis(columns, level, spread);
        if (!x.has_value()) continue;
        const auto y = FitAxis(lines, upright, spread);
        const Fit fit{*x, y.value_or(AxisFit{})};
        if (y.has_value() && std::find(fits.begin(), fits.end(), fit) == fits.end()) {
          fits.push_back(fit);
        }
      }
    }
  }
  std::stable_sort(fits.begin(), fits.end(),
                   [](const Fit& one, const Fit& other) { return one.cells() > other.cells(); });
  if (fits.size() > kMostFitsTried) fits.resize(kMostFitsTried);
  return fits;
}

std::vector<Span> Moved(const std::vector<Span>& spans, int by) {
  std::vector<Span> moved;
  moved.reserve(spans.size());
  for (const Span span : spans) moved.push_back({span.begin + by, span.end + by});
  return moved;
}

// One trial: a region, the colours of its lines, and where these seem to be.
class Trial {
 public:
  Trial(const Picture& picture, const Region& region, const ImportSettings& settings,
        const std::vector<Rgb>& line_colours)
      : picture_(picture), region_(region), settings_(settings), line_colours_(line_colours) {}

  // Fills result->found, unless that has more cells, or notes in result->nearly how far it got.
  void Run(const Fit& fit, int soft, GridSearch* result) const {
    std::string failure;
    auto found = ReadAll(fit, soft, &failure);
    if (!found.has_value()) {
      // That all cells were read, but not for certain, says more than how many were not.
      const size_t rank = fit.cells() + (failure == kUncertain ? kMostCells : 0);
      if (rank > result->nearly_rank) {
        result->nearly = Seen(fit) + failure;
        result->nearly_rank = rank;
        result->uncertain = failure == kUncertain;
      }
      return;
    }
    const auto rank = [](const FoundCells& cells) {
      return std::tuple(cells.cells.classes.size(),
                        -static_cast<int>(cells.grid->line_colours.size()),
                        cells.grid->lines_across + cells.grid->lines_up);
    };
    if (!result->found.has_value() || rank(*result->found) < rank(*found)) {
      result->found = std::move(found);
    }
  }

 private:
  std::string Seen(const Fit& fit) const {
    return fmt::format("Lines of colour {} were found every {:.4g} x {:.4g} pixels, but ",
                       Text(line_colours_.front()), fit.x.pitch, fit.y.pitch);
  }

  std::optional<FoundCells> ReadAll(const Fit& fit, int soft, std::string* failure) const {
    auto found = Read(fit, soft, failure);
    if (found.has_value() && LinesAreCells(found->colours) && LieInTheirOwnColour(*found)) {
      *failure = kUncertain;
      return std::nullopt;
    }
    if (found.has_value() && fit.hides_cells() && LinesAreCells(found->colours)) {
      if (!MayFill(fit, found->colours)) {
        *failure = kUncertain;
        return std::nullopt;
      }
      found = Read({WithHiddenCells(fit.x), WithHiddenCells(fit.y)}, soft, failure);
    }
    if (!found.has_value()) return found;
    if (found->colours.taken.size() == 1 && found->used != region_) {
      *failure = "all cells between them have one colour, and there is more around them";
      return std::nullopt;
    }
    if (!HasMoreAround(*found) && !HasCellsBeside(*found)) return found;
    *failure = "there are more around them";
    return std::nullopt;
  }

  std::optional<FoundCells> Read(const Fit& fit, int soft, std::string* failure) const {
    const double narrowest =
        std::min(fit.x.pitch - fit.x.line_width, fit.y.pitch - fit.y.line_width) - 2 * soft;
    if (soft > 0 && narrowest < kNarrowestFoundCell) return std::nullopt;
    FoundCells found;
    const Layout whole{Moved(fit.x.cells, region_.x.begin), Moved(fit.y.cells, region_.y.begin)};
    auto layout = WithoutEdges(whole, soft);
    if (!layout.has_value() || !CheckCellCount(*layout, "content").ok()) return std::nullopt;
    found.layout = *std::move(layout);
    auto colours = FindCellColours(picture_, CountInside(picture_, found.layout), settings_);
    if (!colours.ok()) {
      *failure = "the cells between them have more colours than the chart";
      return std::nullopt;
    }
    found.colours = *std::move(colours);
    if (const auto mixed = ReadCells(picture_, found.layout, found.colours, &found.cells)) {
      *failure = fmt::format("the cell in row {}, stitch {} has the colours {} and {}", mixed->row,
                             mixed->stitch, Text(mixed->one), Text(mixed->other));
      return std::nullopt;
    }
    if (!picture_.stop_status().ok()) return std::nullopt;
    if (soft > 0 && !EdgesAreSoft(whole, found)) return std::nullopt;
    found.used = {Moved({fit.x.used}, region_.x.begin).front(),
                  Moved({fit.y.used}, region_.y.begin).front()};
    found.grid = GridLines{fit.x.pitch,
                           fit.y.pitch,
                           fit.x.line_width,
                           fit.y.line_width,
                           std::max(fit.x.widest_line, fit.y.widest_line),
                           fit.x.line_count,
                           fit.y.line_count,
                           soft,
                           line_colours_,
                           false};
    return found;
  }

  // Whether what is left out along the sides of the cells is a mixture of the cell's and a line's
  // colour, and nothing that could be a cell.
  bool EdgesAreSoft(const Layout& whole, const FoundCells& found) const {
    for (size_t j = 0; j < whole.lines.size(); ++j) {
      if (picture_.StopAfter(region_.x.length() * whole.lines[j].length() / 4)) return false;
      for (size_t i = 0; i < whole.columns.size(); ++i) {
        const Span columns = found.layout.columns[i];
        const Span lines = found.layout.lines[j];
        const Rgb inside = picture_.colour(columns.begin, lines.begin);
        const CellClass cell = found.cells.at(static_cast<int>(j), static_cast<int>(i));
        for (int y = whole.lines[j].begin; y < whole.lines[j].end; ++y) {
          for (int x = whole.columns[i].begin; x < whole.columns[i].end; ++x) {
            if (y >= lines.begin && y < lines.end && x == columns.begin) x = columns.end;
            if (x == whole.columns[i].end) break;
            const size_t number = picture_.at(x, y);
            const CellClass edge = found.colours.class_of[number];
            if (edge != cell &&
                (edge != kNoClass || !IsMixture(picture_.palette()[number], inside))) {
              return false;
            }
          }
        }
      }
    }
    return true;
  }
  bool IsMixture(Rgb colour, Rgb inside) const {
    const auto between = [this](int value, int one, int other) {
      return value >= std::min(one, other) - settings_.tolerance &&
             value <= std::max(one, other) + settings_.tolerance;
    };
    return std::any_of(line_colours_.begin(), line_colours_.end(), [&](Rgb line) {
      return between(colour.red, line.red, inside.red) &&
             between(colour.green, line.green, inside.green) &&
             between(colour.blue, line.blue, inside.blue);
    });
  }

  std::optional<CellClass> ClassOfLines(const CellColours& colours) const {
    for (const TakenColour& taken : colours.taken) {
      for (const Rgb line : line_colours_) {
        if (Distance(taken.colour, line) <= settings_.tolerance) {
          return static_cast<CellClass>(taken.taken_for);
        }
      }
    }
    return std::nullopt;
  }
  bool LinesAreCells(const CellColours& colours) const { return ClassOfLines(colours).has_value(); }
  // A ground is hardly ever dark: what is dark, and just so large as whole cells, is cells.
  bool MayFill(const Fit& fit, const CellColours& colours) const {
    return fit.x.fills() && fit.y.fills() && ClassOfLines(colours) != CellClass{0};
  }

  // Colours of what is cut away, by number.
  PixelCounts CountAround(const FoundCells& found) const {
    PixelCounts inside(picture_.palette().size(), 0);
    PixelCounts around(picture_.palette().size(), 0);
    picture_.Count(found.used, &inside);
    picture_.Count(region_, &around);
    for (size_t i = 0; i < around.size(); ++i) around[i] -= inside[i];
    return around;
  }

  // Whether the ground around has the colour of the lines.
  bool LieInTheirOwnColour(const FoundCells& found) const {
    const std::vector<size_t> sorted = ByFrequency(picture_.palette(), CountAround(found));
    return !sorted.empty() && IsLineColour(picture_.palette()[sorted.front()]) &&
           ClassOfLines(found.colours) == CellClass{0};
  }
  bool IsLineColour(Rgb colour) const {
    return std::any_of(line_colours_.begin(), line_colours_.end(),
                       [&](Rgb line) { return Distance(colour, line) <= settings_.tolerance; });
  }

  // Whether next to a side there is much of the cells' colours, other than the ground's.
  bool HasCellsBeside(const FoundCells& found) const {
    const Region& used = found.used;
    const int across = static_cast<int>(found.grid->pitch_x);
    const int up = static_cast<int>(found.grid->pitch_y);
    const std::vector<size_t> sorted = ByFrequency(picture_.palette(), CountAround(found));
    if (sorted.empty()) return false;
    const Rgb ground = picture_.palette()[sorted.front()];
    const Span left{std::max(used.x.begin - across, region_.x.begin), used.x.begin};
    const Span right{used.x.end, std::min(used.x.end + across, region_.x.end)};
    const Span above{std::max(used.y.begin - up, region_.y.begin), used.y.begin};
    const Span below{used.y.end, std::min(used.y.end + up, region_.y.end)};
    return IsMuch({left, used.y}, found.colours, ground) ||
           IsMuch({right, used.y}, found.colours, ground) ||
           IsMuch({used.x, above}, found.colours, ground) ||
           IsMuch({used.x, below}, found.colours, ground);
  }
  bool IsMuch(const Region& strip, const CellColours& colours, Rgb ground) const {
    constexpr int64_t kOfStrip = 4;
    PixelCounts counts(picture_.palette().size(), 0);
    picture_.Count(strip, &counts);
    int64_t all = 0;
    int64_t of_cells = 0;
    for (size_t i = 0; i < counts.size(); ++i) {
      all += counts[i];
      if (colours.class_of[i] == kNoClass) continue;
      if (Distance(picture_.palette()[i], ground) > settings_.tolerance) of_cells += counts[i];
    }
    return kOfStrip * of_cells > all;
  }

  // Whether what is cut away is more than a ground with some numbers: further cells, perhaps behind
  // lines of another colour.
  bool HasMoreAround(const FoundCells& found) const {
    constexpr int64_t kOfGround = 3;
    constexpr int64_t kOfLines = 2;
    PixelCounts inside(picture_.palette().size(), 0);
    picture_.Count(found.used, &inside);
    const PixelCounts around = CountAround(found);
    const std::vector<size_t> sorted = ByFrequency(picture_.palette(), around);
    if (sorted.empty()) return false;
    const auto is_ground =
        NumbersNear(picture_.palette(), {picture_.palette()[sorted.front()]}, settings_.tolerance);
    const auto is_line = NumbersNear(picture_.palette(), line_colours_, settings_.tolerance);
    int64_t all = 0;
    int64_t other = 0;
    int64_t lines_around = 0;
    int64_t lines_inside = 0;
    for (size_t i = 0; i < around.size(); ++i) {
      all += around[i];
      if (is_ground[i] == 0) other += around[i];
      if (is_line[i] == 0) continue;
      lines_inside += inside[i];
      if (is_ground[i] == 0) lines_around += around[i];
    }
    return kOfGround * other > all || kOfLines * lines_around > lines_inside;
  }

  const Picture& picture_;
  const Region& region_;
  const ImportSettings& settings_;
  const std::vector<Rgb>& line_colours_;
};

// Pixels that are not of the ground, along each line and each column of a region.
struct Profile {
  std::vector<int> columns;
  std::vector<int> lines;
};

Profile ProfileOf(const Picture& picture, const Region& region,
                  const std::vector<uint8_t>& is_ground) {
  Profile profile;
  profile.columns.assign(static_cast<size_t>(region.x.length()), 0);
  std::vector<uint16_t> line(profile.columns.size());
  for (int y = region.y.begin; y < region.y.end; ++y) {
    if (picture.StopAfter(line.size() / 2)) break;
    picture.CopyLine(y, region.x, line.data());
    int count = 0;
    for (size_t i = 0; i < line.size(); ++i) {
      const int other = is_ground[line[i]] != 0 ? 0 : 1;
      count += other;
      profile.columns[i] += other;
    }
    profile.lines.push_back(count);
  }
  return profile;
}

// From the first to the last place that has at least half of the most.
Span WhereMostIs(const std::vector<int>& profile) {
  const int most = *std::max_element(profile.begin(), profile.end());
  Span where{0, 0};
  for (int i = 0; i < static_cast<int>(profile.size()); ++i) {
    if (2 * profile[static_cast<size_t>(i)] < most) continue;
    if (where.end == 0) where.begin = i;
    where.end = i + 1;
  }
  return where;
}

}  // namespace

GridSearch FindGridLines(const Picture& picture, const Region& region,
                         const ImportSettings& settings) {
  GridSearch result;
  // Soft edges are thought of only if there is no explanation without.
  std::vector<std::pair<std::vector<Rgb>, std::vector<Fit>>> trials;
  const int64_t pixels = int64_t{region.x.length()} * region.y.length();
  int64_t passes = kMostPixelsLookedAt / pixels;
  for (auto& colours : LineColours(FrequentColours(picture, region, settings))) {
    if (--passes < 0 || !picture.stop_status().ok()) break;
    const auto is_line = NumbersNear(picture.palette(), colours, settings.tolerance);
    auto fits = FitsOf(picture, FindLongestRuns(picture, region, is_line));
    const Trial trial(picture, region, settings, colours);
    for (const Fit& fit : fits) {
      if (--passes >= 0) trial.Run(fit, 0, &result);
    }
    if (result.found.has_value() && result.found->used == region) return result;
    if (!fits.empty()) trials.emplace_back(std::move(colours), std::move(fits));
  }
  for (int soft = 1; soft <= kSoftestEdge && !result.found.has_value(); ++soft) {
    for (const auto& [colours, fits] : trials) {
      const Trial trial(picture, region, settings, colours);
      for (const Fit& fit : fits) {
        if (--passes >= 0) trial.Run(fit, soft, &result);
      }
    }
  }
  return result;
}

GridSearch FindMargins(const Picture& picture, const Region& region,
                       const ImportSettings& settings) {
  GridSearch result;
  const Rgb ground = picture.colour(region.x.begin, region.y.begin);
  for (const auto& [x, y] :
       {std::pair(region.x.end - 1, region.y.begin), std::pair(region.x.begin, region.y.end - 1),
        std::pair(region.x.end - 1, region.y.end - 1)}) {
    if (Distance(picture.colour(x, y), ground) > settings.tolerance) return result;
  }
  const auto is_ground = NumbersNear(picture.palette(), {ground}, settings.tolerance);
  const Profile profile = ProfileOf(picture, region, is_ground);
  if (!picture.stop_status().ok()) return result;
  const Span columns = WhereMostIs(profile.columns);
  const Span lines = WhereMostIs(profile.lines);
  FoundCells found;
  found.used = {{region.x.begin + columns.begin, region.x.begin + columns.end},
                {region.y.begin + lines.begin, region.y.begin + lines.end}};
  if (found.used.x.length() == 0 || found.used == region) return result;
  PixelCounts counts(picture.palette().size(), 0);
  picture.Count(found.used, &counts);
  // A cell of the background's colour at the edge could not be distinguished from the margin.
  for (size_t i = 0; i < counts.size(); ++i) {
    if (is_ground[i] != 0 && counts[i] > 0) return result;
  }
  auto colours = FindCellColours(picture, counts, settings);
  if (!colours.ok()) return result;
  found.colours = *std::move(colours);
  const Changes changes = FindChanges(picture, found.used, found.colours);
  const CellSize size = FindCellSize(changes, found.used);
  if (changes.empty() || std::min(size.width, size.height) < kNarrowestFoundCell) return result;
  found.cell_width = size.width;
  found.cell_height = size.height;
  found.certain = size.certain;
  found.layout = TouchingCells(found.used, size.width, size.height);
  if (!CheckCellCount(found.layout, "content").ok()) return result;
  if (ReadCells(picture, found.layout, found.colours, &found.cells).has_value() ||
      !picture.stop_status().ok()) {
    return result;
  }
  result.found = std::move(found);
  return result;
}

}  // namespace rowproof::images
