#include "services/images/two_tone_picture.h"

#include <algorithm>
#include <bit>
#include <numeric>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

// The first change that lies inside a cell, or 0.
int ChangeInsideACell(const std::vector<int>& changes, int scale) {
  const auto found = std::find_if(changes.begin(), changes.end(),
                                  [scale](int place) { return place % scale != 0; });
  return found == changes.end() ? 0 : *found;
}

absl::Status CheckGivenScale(const TwoTonePicture& picture, int scale) {
  if (picture.width() % scale != 0 || picture.height() % scale != 0) {
    return Refusal("cell_scale",
                   fmt::format("{} pixels a cell were given for a picture of {} x {} pixels", scale,
                               picture.width(), picture.height()),
                   "a scale that divides both sides");
  }
  const int column = ChangeInsideACell(picture.ChangingColumns(), scale);
  const int line = ChangeInsideACell(picture.ChangingLines(), scale);
  if (column == 0 && line == 0) return absl::OkStatus();
  const std::string place = column != 0 ? fmt::format("columns {} and {}", column, column + 1)
                                        : fmt::format("lines {} and {}", line, line + 1);
  return Refusal("cell_scale",
                 fmt::format("{} pixels a cell were given, but the colour changes inside a cell, "
                             "between the picture's {} (from the top left)",
                             scale, place),
                 "a scale at which every cell is of one colour");
}

// The greatest scale at which all changes fall between cells; 0 where the picture has one tone.
int GreatestScale(const TwoTonePicture& picture) {
  const std::vector<int> columns = picture.ChangingColumns();
  const std::vector<int> lines = picture.ChangingLines();
  if (columns.empty() && lines.empty()) return 0;
  int scale = std::gcd(picture.width(), picture.height());
  for (const int column : columns) scale = std::gcd(scale, column);
  for (const int line : lines) scale = std::gcd(scale, line);
  return scale;
}

chart::Grid CellsOf(const TwoTonePicture& picture, int scale, bool swap) {
  chart::Grid cells(picture.height() / scale, picture.width() / scale);
  for (int row = 1; row <= cells.rows(); ++row) {
    const int y = (cells.rows() - row) * scale;
    for (int stitch = 1; stitch <= cells.stitches(); ++stitch) {
      if (picture.at((cells.stitches() - stitch) * scale, y) != swap) cells.set(row, stitch, true);
    }
  }
  return cells;
}

bool AllSet(const chart::Grid& cells, int row) {
  const auto words = cells.row(row);
  return std::all_of(words.begin(), words.end() - 1, [](uint64_t word) { return ~word == 0; }) &&
         words.back() == cells.last_word_mask();
}

}  // namespace

TwoTonePicture::TwoTonePicture(int width, int height)
    : width_(width), height_(height), words_per_line_(static_cast<size_t>(width + 63) / 64) {
  ROWPROOF_CHECK(width >= 1 && width <= kMostPixelsAcross);
  ROWPROOF_CHECK(height >= 1 && height <= kMostPixelsAcross);
  words_.assign(static_cast<size_t>(height) * words_per_line_, 0);
}

int64_t TwoTonePicture::CountSet() const {
  int64_t count = 0;
  for (const uint64_t word : words_) count += std::popcount(word);
  return count;
}

void TwoTonePicture::Recode(bool zero, bool one) {
  const uint64_t flip = zero ? ~uint64_t{0} : 0;
  const uint64_t keep = zero != one ? ~uint64_t{0} : 0;
  const int used = width_ % 64;
  const uint64_t last = used == 0 ? ~uint64_t{0} : (uint64_t{1} << used) - 1;
  for (size_t i = 0; i < words_.size(); ++i) {
    words_[i] = (words_[i] & keep) ^ flip;
    if ((i + 1) % words_per_line_ == 0) words_[i] &= last;
  }
}

std::vector<int> TwoTonePicture::ChangingColumns() const {
  std::vector<uint64_t> changing(words_per_line_, 0);
  for (size_t line = 0; line < words_.size(); line += words_per_line_) {
    uint64_t carried = 0;
    for (size_t i = 0; i < words_per_line_; ++i) {
      const uint64_t word = words_[line + i];
      changing[i] |= word ^ (word << 1 | carried);
      carried = word >> 63;
    }
  }
  std::vector<int> columns;
  for (int x = 1; x < width_; ++x) {
    if ((changing[static_cast<size_t>(x) / 64] >> (x % 64) & 1) != 0) columns.push_back(x);
  }
  return columns;
}

std::vector<int> TwoTonePicture::ChangingLines() const {
  std::vector<int> lines;
  for (int y = 1; y < height_; ++y) {
    const auto line = words_.begin() + static_cast<std::ptrdiff_t>(Index(0, y));
    const auto length = static_cast<std::ptrdiff_t>(words_per_line_);
    if (!std::equal(line, line + length, line - length)) lines.push_back(y);
  }
  return lines;
}

absl::StatusOr<ImportedChart> ChartOf(const TwoTonePicture& picture, ScaleRule rule,
                                      const ImportSettings& settings, const std::string& field) {
  ImportedChart chart;
  if (settings.cell_scale.has_value()) {
    chart.cell_scale = *settings.cell_scale;
    if (auto status = CheckGivenScale(picture, chart.cell_scale); !status.ok()) return status;
  } else if (rule == ScaleRule::kFound) {
    const int found = GreatestScale(picture);
    chart.cell_scale = std::max(found, 1);
    chart.cell_scale_certain = found != 0;
  }
  const int rows = picture.height() / chart.cell_scale;
  const int stitches = picture.width() / chart.cell_scale;
  if (rows > chart::kMostRows || stitches > chart::kMostStitches) {
    return Refusal(field,
                   fmt::format("a chart of {} rows and {} stitches was met, at {} pixels a cell",
                               rows, stitches, chart.cell_scale),
                   fmt::format("at most {} rows and {} stitches; a cell scale may be given",
                               chart::kMostRows, chart::kMostStitches));
  }
  chart.cells = CellsOf(picture, chart.cell_scale, settings.swap_colours);
  chart.swap_colours_offered =
      settings.convention == chart::Convention::kPicture && AllSet(chart.cells, 1);
  return chart;
}

absl::Status CheckSettings(const ImportSettings& settings) {
  if (settings.tolerance < 0 || settings.tolerance > 255) {
    return InvalidField("tolerance", fmt::format("{}", settings.tolerance),
                        "0 to 255, the steps of a colour channel");
  }
  if (settings.cell_scale.has_value() &&
      (*settings.cell_scale < 1 || *settings.cell_scale > kLargestCellScale)) {
    return InvalidField("cell_scale", fmt::format("{}", *settings.cell_scale),
                        fmt::format("1 to {} pixels a cell", kLargestCellScale));
  }
  if (settings.colour_a.has_value() && settings.colour_a == settings.colour_b) {
    return InvalidField("colour_b", Text(*settings.colour_b), "a colour other than colour A");
  }
  return absl::OkStatus();
}

}  // namespace rowproof::images
