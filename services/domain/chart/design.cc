#include "services/domain/chart/design.h"

#include <algorithm>
#include <array>
#include <set>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::chart {
namespace {

absl::Status ValidateBand(const std::optional<Band>& band, const std::string& field, int length,
                          const char* unit) {
  if (!band.has_value()) return absl::OkStatus();
  const std::string accepted = fmt::format("a {} from 1 to {}", unit, length);
  if (band->first < 1 || band->first > length) {
    return InvalidField(field + ".first", std::to_string(band->first), accepted);
  }
  if (band->last < band->first || band->last > length) {
    return InvalidField(field + ".last", std::to_string(band->last),
                        fmt::format("a {} from {} to {}", unit, band->first, length));
  }
  return absl::OkStatus();
}

absl::Status ValidateRepeats(const std::string& field, int repeats, bool has_band) {
  if (repeats < 1 || repeats > kMostRepeats) {
    return InvalidField(field, std::to_string(repeats),
                        fmt::format("a whole number from 1 to {}", kMostRepeats));
  }
  if (repeats > 1 && !has_band) {
    return InvalidField(field, std::to_string(repeats),
                        "1, because the chart declares no such band");
  }
  return absl::OkStatus();
}

bool IsControl(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7f;
}

absl::Status ValidateSize(const Design& design, size_t index, std::set<std::string>& names) {
  const Size& size = design.sizes[index];
  const std::string field = fmt::format("sizes[{}]", index);
  if (size.name.empty() || size.name.size() > kLongestSizeName) {
    return InvalidField(field + ".name", size.name,
                        fmt::format("1 to {} bytes long", kLongestSizeName));
  }
  if (std::any_of(size.name.begin(), size.name.end(), IsControl)) {
    return InvalidField(field + ".name", size.name, "free of control characters");
  }
  if (!names.insert(size.name).second) {
    return InvalidField(field + ".name", size.name, "different from the other sizes' names");
  }
  RETURN_IF_ERROR(ValidateRepeats(field + ".stitch_repeat_count", size.stitch_repeats,
                                  design.stitch_band.has_value()));
  RETURN_IF_ERROR(
      ValidateRepeats(field + ".row_repeat_count", size.row_repeats, design.row_band.has_value()));
  const int at = static_cast<int>(index);
  if (const int stitches = ExpandedStitches(design, at); stitches > kMostStitches) {
    return InvalidField(
        field + ".stitch_repeat_count", std::to_string(size.stitch_repeats),
        fmt::format("small enough for at most {} stitches, not {}", kMostStitches, stitches));
  }
  if (const int rows = ExpandedRows(design, at); rows > kMostRows) {
    return InvalidField(field + ".row_repeat_count", std::to_string(size.row_repeats),
                        fmt::format("small enough for at most {} rows, not {}", kMostRows, rows));
  }
  return absl::OkStatus();
}

// Whether all colours of a row exist, and those that are not the row's own are set cells.
bool PictureRowHolds(const Design& design, int row) {
  const Colour own = RowColour(design, row);
  const Colour* named = design.picture_colours.data() + PictureCell(design, row, 1);
  int left = design.cells.stitches();
  for (const uint64_t word : design.cells.row(row)) {
    uint64_t marks = 0;
    bool exists = true;
    const int here = std::min(left, 64);
    for (int bit = 0; bit < here; ++bit) {
      marks |= uint64_t{named[bit] != own} << bit;
      exists &= static_cast<size_t>(named[bit]) < kMostColours;
    }
    if (!exists || marks != word) return false;
    named += here;
    left -= here;
  }
  return true;
}

absl::Status ValidatePictureColours(const Design& design, const Stop& stop) {
  const std::string field = "picture_colours";
  const auto met = fmt::format("{} colours", design.picture_colours.size());
  const bool needed = design.convention == Convention::kPicture && HasMoreThanTwoColours(design);
  if (!needed) {
    if (!NamesColours(design)) return absl::OkStatus();
    return InvalidField(field, met,
                        "unset, unless the chart is a picture with more colours than A and B");
  }
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  if (design.picture_colours.size() != static_cast<size_t>(rows) * static_cast<size_t>(stitches)) {
    return InvalidField(field, met,
                        fmt::format("one colour for each of the {} x {} cells, because the rows "
                                    "have more colours than A and B",
                                    rows, stitches));
  }
  for (int row = 1; row <= rows; ++row) {
    if (stop.After(stitches / 8)) return stop.status();
    if (PictureRowHolds(design, row)) continue;
    const Colour own = RowColour(design, row);
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      const size_t cell = PictureCell(design, row, stitch);
      const Colour colour = design.picture_colours[cell];
      if (static_cast<size_t>(colour) >= kMostColours) {
        return InvalidField(fmt::format("{}[{}]", field, cell),
                            std::to_string(static_cast<int>(colour)), "a colour from A to H");
      }
      if (design.cells.at(row, stitch) != (colour != own)) {
        return InvalidField(fmt::format("{}[{}]", field, cell), Name(colour),
                            "the row's own colour if the cell is not set, another if it is");
      }
    }
  }
  return absl::OkStatus();
}

