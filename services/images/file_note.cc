#include "services/images/file_note.h"

#include <charconv>
#include <cstddef>
#include <cstdint>

#include "fmt/format.h"
#include "services/images/chart_file.h"

namespace rowproof::images {
namespace {

constexpr std::string_view kName = "rowproof-chart";
constexpr size_t kLongestNote = 200;

// Words of a text, one after the other, with one space between.
class Words {
 public:
  explicit Words(std::string_view text) : rest_(text) {}
  std::string_view Next() {
    const size_t end = rest_.find(' ');
    const std::string_view word = rest_.substr(0, end);
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    return word;
  }
  // A whole number of 1 to `most` before the word `unit`; 0: something else.
  int Number(int most, std::string_view unit) {
    const std::string_view word = Next();
    int number = 0;
    const auto read = std::from_chars(word.data(), word.data() + word.size(), number);
    if (read.ec != std::errc() || read.ptr != word.data() + word.size()) return 0;
    return Next() == unit && number >= 1 && number <= most ? number : 0;
  }
  bool done() const { return rest_.empty(); }

 private:
  std::string_view rest_;
};

uint32_t BigEndian(std::string_view bytes) {
  uint32_t value = 0;
  for (const char c : bytes.substr(0, 4)) value = value << 8 | static_cast<unsigned char>(c);
  return value;
}

}  // namespace

std::string WriteNote(const FileNote& note) {
  std::string text =
      fmt::format("{} {} {} rows {} stitches {} pixels", kName, chart::Name(note.convention),
                  note.rows, note.stitches, note.cell_scale);
  for (const Rgb colour : note.colours) text += " " + Text(colour);
  return text;
}

std::optional<FileNote> ReadNote(std::string_view text) {
  if (text.size() > kLongestNote) return std::nullopt;
  Words words(text);
  if (words.Next() != kName) return std::nullopt;
  FileNote note;
  const std::string_view convention = words.Next();
  note.convention = convention == chart::Name(chart::Convention::kPicture)
                        ? chart::Convention::kPicture
                        : chart::Convention::kWorking;
  if (convention != chart::Name(note.convention)) return std::nullopt;
  note.rows = words.Number(chart::kMostRows, "rows");
  note.stitches = words.Number(chart::kMostStitches, "stitches");
  note.cell_scale = words.Number(kLargestCellScale, "pixels");
  if (note.rows == 0 || note.stitches == 0 || note.cell_scale == 0) return std::nullopt;
  while (!words.done()) {
    const auto colour = ParseRgb(words.Next());
    if (!colour.has_value() || note.colours.size() == chart::kMostColours) return std::nullopt;
    note.colours.push_back(*colour);
  }
  return note.colours.size() >= 2 ? std::optional<FileNote>(note) : std::nullopt;
}

std::optional<FileNote> FindPngNote(std::string_view bytes) {
  constexpr size_t kSignatureBytes = 8;
  constexpr size_t kAroundContent = 12;  // length, type, sum
  std::string_view rest = bytes.substr(std::min(bytes.size(), kSignatureBytes));
  const std::string keyword = std::string(kPngNoteKeyword) + '\0';
  while (rest.size() >= kAroundContent) {
    const size_t length = BigEndian(rest);
    const std::string_view type = rest.substr(4, 4);
    if (type == "IDAT" || rest.size() - kAroundContent < length) return std::nullopt;
    const std::string_view content = rest.substr(8, length);
    if (type == "tEXt" && content.starts_with(keyword)) {
      return ReadNote(content.substr(keyword.size()));
    }
    rest.remove_prefix(kAroundContent + length);
  }
  return std::nullopt;
}

std::optional<FileNote> FindPnmNote(std::string_view bytes) {
  constexpr std::string_view kBefore = "\n# ";  // after the two letters of the kind
  if (bytes.size() < 2 || !bytes.substr(2).starts_with(kBefore)) return std::nullopt;
  const std::string_view rest = bytes.substr(2 + kBefore.size());
  return ReadNote(rest.substr(0, rest.substr(0, kLongestNote + 1).find('\n')));
}

}  // namespace rowproof::images
