// Source of the formats: Netpbm, "PBM", "PGM" and "PPM Format Specification", plain (P1, P2, P3)
// and raw (P4, P5, P6).
#include "services/images/formats/pnm_import.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "services/images/chart_file.h"
#include "services/images/file_note.h"
#include "services/images/formats/pnm_scanner.h"
#include "services/images/import_settings.h"
#include "services/images/picture.h"
#include "services/images/picture_reading.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

constexpr unsigned kMostMaxval = 65'535;

struct Header {
  PnmKind kind;
  uint64_t width = 0;
  uint64_t height = 0;
  uint32_t maxval = 1;
};

absl::Status CutShort(const Header& header) {
  return Refusal(
      "content",
      fmt::format("The {} has fewer pixels than the {} x {} in its header; send the whole "
                  "file.",
                  Name(header.kind.format), header.width, header.height));
}

// The least number of bytes that the pixels take.
uint64_t LeastBytes(const Header& header) {
  const uint64_t samples = header.width * header.height * header.kind.samples;
  if (header.kind.bits) return header.kind.plain ? samples : (header.width + 7) / 8 * header.height;
  // A plain sample is a digit and a space, but for the last.
  if (header.kind.plain) return 2 * samples - 1;
  return header.maxval > 255 ? 2 * samples : samples;
}

absl::StatusOr<Header> ReadHeader(const PnmKind& kind, PnmScanner& scanner) {
  Header header{kind};
  const auto width = scanner.Number();
  const auto height = width.has_value() ? scanner.Number() : std::nullopt;
  const auto maxval = !height.has_value() ? std::nullopt
                      : kind.bits         ? std::optional<uint64_t>(1)
                                          : scanner.Number();
  if (!maxval.has_value()) {
    return Refusal("content",
                   fmt::format("The {}'s header is incomplete; it must be {} as whole "
                               "numbers with white space between.",
                               Name(kind.format),
                               kind.bits ? "P1 or P4, then width and height"
                                         : "P2, P3, P5 or P6, then width, height and the "
                                           "greatest value"));
  }
  header.width = *width;
  header.height = *height;
  if (*maxval < 1 || *maxval > kMostMaxval) {
    return Refusal("content",
                   fmt::format("The {}'s greatest value is {}; it must be between 1 and {}.",
                               Name(kind.format), *maxval, kMostMaxval));
  }
  header.maxval = static_cast<uint32_t>(*maxval);
  if (auto status = CheckDimensions("content", *width, *height); !status.ok()) return status;
  // Before memory is taken, the file has to be long enough to hold what its header announces.
  if (scanner.rest().size() < LeastBytes(header)) return CutShort(header);
  return header;
}

// Reads sample after sample into a picture.
class Raster {
 public:
  Raster(const Header& header, PnmScanner& scanner, const Stop& stop)
      : header_(header),
        scanner_(scanner),
        picture_(static_cast<int>(header.width), static_cast<int>(header.height), &stop) {}

  absl::Status Read() {
    for (int y = 0; y < picture_.height(); ++y) {
      if (picture_.StopAfter(2 * picture_.width())) return picture_.stop_status();
      for (int x = 0; x < picture_.width(); ++x) {
        uint32_t samples[3] = {};
        for (size_t i = 0; i < header_.kind.samples; ++i) {
          if (auto status = ReadSample(x, y, &samples[i]); !status.ok()) return status;
        }
        if (picture_.Set(x, y, ColourOf(samples))) continue;
        const absl::Status stopped = picture_.stop_status();
        return stopped.ok() ? TooManyColours() : stopped;
      }
    }
    return CheckEnd();
  }
  const Picture& picture() const { return picture_; }

 private:
  absl::Status ReadSample(int x, int y, uint32_t* sample) {
    std::optional<uint64_t> value;
    if (!header_.kind.plain) {
      value = header_.kind.bits ? scanner_.RawBit(x) : scanner_.RawSample(header_.maxval > 255);
    } else if (header_.kind.bits) {
      const std::optional<char> c = scanner_.NextAfterSpace();
      if (!c.has_value()) return CutShort(header_);
      if (*c != '0' && *c != '1') return Unexpected(Shown(*c), x, y, "0 or 1");
      value = *c == '1' ? 1 : 0;
    } else {
      value = scanner_.Number();
      if (!value.has_value() && !scanner_.ended()) {
        return Unexpected("something else", x, y, "a whole number");
      }
    }
    if (!value.has_value()) return CutShort(header_);
    if (*value > header_.maxval) {
      return Unexpected(std::to_string(*value), x, y,
                        fmt::format("0 to {}, by its header", header_.maxval));
    }
    *sample = static_cast<uint32_t>(*value);
    return absl::OkStatus();
  }
  absl::Status Unexpected(const std::string& met, int x, int y, const std::string& accepted) const {
    return Refusal("content",
                   fmt::format("Line {}, column {} of the {} (byte {}) must be {}, not {}.", y + 1,
                               x + 1, Name(header_.kind.format), scanner_.place(), accepted, met));
  }
  uint8_t EightBits(uint32_t sample) const {
    return static_cast<uint8_t>((sample * 255 + header_.maxval / 2) / header_.maxval);
  }
  Rgb ColourOf(const uint32_t (&samples)[3]) const {
    if (header_.kind.bits) return samples[0] != 0 ? kBlack : kWhite;
    const uint8_t first = EightBits(samples[0]);
    if (header_.kind.samples == 1) return {first, first, first};
    return {first, EightBits(samples[1]), EightBits(samples[2])};
  }
  absl::Status CheckEnd() {
    if (header_.kind.plain) {
      if (!scanner_.NextAfterSpace().has_value()) return absl::OkStatus();
      return Refusal("content", fmt::format("The {} has more pixels than its header says; send one "
                                            "picture per file.",
                                            Name(header_.kind.format)));
    }
    const std::string_view rest = scanner_.rest();
    if (std::all_of(rest.begin(), rest.end(), IsPnmSpace)) return absl::OkStatus();
    return Refusal(
        "content",
        fmt::format("The {} has {} bytes after its last pixel; send one picture per file.",
                    Name(header_.kind.format), rest.size()));
  }

  const Header& header_;
  PnmScanner& scanner_;
  Picture picture_;
};

}  // namespace

absl::StatusOr<ImportedChart> ImportPnm(std::string_view bytes, const ImportSettings& settings,
                                        const Stop& stop) {
  if (auto status = CheckSettings(settings); !status.ok()) return status;
  if (auto status = CheckFileBytes("content", bytes.size()); !status.ok()) return status;
  const auto kind = PnmKindOf(bytes);
  if (!kind.has_value()) {
    return Refusal("content",
                   "The file does not start with P1 to P6 and white space; save it as PBM, PGM or "
                   "PPM.");
  }
  PnmScanner scanner(bytes);
  const auto header = ReadHeader(*kind, scanner);
  if (!header.ok()) return header.status();
  Raster raster(*header, scanner, stop);
  if (auto status = raster.Read(); !status.ok()) return status;
  return ReadPicture(raster.picture(), settings, kind->format, FindPnmNote(bytes));
}

}  // namespace rowproof::images