absl::Status ValidateColours(const Design& design, const Stop& stop) {
  if (!design.row_colours.empty() &&
      design.row_colours.size() != static_cast<size_t>(design.cells.rows())) {
    return InvalidField(
        "row_colours", fmt::format("{} colours", design.row_colours.size()),
        fmt::format("one colour for each of the {} rows, or unset", design.cells.rows()));
  }
  for (size_t i = 0; i < design.row_colours.size(); ++i) {
    const auto colour = static_cast<size_t>(design.row_colours[i]);
    if (colour >= kMostColours) {
      return InvalidField(fmt::format("row_colours[{}]", i), std::to_string(colour),
                          "a colour from A to H");
    }
  }
  if (design.foundation_colour.has_value() &&
      static_cast<size_t>(*design.foundation_colour) >= kMostColours) {
    return InvalidField("foundation_colour",
                        std::to_string(static_cast<int>(*design.foundation_colour)),
                        "a colour from A to H");
  }
  return ValidatePictureColours(design, stop);
}

}  // namespace

std::string SizesInWords(const Design& design) {
  constexpr size_t kNamed = 8;
  const size_t count = design.sizes.size();
  std::string text;
  for (size_t i = 0; i < std::min(count, kNamed); ++i) {
    text += i == 0 ? "" : i + 1 == count ? " or " : ", ";
    text += design.sizes[i].name;
  }
  return count <= kNamed ? text : fmt::format("{}, ... ({} sizes)", text, count);
}

bool HasMoreThanTwoColours(const Design& design) {
  return std::any_of(design.row_colours.begin(), design.row_colours.end(),
                     [](Colour colour) { return colour > Colour::kB; });
}

absl::Status Validate(const Design& design, const Stop& stop) {
  if (design.cells.empty()) {
    return MissingField("cells", fmt::format("a chart of 1 to {} rows of 1 to {} stitches",
                                             kMostRows, kMostStitches));
  }
  if (design.form == Form::kTube && !FactsOf(design.technique).can_be_tube) {
    return InvalidField("form", "tube",
                        fmt::format("flat: {} is not worked in a tube", Name(design.technique)));
  }
  RETURN_IF_ERROR(ValidateColours(design, stop));
  if (auto status =
          ValidateBand(design.stitch_band, "stitch_band", design.cells.stitches(), "stitch");
      !status.ok()) {
    return status;
  }
  RETURN_IF_ERROR(ValidateBand(design.row_band, "row_band", design.cells.rows(), "row"));
  if (design.sizes.empty() || design.sizes.size() > static_cast<size_t>(kMostSizes)) {
    return InvalidField("sizes", fmt::format("{} sizes", design.sizes.size()),
                        fmt::format("1 to {} sizes", kMostSizes));
  }
  if (design.first_row_number < 0 || design.first_row_number > 1000) {
    return InvalidField("first_row_number", std::to_string(design.first_row_number),
                        "a whole number from 0 to 1000");
  }
  std::set<std::string> names;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    RETURN_IF_ERROR(ValidateSize(design, i, names));
  }
  return absl::OkStatus();
}

const char* Name(Technique technique) { return FactsOf(technique).name; }

const char* Name(Facing facing) {
  switch (facing) {
    case Facing::kOneFace:
      return "one-face";
    case Facing::kTwoFace:
      return "two-face";
    case Facing::kPaired:
      return "paired";
  }
  return "";
}

const char* Name(Ends ends) {
  switch (ends) {
    case Ends::kCut:
      return "cut";
    case Ends::kCarried:
      return "carried";
    case Ends::kWaiting:
      return "waiting";
  }
  return "";
}

const char* Name(Form form) { return form == Form::kFlat ? "flat" : "tube"; }
const char* Name(Convention convention) {
  return convention == Convention::kPicture ? "picture" : "working";
}
const char* Name(Colour colour) {
  constexpr std::array<const char*, kMostColours> kNames = {"A", "B", "C", "D", "E", "F", "G", "H"};
  ROWPROOF_CHECK(static_cast<size_t>(colour) < kMostColours);
  return kNames[static_cast<size_t>(colour)];
}
const char* Name(Side side) { return side == Side::kRightSide ? "RS" : "WS"; }

}  // namespace rowproof::chart
