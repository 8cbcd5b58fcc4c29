// Sources of the formats: Netpbm, "PBM", "PGM" and "PPM Format Specification"; RFC 4180.
#include "services/images/chart_export.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/images/cell_colours.h"
#include "services/images/chart_file.h"
#include "services/images/file_note.h"
#include "services/images/formats/png_writer.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

constexpr size_t kPlainLineLength = 70;  // Netpbm's own limit

struct Kind {
  bool table = false;
  bool plain = false;
  char magic = '\0';  // of a PNM
  size_t samples = 1;
};

Kind KindOf(FileFormat format) {
  switch (format) {
    case FileFormat::kPng:
      return {};
    case FileFormat::kPlainPbm:
      return {false, true, '1'};
    case FileFormat::kPlainPgm:
      return {false, true, '2'};
    case FileFormat::kPlainPpm:
      return {false, true, '3', 3};
    case FileFormat::kRawPbm:
      return {false, false, '4'};
    case FileFormat::kRawPgm:
      return {false, false, '5'};
    case FileFormat::kRawPpm:
      return {false, false, '6', 3};
    case FileFormat::kCsv:
    case FileFormat::kTsv:
      return {true};
  }
  return {};
}

bool IsPbm(FileFormat format) {
  return format == FileFormat::kPlainPbm || format == FileFormat::kRawPbm;
}
bool IsPgm(FileFormat format) {
  return format == FileFormat::kPlainPgm || format == FileFormat::kRawPgm;
}

size_t LettersOf(const chart::Design& design) {
  if (!chart::NamesColours(design)) return 2;
  ImportSettings settings;
  settings.row_colours = design.row_colours;
  return CountOfLetters(settings);
}

// 0: A or plain, 1: B or drop, ...
size_t ClassAt(const chart::Design& design, int row, int stitch) {
  if (!chart::NamesColours(design)) return design.cells.at(row, stitch) ? 1 : 0;
  return static_cast<size_t>(design.picture_colours[chart::PictureCell(design, row, stitch)]);
}

std::vector<Rgb> Greys(size_t count) {
  std::vector<Rgb> greys;
  for (size_t i = 0; i < count; ++i) {
    const auto level = static_cast<uint8_t>(255 - (255 * i + (count - 1) / 2) / (count - 1));
    greys.push_back({level, level, level});
  }
  return greys;
}

std::vector<Rgb> ColoursOf(const ExportSettings& settings, size_t letters) {
  if (IsPbm(settings.format) || IsPgm(settings.format)) return Greys(letters);
  return settings.colours.empty() ? UsualColours(letters) : settings.colours;
}

absl::Status CheckColours(const ExportSettings& settings, size_t letters) {
  if (IsPbm(settings.format) && letters > 2) {
    return InvalidField("format", "PBM",
                        fmt::format("PNG, PGM, PPM, CSV or TSV for {} colours", letters));
  }
  if (settings.colours.empty()) return absl::OkStatus();
  if (settings.colours.size() != letters) {
    return InvalidField("colours", fmt::format("{} colours", settings.colours.size()),
                        fmt::format("{} colours, one for each of the chart's, or unset", letters));
  }
  for (size_t i = 1; i < settings.colours.size(); ++i) {
    const auto end = settings.colours.begin() + static_cast<std::ptrdiff_t>(i);
    if (std::find(settings.colours.begin(), end, settings.colours[i]) != end) {
      return InvalidField(fmt::format("colours[{}]", i), Text(settings.colours[i]),
                          "different from the other colours");
    }
  }
  return absl::OkStatus();
}

// Most bytes of a pixel: in a plain file each sample has up to three digits and a space.
uint64_t MostBytesOfPixel(const Kind& kind) {
  if (kind.magic == '\0' || kind.magic == '1' || kind.magic == '4') return 1;
  return kind.samples * (kind.plain ? 4 : 1);
}

