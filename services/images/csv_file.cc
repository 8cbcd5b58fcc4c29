#include <algorithm>
#include <cstddef>
#include <string>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/images/chart_file.h"
#include "services/images/refusal.h"
#include "services/images/two_tone_picture.h"

namespace rowproof::images {
namespace {

constexpr char kAccepted[] =
    "lines of A and B, or of . and x, with a comma between cells in every line, or in none";

absl::Status Refuse(int line, size_t column, const std::string& met) {
  return Refusal("csv", fmt::format("line {}, column {}: {}", line, column, met), kAccepted);
}

// Cells are of the pair A and B, or of the pair . and x.
enum class Letters : uint8_t { kUnknown, kColours, kStitches };

Letters LettersOf(char c) {
  switch (c) {
    case 'A':
    case 'a':
    case 'B':
    case 'b':
      return Letters::kColours;
    case '.':
    case 'x':
    case 'X':
      return Letters::kStitches;
    default:
      return Letters::kUnknown;
  }
}

bool IsSet(char c) { return c == 'B' || c == 'b' || c == 'x' || c == 'X'; }

// The lines of a file, one after the other, without their ends.
class Lines {
 public:
  explicit Lines(std::string_view text) : rest_(text) {}
  std::string_view Next() {
    const size_t end = rest_.find('\n');
    std::string_view line = rest_.substr(0, end);
    if (end == std::string_view::npos) {
      rest_ = {};
      return line;
    }
    rest_.remove_prefix(end + 1);
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
  }

 private:
  std::string_view rest_;
};

std::string_view WithoutMarkAndEmptyEnd(std::string_view text) {
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  while (text.ends_with('\n')) {
    text.remove_suffix(1);
    if (text.ends_with('\r')) text.remove_suffix(1);
  }
  return text;
}

// Reads one line after the other into a picture; its first line settles width, separator and
// letters.
class CsvReader {
 public:
  CsvReader(TwoTonePicture* picture, bool commas) : picture_(picture), commas_(commas) {}

  absl::Status Read(std::string_view line, int y) {
    if (line.empty()) return Refuse(y + 1, 1, "an empty line was met");
    const size_t step = commas_ ? 2 : 1;
    int x = 0;
    for (size_t i = 0; i < line.size(); ++i) {
      if (i % step == 1) {
        if (line[i] != ',') return Unexpected(line[i], y, i);
        if (i + 1 == line.size()) return Refuse(y + 1, i + 2, "an empty cell was met");
        continue;
      }
      const Letters letters = LettersOf(line[i]);
      if (letters == Letters::kUnknown) return Unexpected(line[i], y, i);
      if (letters_ == Letters::kUnknown) letters_ = letters;
      if (letters != letters_) {
        return Refuse(y + 1, i + 1,
                      fmt::format("{} was met in a file whose cells are {}", Shown(line[i]),
                                  letters_ == Letters::kColours ? "A and B" : ". and x"));
      }
      if (x == picture_->width()) {
        return Refuse(y + 1, i + 1,
                      fmt::format("more cells were met than the {} of line 1", picture_->width()));
      }
      picture_->set(x++, y, IsSet(line[i]));
    }
    if (x == picture_->width()) return absl::OkStatus();
    return Refuse(y + 1, line.size() + 1,
                  fmt::format("the end of the line was met after {} cells, where line 1 has {}", x,
                              picture_->width()));
  }

 private:
  absl::Status Unexpected(char c, int y, size_t i) const {
    if (commas_ && c == ',') return Refuse(y + 1, i + 1, "an empty cell was met");
    return Refuse(y + 1, i + 1, fmt::format("{} was met", Shown(c)));
  }

  TwoTonePicture* picture_;
  bool commas_;
  Letters letters_ = Letters::kUnknown;
};

}  // namespace

absl::StatusOr<ImportedChart> ImportCsv(std::string_view bytes, const ImportSettings& settings) {
  if (auto status = CheckSettings(settings); !status.ok()) return status;
  if (auto status = CheckFileBytes("csv", bytes.size()); !status.ok()) return status;
  const std::string_view text = WithoutMarkAndEmptyEnd(bytes);
  if (text.empty()) return Refuse(1, 1, "no cell was met");

  const std::string_view first = Lines(text).Next();
  const bool commas = first.find(',') != std::string_view::npos;
  // An empty first line is refused when it is read.
  const size_t width = std::max(commas ? (first.size() + 1) / 2 : first.size(), size_t{1});
  const auto height = static_cast<size_t>(std::count(text.begin(), text.end(), '\n')) + 1;
  if (auto status = CheckDimensions("csv", width, height); !status.ok()) return status;

  TwoTonePicture picture(static_cast<int>(width), static_cast<int>(height));
  CsvReader reader(&picture, commas);
  Lines lines(text);
  for (int y = 0; y < picture.height(); ++y) {
    if (auto status = reader.Read(lines.Next(), y); !status.ok()) return status;
  }
  auto chart = ChartOf(picture, ScaleRule::kOne, settings, "csv");
  if (!chart.ok()) return chart;
  chart->format = "CSV";
  return chart;
}

std::string ExportCsv(const chart::Grid& cells, CsvLetters letters) {
  ROWPROOF_CHECK(!cells.empty());
  const bool colours = letters == CsvLetters::kColours;
  const char unset = colours ? 'A' : '.';
  const char set = colours ? 'B' : 'x';
  std::string out;
  for (int row = cells.rows(); row >= 1; --row) {
    for (int stitch = cells.stitches(); stitch >= 1; --stitch) {
      out += cells.at(row, stitch) ? set : unset;
      out += stitch > 1 ? ',' : '\n';
    }
  }
  return out;
}

}  // namespace rowproof::images
