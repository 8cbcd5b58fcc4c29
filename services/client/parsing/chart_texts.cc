#include "services/client/parsing/chart_texts.h"

#include <charconv>
#include <map>

#include "fmt/format.h"
#include "services/client/files.h"

namespace rowproof::client {
namespace {

// More rows than any chart has are refused before they are listed.
constexpr size_t kMostRows = 4000;
constexpr char kRowColours[] =
    "letters A to H from the bottom row, such as ABAC or \"AB*20 C\", 4000 rows at most";

v1::Colour ColourOf(char letter) {
  return letter >= 'A' && letter <= 'H' ? static_cast<v1::Colour>(letter - 'A' + 1)
                                        : v1::COLOUR_UNSPECIFIED;
}

std::vector<std::string_view> SplitAt(std::string_view text, std::string_view separators) {
  std::vector<std::string_view> parts;
  size_t from = 0;
  for (size_t at = 0; at <= text.size(); ++at) {
    if (at < text.size() && separators.find(text[at]) == std::string_view::npos) continue;
    parts.push_back(text.substr(from, at - from));
    from = at + 1;
  }
  return parts;
}

bool ReadPixels(std::string_view text, double* value) {
  if (text.empty() || text.front() < '0' || text.front() > '9') return false;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), *value, std::chars_format::fixed);
  return error == std::errc() && end == text.data() + text.size();
}

// "12" or "12x10".
template <typename Number, typename Read>
bool ReadPair(std::string_view text, Number* x, Number* y, const Read& read) {
  const auto parts = SplitAt(text, "x");
  if (parts.size() > 2 || !read(parts.front(), x)) return false;
  if (parts.size() == 2) return read(parts.back(), y);
  *y = *x;
  return true;
}

// "5", "5-8" or "all".
bool ReadRange(std::string_view text, int* first, int* last) {
  *first = 0;
  *last = 0;
  if (text == "all") return true;
  const auto parts = SplitAt(text, "-");
  if (parts.size() > 2 || !ReadCount(parts.front(), first) || *first < 1) return false;
  *last = *first;
  return parts.size() == 1 || (ReadCount(parts.back(), last) && *last >= *first);
}

}  // namespace

bool ReadCount(std::string_view text, int* value) {
  if (text.empty() || text.front() < '0' || text.front() > '9') return false;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), *value);
  return error == std::errc() && end == text.data() + text.size();
}

std::vector<v1::Colour> RowColoursOf(const std::string& option, std::string_view text) {
  std::vector<v1::Colour> colours;
  for (std::string_view group : SplitAt(text, " ,")) {
    if (group.empty()) continue;
    const size_t star = group.find('*');
    int times = 1;
    const std::string_view letters = group.substr(0, star);
    if (letters.empty() || (star != std::string_view::npos &&
                            (!ReadCount(group.substr(star + 1), &times) || times < 1))) {
      throw MustBe(option, kRowColours, std::string(text));
    }
    if (static_cast<size_t>(times) > kMostRows ||
        colours.size() + letters.size() * static_cast<size_t>(times) > kMostRows) {
      throw MustBe(option, kRowColours, std::string(text));
    }
    for (int n = 0; n < times; ++n) {
      for (const char letter : letters) {
        colours.push_back(ColourOf(letter));
        if (colours.back() == v1::COLOUR_UNSPECIFIED) {
          throw MustBe(option, kRowColours, std::string(text));
        }
      }
    }
  }
  return colours;
}

v1::ColourMeaning MeaningOf(const std::string& option, const std::string& text) {
  v1::ColourMeaning meaning;
  if (text.size() > 2 && text[1] == '=') meaning.set_chart_colour(ColourOf(text[0]));
  if (meaning.chart_colour() == v1::COLOUR_UNSPECIFIED) {
    throw MustBe(option, "LETTER=#rrggbb, such as C=#2f6f4f", text);
  }
  meaning.set_rgb(text.substr(2));
  return meaning;
}

