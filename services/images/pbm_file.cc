// Source of the format: Netpbm, "PBM Format Specification", plain (P1) and raw (P4).
#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/images/chart_file.h"
#include "services/images/refusal.h"
#include "services/images/two_colours.h"
#include "services/images/two_tone_picture.h"

namespace rowproof::images {
namespace {

constexpr size_t kPlainLineLength = 70;  // the format's own limit

bool IsSpace(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\v' || c == '\f';
}
bool IsDigit(char c) { return c >= '0' && c <= '9'; }

// Reads the header, and a plain raster, character by character; a comment, from # to the end of its
// line, reads as that line's end.
class Scanner {
 public:
  explicit Scanner(std::string_view bytes) : bytes_(bytes) {}

  std::optional<char> Next() {
    if (at_ >= bytes_.size()) return std::nullopt;
    if (bytes_[at_] == '#') {
      while (at_ < bytes_.size() && bytes_[at_] != '\n' && bytes_[at_] != '\r') ++at_;
      if (at_ >= bytes_.size()) return std::nullopt;
    }
    return bytes_[at_++];
  }
  std::optional<char> NextAfterSpace() {
    std::optional<char> c = Next();
    while (c.has_value() && IsSpace(*c)) c = Next();
    return c;
  }
  // A number and the one space after it. No value where there is none; a number of any length stops
  // growing once it is over every limit.
  std::optional<uint64_t> Number() {
    std::optional<char> c = NextAfterSpace();
    if (!c.has_value() || !IsDigit(*c)) return std::nullopt;
    uint64_t number = 0;
    while (c.has_value() && IsDigit(*c)) {
      number = number * 10 + static_cast<uint64_t>(*c - '0');
      if (number > kBeyondEveryLimit) number = kBeyondEveryLimit;
      c = Next();
    }
    if (c.has_value() && !IsSpace(*c)) return std::nullopt;
    return number;
  }
  // What has not been read; as it stands, comments and all.
  std::string_view rest() const { return bytes_.substr(at_); }
  // Place in the file, from 1, of the character read last; the two of "P1" were passed before.
  size_t place() const { return at_ + 2; }

 private:
  static constexpr uint64_t kBeyondEveryLimit = 1'000'000'000;

