#include "services/domain/rows/writing/writable.h"

#include <algorithm>
#include <cctype>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/rows/index.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"

namespace rowproof::rows {
namespace {

using chart::Colour;
using chart::Design;

absl::Status CheckNesting(int depth) {
  if (depth >= 0 && depth <= kDeepestNesting) return absl::OkStatus();
  return InvalidField("nesting_depth", std::to_string(depth),
                      fmt::format("a whole number from 0 to {}", kDeepestNesting));
}

bool IsNameCharacter(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return std::isalnum(byte) != 0 || byte >= 0x80 || c == ' ' || c == '-' || c == '\'';
}

// Whether a head may call a colour so: "dark blue".
bool IsColourName(const std::string& name) {
  return !name.empty() && name.size() <= kLongestColourName && name.front() != ' ' &&
         name.back() != ' ' && std::all_of(name.begin(), name.end(), IsNameCharacter) &&
         ValidateText("", name, kLongestColourName, /*allow_newlines=*/false).ok();
}

int ColourCount(const Design& design) {
  if (design.row_colours.empty()) return 2;
  const auto most = std::max_element(design.row_colours.begin(), design.row_colours.end());
  return std::max(2, 1 + static_cast<int>(*most));
}

absl::Status CheckColourNames(const Design& design, const std::vector<std::string>& names) {
  if (names.empty()) return absl::OkStatus();
  const auto count = Index(ColourCount(design));
  if (names.size() < count || names.size() > chart::kMostColours) {
    return InvalidField("colour_names", fmt::format("{} names", names.size()),
                        fmt::format("{} to {} names, or unset", count, chart::kMostColours));
  }
  for (size_t i = 0; i < names.size(); ++i) {
    const auto letter = [](size_t colour) { return chart::Name(static_cast<Colour>(colour)); };
    bool alone = true;
    for (size_t other = 0; other < names.size(); ++other) {
      alone &= other == i || (names[i] != names[other] && names[i] != letter(other));
    }
    if (!alone || !IsColourName(names[i])) {
      return InvalidField(fmt::format("colour_names[{}]", i), names[i],
                          fmt::format("a name of 1 to {} letters, digits, spaces, hyphens and "
                                      "apostrophes that no other colour has",
                                      kLongestColourName));
    }
  }
  return absl::OkStatus();
}

// An off-colour cell in the last row of a picture, in any size: the stitch, from 1; 0 if none
// is.
int UncoveredStitch(const Design& design) {
  if (design.convention != chart::Convention::kPicture) return 0;
  const int last = design.cells.rows();
  for (size_t size = 0; size < design.sizes.size(); ++size) {
    // With the alternation the colour follows the expanded row.
    const int row =
        design.row_colours.empty() ? chart::ExpandedRows(design, static_cast<int>(size)) : last;
    // If cells name their colours, a set cell is a mark.
    const bool own =
        !chart::NamesColours(design) && chart::RowColour(design, row) == chart::Colour::kB;
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      if (design.cells.at(last, stitch) != own) return stitch;
    }
  }
  return 0;
}

int FirstRowDrop(const Design& design) {
  if (design.convention != chart::Convention::kWorking) return 0;
  for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
    if (design.cells.at(1, stitch)) return stitch;
  }
  return 0;
}

absl::Status CheckMeaning(const Design& design, const Stop& stop) {
  RETURN_IF_ERROR(chart::Validate(design, stop));
  if (const int stitch = UncoveredStitch(design); stitch > 0) {
    return WrongState(
        "UNCOVERED_TOP_ROW", fmt::format("cells, row {}, stitch {}", design.cells.rows(), stitch),
        fmt::format("The picture's last row, {}, shows the other colour at stitch {}, and no row "
                    "above can cover it; repair the chart or add a row.",
                    design.cells.rows(), stitch));
  }
  if (const int stitch = FirstRowDrop(design); stitch > 0) {
    return WrongState(
        "DROP_IN_FIRST_ROW", fmt::format("cells, row 1, stitch {}", stitch),
        fmt::format("Row 1 has a drop at stitch {}, with no row below to work it into; "
                    "repair the chart or add a row below.",
                    stitch));
  }
  return absl::OkStatus();
}

}  // namespace

absl::Status CheckRowStyle(const Design& design, const RowStyle& style) {
  RETURN_IF_ERROR(CheckNesting(style.nesting_depth.value_or(0)));
  return CheckColourNames(design, style.colour_names);
}

absl::Status CheckWritable(const Design& design, const WriterSettings& settings, const Stop& stop) {
  if (auto status = CheckNesting(settings.nesting_depth); !status.ok()) {
    return UnderField(status, "settings");
  }
  if (settings.work_budget < 1) {
    return InvalidField("settings.work_budget", std::to_string(settings.work_budget), "at least 1");
  }
  RETURN_IF_ERROR(CheckMeaning(design, stop));
  return UnderField(CheckColourNames(design, settings.colour_names), "settings");
}

}  // namespace rowproof::rows