absl::Status CheckSize(const chart::Grid& cells, const ExportSettings& settings) {
  const Kind kind = KindOf(settings.format);
  const int largest = kind.table ? 1 : kLargestCellScale;
  if (settings.cell_scale < 1 || settings.cell_scale > largest) {
    return InvalidField("cell_scale", fmt::format("{}", settings.cell_scale),
                        kind.table ? std::string("1: a CSV or TSV has one entry per cell")
                                   : fmt::format("between 1 and {} pixels per cell", largest));
  }
  const auto scale = static_cast<uint64_t>(settings.cell_scale);
  const uint64_t width = static_cast<uint64_t>(cells.stitches()) * scale;
  const uint64_t height = static_cast<uint64_t>(cells.rows()) * scale;
  if (auto status = CheckDimensions("cell_scale", width, height); !status.ok()) return status;
  if (kind.magic == '\0') return absl::OkStatus();
  const uint64_t pixels =
      settings.format == FileFormat::kRawPbm ? (width + 7) / 8 * height : width * height;
  if (pixels * MostBytesOfPixel(kind) + height <= kMostFileBytes - kPlainLineLength * 4) {
    return absl::OkStatus();
  }
  return Refusal("cell_scale",
                 fmt::format("A file of {} x {} pixels may take {} bytes, and the limit is {}; "
                             "choose another format or a smaller scale.",
                             width, height, pixels * MostBytesOfPixel(kind), kMostFileBytes));
}

std::string TableFile(const chart::Design& design, char separator, const Stop& stop) {
  const bool picture = design.convention == chart::Convention::kPicture;
  std::string out;
  out.reserve(2 * static_cast<size_t>(design.cells.rows()) *
              static_cast<size_t>(design.cells.stitches()));
  for (int row = design.cells.rows(); row >= 1; --row) {
    if (stop.After(design.cells.stitches())) break;
    for (int stitch = design.cells.stitches(); stitch >= 1; --stitch) {
      const size_t cell = ClassAt(design, row, stitch);
      out += picture ? static_cast<char>('A' + cell) : cell != 0 ? 'x' : '.';
      out += stitch > 1 ? separator : '\n';
    }
  }
  return out;
}

// One line of packed pixels.
std::vector<uint8_t> PackedLine(const chart::Design& design, int row, int scale, int bit_depth) {
  const auto width = static_cast<size_t>(design.cells.stitches()) * static_cast<size_t>(scale);
  const auto depth = static_cast<size_t>(bit_depth);
  std::vector<uint8_t> line((width * depth + 7) / 8, 0);
  size_t bit = 0;
  for (int stitch = design.cells.stitches(); stitch >= 1; --stitch) {
    const size_t cell = ClassAt(design, row, stitch);
    for (int i = 0; i < scale; ++i, bit += depth) {
      line[bit / 8] = static_cast<uint8_t>(line[bit / 8] | cell << (8 - depth - bit % 8));
    }
  }
  return line;
}

std::string Png(const chart::Design& design, const ExportSettings& settings,
                const std::vector<Rgb>& colours, const std::string& note, const Stop& stop) {
  PngLines lines;
  lines.width = design.cells.stitches() * settings.cell_scale;
  lines.bit_depth = colours.size() <= 2 ? 1 : colours.size() <= 4 ? 2 : 4;
  lines.palette = colours;
  lines.times = settings.cell_scale;
  for (int row = design.cells.rows(); row >= 1; --row) {
    if (stop.After(lines.width)) return {};
    lines.lines.push_back(PackedLine(design, row, settings.cell_scale, lines.bit_depth));
  }
  return WritePng(lines, note, stop);
}

// Adds a sample to a plain file, in lines of kPlainLineLength characters at most.
void AddPlain(const std::string& sample, bool space, size_t* line_length, std::string* out) {
  const size_t needed = sample.size() + (space && *line_length > 0 ? 1 : 0);
  if (*line_length + needed > kPlainLineLength) {
    *out += '\n';
    *line_length = 0;
  } else if (space && *line_length > 0) {
    *out += ' ';
    ++*line_length;
  }
  *out += sample;
  *line_length += sample.size();
}