  std::string_view bytes_;
  size_t at_ = 0;
};

absl::Status CutShort(uint64_t width, uint64_t height) {
  return Refusal("image",
                 fmt::format("a PBM with fewer pixels than its {} x {} was met", width, height),
                 "a whole file");
}

absl::Status ReadPlain(Scanner& scanner, TwoTonePicture* picture) {
  for (int y = 0; y < picture->height(); ++y) {
    for (int x = 0; x < picture->width(); ++x) {
      const std::optional<char> c = scanner.NextAfterSpace();
      if (!c.has_value()) {
        return CutShort(static_cast<uint64_t>(picture->width()),
                        static_cast<uint64_t>(picture->height()));
      }
      if (*c != '0' && *c != '1') {
        return Refusal("image",
                       fmt::format("{} was met as byte {} of a plain PBM, at column {} of line {}",
                                   Shown(*c), scanner.place(), x + 1, y + 1),
                       "0 or 1");
      }
      picture->set(x, y, *c == '1');
    }
  }
  if (scanner.NextAfterSpace().has_value()) {
    return Refusal("image", "a plain PBM with more pixels than its header says was met",
                   "one picture a file");
  }
  return absl::OkStatus();
}

absl::Status ReadRaw(std::string_view raster, TwoTonePicture* picture) {
  const int line_bytes = (picture->width() + 7) / 8;
  size_t at = 0;
  for (int y = 0; y < picture->height(); ++y) {
    for (int i = 0; i < line_bytes; ++i) {
      const auto byte = static_cast<unsigned char>(raster[at++]);
      if (byte == 0) continue;
      const int end = std::min(8 * i + 8, picture->width());  // what fills up a line is not read
      for (int x = 8 * i; x < end; ++x) picture->set(x, y, (byte >> (7 - x % 8) & 1) != 0);
    }
  }
  for (const char c : raster.substr(at)) {
    if (!IsSpace(c)) {
      return Refusal(
          "image",
          fmt::format("a raw PBM with {} bytes after its last pixel was met", raster.size() - at),
          "one picture a file");
    }
  }
  return absl::OkStatus();
}

// White and black may be given other meanings by the settings, as in any picture.
absl::StatusOr<TwoColours> ApplyColours(const ImportSettings& settings, TwoTonePicture* picture) {
  const int64_t black = picture->CountSet();
  const int64_t white = int64_t{picture->width()} * picture->height() - black;
  ColourCounts counts;
  if (white > 0) counts.Add(kWhite, white);
  if (black > 0) counts.Add(kBlack, black);
  auto colours = FindTwoColours(counts, settings);
  if (!colours.ok()) return colours;
  picture->Recode(white > 0 && colours->IsB(kWhite), black > 0 && colours->IsB(kBlack));
  return colours;
}

}  // namespace

absl::StatusOr<ImportedChart> ImportPbm(std::string_view bytes, const ImportSettings& settings) {
  if (auto status = CheckSettings(settings); !status.ok()) return status;
  if (auto status = CheckFileBytes("image", bytes.size()); !status.ok()) return status;
  const std::string_view magic = bytes.substr(0, 2);
  const bool plain = magic == "P1";
  if (!plain && magic != "P4") {
    return Refusal("image", "a file that starts neither with P1 nor with P4 was met",
                   "a plain or raw PBM");
  }
  Scanner scanner(bytes.substr(2));
  const auto width = scanner.Number();
  const auto height = width.has_value() ? scanner.Number() : std::nullopt;
  if (!height.has_value() || (!IsSpace(bytes[2]) && bytes[2] != '#')) {
    return Refusal("image", "a PBM without a whole header was met",
                   "P1 or P4, then width and height as whole numbers, with white space between");
  }
  if (auto status = CheckDimensions("image", *width, *height); !status.ok()) return status;
  // Before memory is taken, the file has to be long enough to hold what its header announces.
  const uint64_t least = plain ? *width * *height : (*width + 7) / 8 * *height;
  if (scanner.rest().size() < least) return CutShort(*width, *height);

  TwoTonePicture picture(static_cast<int>(*width), static_cast<int>(*height));
  auto status = plain ? ReadPlain(scanner, &picture) : ReadRaw(scanner.rest(), &picture);
  if (!status.ok()) return status;
  const auto colours = ApplyColours(settings, &picture);
  if (!colours.ok()) return colours.status();
  auto chart = ChartOf(picture, ScaleRule::kOne, settings, "image");
  if (!chart.ok()) return chart;
  chart->format = plain ? "plain PBM" : "raw PBM";
  chart->colour_a = colours->colour_a;
  chart->colour_b = colours->colour_b;
  return chart;
}

std::string ExportPbm(const chart::Grid& cells, PbmKind kind) {
  ROWPROOF_CHECK(!cells.empty());
  const bool plain = kind == PbmKind::kPlain;
  std::string out = fmt::format("{}\n{} {}\n", plain ? "P1" : "P4", cells.stitches(), cells.rows());
  for (int row = cells.rows(); row >= 1; --row) {
    unsigned byte = 0;
    for (int x = 0; x < cells.stitches(); ++x) {
      const bool set = cells.at(row, cells.stitches() - x);
      if (plain) {
        if (x > 0 && static_cast<size_t>(x) % kPlainLineLength == 0) out += '\n';
        out += set ? '1' : '0';
        continue;
      }
      byte = byte << 1 | (set ? 1U : 0U);
      if (x % 8 == 7) out += static_cast<char>(byte), byte = 0;
    }
    if (plain) {
      out += '\n';
    } else if (const int used = cells.stitches() % 8; used != 0) {
      out += static_cast<char>(byte << (8 - used));
    }
  }
  return out;
}

}  // namespace rowproof::images
