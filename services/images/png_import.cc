#include <optional>

#include "fmt/format.h"
#include "services/images/chart_file.h"
#include "services/images/png_decoder.h"
#include "services/images/refusal.h"
#include "services/images/two_colours.h"
#include "services/images/two_tone_picture.h"

namespace rowproof::images {
namespace {

// What the first reading finds: how often each colour occurs, and which pixels are not of the first
// colour met. That settles the picture where it has two colours, as nearly all charts have.
struct FirstReading {
  explicit FirstReading(const PngSize& size) : differs_from_first(size.width, size.height) {}

  bool Take(const PngPixels& pixels) {
    if (!first.has_value()) first = pixels.colour(0);
    Rgb current = pixels.colour(0);
    int64_t run = 0;
    for (int i = 0; i < pixels.count(); ++i) {
      const Rgb colour = pixels.colour(i);
      if (colour != current) {
        if (!Count(current, run)) return false;
        current = colour;
        run = 0;
      }
      ++run;
      if (colour != *first) {
        differs_from_first.set(pixels.first + i * pixels.step, pixels.y, true);
      }
    }
    return Count(current, run);
  }
  bool Count(Rgb colour, int64_t pixels) {
    if (colour != *first) second = colour;
    too_many = too_many || !counts.Add(colour, pixels);
    return !too_many;
  }

  TwoTonePicture differs_from_first;
  ColourCounts counts;
  std::optional<Rgb> first;
  std::optional<Rgb> second;  // the last met that is not the first
  bool too_many = false;
};

absl::Status ReadAgain(std::string_view bytes, const PngSize& size, const TwoColours& colours,
                       TwoTonePicture* picture) {
  return DecodePng(bytes, size, [&](const PngPixels& pixels) {
    Rgb current = pixels.colour(0);
    bool is_b = colours.IsB(current);
    for (int i = 0; i < pixels.count(); ++i) {
      const Rgb colour = pixels.colour(i);
      if (colour != current) {
        current = colour;
        is_b = colours.IsB(colour);
      }
      picture->set(pixels.first + i * pixels.step, pixels.y, is_b);
    }
    return true;
  });
}

}  // namespace

absl::StatusOr<ImportedChart> ImportPng(std::string_view bytes, const ImportSettings& settings) {
  if (auto status = CheckSettings(settings); !status.ok()) return status;
  if (auto status = CheckFileBytes("image", bytes.size()); !status.ok()) return status;
  const auto size = ReadPngSize(bytes);
  if (!size.ok()) return size.status();

  FirstReading reading(*size);
  auto status =
      DecodePng(bytes, *size, [&](const PngPixels& pixels) { return reading.Take(pixels); });
  if (!status.ok()) return status;
  if (reading.too_many) {
    return Refusal("image", fmt::format("a picture of more than {} colours was met", kMostColours),
                   "a picture of two colours");
  }
  const auto colours = FindTwoColours(reading.counts, settings);
  if (!colours.ok()) return colours.status();

  TwoTonePicture& picture = reading.differs_from_first;
  if (reading.counts.size() <= 2) {
    const bool first_is_b = colours->IsB(*reading.first);
    picture.Recode(first_is_b,
                   reading.second.has_value() ? colours->IsB(*reading.second) : first_is_b);
  } else {
    status = ReadAgain(bytes, *size, *colours, &picture);
    if (!status.ok()) return status;
  }
  auto chart = ChartOf(picture, ScaleRule::kFound, settings, "image");
  if (!chart.ok()) return chart;
  chart->format = "PNG";
  chart->colour_a = colours->colour_a;
  chart->colour_b = colours->colour_b;
  return chart;
}

}  // namespace rowproof::images