// One line of a PNM's pixels.
std::string PnmLine(const chart::Design& design, int row, const ExportSettings& settings,
                    const std::vector<Rgb>& colours) {
  const Kind kind = KindOf(settings.format);
  if (settings.format == FileFormat::kRawPbm) {
    const auto line = PackedLine(design, row, settings.cell_scale, 1);
    return {line.begin(), line.end()};
  }
  std::string out;
  size_t line_length = 0;
  for (int stitch = design.cells.stitches(); stitch >= 1; --stitch) {
    const size_t cell = ClassAt(design, row, stitch);
    const Rgb colour = colours[cell];
    const std::array<uint8_t, 3> samples = {colour.red, colour.green, colour.blue};
    for (int i = 0; i < settings.cell_scale; ++i) {
      for (size_t s = 0; s < kind.samples; ++s) {
        if (!kind.plain) {
          out += static_cast<char>(samples[s]);
        } else if (IsPbm(settings.format)) {
          AddPlain(cell != 0 ? "1" : "0", false, &line_length, &out);
        } else {
          AddPlain(std::to_string(samples[s]), true, &line_length, &out);
        }
      }
    }
  }
  if (kind.plain) out += '\n';
  return out;
}

std::string Pnm(const chart::Design& design, const ExportSettings& settings,
                const std::vector<Rgb>& colours, const std::string& note, const Stop& stop) {
  const Kind kind = KindOf(settings.format);
  std::string out = fmt::format("P{}\n# {}\n{} {}\n", kind.magic, note,
                                design.cells.stitches() * settings.cell_scale,
                                design.cells.rows() * settings.cell_scale);
  if (!IsPbm(settings.format)) out += "255\n";
  for (int row = design.cells.rows(); row >= 1; --row) {
    if (stop.After(4 * design.cells.stitches() * settings.cell_scale)) break;
    const std::string line = PnmLine(design, row, settings, colours);
    for (int i = 0; i < settings.cell_scale; ++i) out += line;
  }
  return out;
}

}  // namespace

std::vector<Rgb> UsualColours(size_t count) {
  // From light to dark, so that they are found again in this order.
  constexpr std::array<Rgb, chart::kMostColours> kColours = {
      Rgb{255, 255, 255}, Rgb{242, 213, 68}, Rgb{143, 201, 58}, Rgb{79, 176, 198},
      Rgb{228, 87, 46},   Rgb{123, 79, 163}, Rgb{31, 78, 140},  Rgb{0, 0, 0}};
  ROWPROOF_CHECK(count >= 2 && count <= kColours.size());
  std::vector<Rgb> colours(kColours.begin(),
                           kColours.begin() + static_cast<std::ptrdiff_t>(count - 1));
  colours.push_back(kColours.back());
  return colours;
}

absl::StatusOr<std::string> ExportChart(const chart::Design& design, const ExportSettings& settings,
                                        const Stop& stop) {
  ROWPROOF_CHECK(!design.cells.empty());
  const size_t letters = LettersOf(design);
  if (auto status = CheckColours(settings, letters); !status.ok()) return status;
  if (auto status = CheckSize(design.cells, settings); !status.ok()) return status;
  if (KindOf(settings.format).table) {
    std::string table = TableFile(design, settings.format == FileFormat::kCsv ? ',' : '\t', stop);
    if (!stop.status().ok()) return stop.status();
    return table;
  }
  const std::vector<Rgb> colours = ColoursOf(settings, letters);
  const std::string note = WriteNote({design.convention, design.cells.rows(),
                                      design.cells.stitches(), settings.cell_scale, colours});
  std::string file = settings.format == FileFormat::kPng
                         ? Png(design, settings, colours, note, stop)
                         : Pnm(design, settings, colours, note, stop);
  if (!stop.status().ok()) return stop.status();
  if (file.size() <= kMostFileBytes) return file;
  return Refusal("cell_scale", fmt::format("The file would have {} bytes, and the limit is {}; "
                                           "choose a smaller scale.",
                                           file.size(), kMostFileBytes));
}

}  // namespace rowproof::images