v1::DeclaredGrid GridOf(const std::string& option, const std::string& text) {
  const auto parts = SplitAt(text, "/");
  double pitch_x = 0;
  double pitch_y = 0;
  int width_x = 0;
  int width_y = 0;
  if (parts.size() > 2 || !ReadPair(parts.front(), &pitch_x, &pitch_y, ReadPixels) ||
      (parts.size() == 2 && !ReadPair(parts.back(), &width_x, &width_y, ReadCount))) {
    throw MustBe(option, "pixels from line to line and the line's width, such as 12/1 or 12x10/1",
                 text);
  }
  v1::DeclaredGrid grid;
  grid.set_pitch_x_px(pitch_x);
  grid.set_pitch_y_px(pitch_y);
  grid.set_line_width_x_px(width_x);
  grid.set_line_width_y_px(width_y);
  return grid;
}

v1::DeclaredGrid CellOf(const std::string& option, const std::string& text) {
  double width = 0;
  double height = 0;
  if (!ReadPair(text, &width, &height, ReadPixels)) {
    throw MustBe(option, "pixels across and up, such as 12x15", text);
  }
  v1::DeclaredGrid grid;
  grid.set_pitch_x_px(width);
  grid.set_pitch_y_px(height);
  return grid;
}

v1::Margins CropOf(const std::string& option, const std::string& text) {
  const auto parts = SplitAt(text, ",");
  int sides[4] = {0, 0, 0, 0};
  bool right = parts.size() == 4;
  for (size_t i = 0; right && i < 4; ++i) right = ReadCount(parts[i], &sides[i]);
  if (!right) {
    throw MustBe(option, "pixels at the left, top, right and bottom, such as 40,0,40,25", text);
  }
  v1::Margins margins;
  margins.set_left(sides[0]);
  margins.set_top(sides[1]);
  margins.set_right(sides[2]);
  margins.set_bottom(sides[3]);
  return margins;
}

v1::CellArea AreaOf(const std::string& option, const std::string& text) {
  const auto parts = SplitAt(text, ":");
  int rows[2];
  int stitches[2];
  if (parts.size() != 2 || !ReadRange(parts[0], &rows[0], &rows[1]) ||
      !ReadRange(parts[1], &stitches[0], &stitches[1])) {
    throw MustBe(option, "ROWS:STITCHES, such as 5-8:1-10, 5:3 or all:1", text);
  }
  v1::CellArea area;
  area.set_first_row(rows[0]);
  area.set_last_row(rows[1]);
  area.set_first_stitch(stitches[0]);
  area.set_last_stitch(stitches[1]);
  return area;
}

google::protobuf::RepeatedPtrField<std::string> ShadesOf(const std::string& option,
                                                         const std::vector<std::string>& texts) {
  std::map<int, std::string> by_number;
  for (const std::string& text : texts) {
    const v1::ColourMeaning shade = MeaningOf(option, text);
    by_number[static_cast<int>(shade.chart_colour())] = shade.rgb();
  }
  google::protobuf::RepeatedPtrField<std::string> shades;
  for (const auto& [number, rgb] : by_number) {
    if (number != shades.size() + 1) {
      throw MustBe(option, "one shade for each colour from A on, without a gap", texts.front());
    }
    *shades.Add() = rgb;
  }
  return shades;
}

v1::ChartFileFormat FileFormatOf(const std::string& option, const std::string& path, bool plain) {
  const std::string ending = EndingOf(path);
  if (ending == "png") return v1::CHART_FILE_FORMAT_PNG;
  if (ending == "csv") return v1::CHART_FILE_FORMAT_CSV;
  if (ending == "tsv") return v1::CHART_FILE_FORMAT_TSV;
  if (ending == "pbm") {
    return plain ? v1::CHART_FILE_FORMAT_PLAIN_PBM : v1::CHART_FILE_FORMAT_RAW_PBM;
  }
  if (ending == "pgm") {
    return plain ? v1::CHART_FILE_FORMAT_PLAIN_PGM : v1::CHART_FILE_FORMAT_RAW_PGM;
  }
  if (ending == "ppm") {
    return plain ? v1::CHART_FILE_FORMAT_PLAIN_PPM : v1::CHART_FILE_FORMAT_RAW_PPM;
  }
  throw MustBe(option, "a name that ends in .png, .pbm, .pgm, .ppm, .csv or .tsv", path);
}

}  // namespace rowproof::client
