#include "services/images/import_settings.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/images/cell_colours.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

absl::Status CheckMeanings(const ImportSettings& settings) {
  if (settings.colour_a.has_value() && settings.colour_a == settings.colour_b) {
    return InvalidField("colour_b", Text(*settings.colour_b), "a colour other than colour A");
  }
  if (settings.meanings.size() > kMostMeanings) {
    return InvalidField("colours", fmt::format("{} colours", settings.meanings.size()),
                        fmt::format("at most {} colours", kMostMeanings));
  }
  const size_t letters = CountOfLetters(settings);
  const std::vector<ColourMeaning> given = GivenMeanings(settings);
  for (size_t i = 0; i < given.size(); ++i) {
    const std::string field = fmt::format("colours[{}]", i);
    if (static_cast<size_t>(given[i].taken_for) >= letters) {
      return InvalidField(field, chart::Name(given[i].taken_for),
                          settings.convention == chart::Convention::kWorking
                              ? std::string("A for plain stitches or B for drops")
                              : fmt::format("A to {}, the colours that the row order names",
                                            chart::Name(static_cast<chart::Colour>(letters - 1))));
    }
    for (size_t j = 0; j < i; ++j) {
      if (given[i].colour == given[j].colour && given[i].taken_for != given[j].taken_for) {
        return InvalidField(i < settings.meanings.size() ? field : "colour_a",
                            Text(given[i].colour), "a colour whose meaning is not given yet");
      }
    }
  }
  return absl::OkStatus();
}

absl::Status CheckPitch(const char* field, double pitch, int line_width) {
  if (std::isfinite(pitch) && pitch >= 1 && pitch <= kLargestCellScale &&
      pitch >= line_width + 1.0) {
    return absl::OkStatus();
  }
  return InvalidField(field, fmt::format("{}", pitch),
                      fmt::format("1 to {} pixels and wider than the line", kLargestCellScale));
}

absl::Status CheckGrid(const DeclaredGrid& grid) {
  for (const auto& [field, width] : {std::pair("grid.line_width_x_px", grid.line_width_x),
                                     std::pair("grid.line_width_y_px", grid.line_width_y)}) {
    if (width < 0 || width >= kLargestCellScale) {
      return InvalidField(field, fmt::format("{}", width),
                          fmt::format("between 0 and {} pixels", kLargestCellScale - 1));
    }
  }
  if (auto s = CheckPitch("grid.pitch_x_px", grid.pitch_x, grid.line_width_x); !s.ok()) return s;
  return CheckPitch("grid.pitch_y_px", grid.pitch_y, grid.line_width_y);
}

}  // namespace

absl::Status CheckSettings(const ImportSettings& settings) {
  if (settings.tolerance < 0 || settings.tolerance > 255) {
    return InvalidField("tolerance", fmt::format("{}", settings.tolerance), "between 0 and 255");
  }
  if (settings.cell_scale.has_value() &&
      (*settings.cell_scale < 1 || *settings.cell_scale > kLargestCellScale)) {
    return InvalidField("cell_scale", fmt::format("{}", *settings.cell_scale),
                        fmt::format("between 1 and {} pixels per cell", kLargestCellScale));
  }
  for (const auto& [field, count, most] :
       {std::tuple("stitch_count", settings.stitches, chart::kMostStitches),
        std::tuple("row_count", settings.rows, chart::kMostRows)}) {
    if (!count.has_value() || (*count >= 1 && *count <= most)) continue;
    return InvalidField(field, fmt::format("{}", *count), fmt::format("1 to {}", most));
  }
  if (settings.row_colours.size() > static_cast<size_t>(chart::kMostRows)) {
    return InvalidField("row_colours", fmt::format("{} colours", settings.row_colours.size()),
                        fmt::format("at most {} colours, one per row", chart::kMostRows));
  }
  if (auto status = CheckMeanings(settings); !status.ok()) return status;
  if (!settings.grid.has_value()) return absl::OkStatus();
  if (settings.cell_scale.has_value()) {
    return InvalidField("cell_scale", fmt::format("{}", *settings.cell_scale),
                        "unset if grid lines are declared");
  }
  return CheckGrid(*settings.grid);
}

absl::Status CheckCrop(const Picture& picture, const Margins& crop) {
  struct Side {
    const char* field;
    int given;
    int opposite;
    int length;
  };
  for (const Side& side : {Side{"crop.left", crop.left, crop.right, picture.width()},
                           Side{"crop.right", crop.right, crop.left, picture.width()},
                           Side{"crop.top", crop.top, crop.bottom, picture.height()},
                           Side{"crop.bottom", crop.bottom, crop.top, picture.height()}}) {
    const int most = side.length - 1 - std::clamp(side.opposite, 0, side.length - 1);
    if (side.given >= 0 && side.given <= most) continue;
    return InvalidField(
        side.field, fmt::format("{}", side.given),
        fmt::format("between 0 and {}, to leave some of the {}", most, side.length));
  }
  return absl::OkStatus();
}

}  // namespace rowproof::images
