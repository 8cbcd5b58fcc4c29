#include <algorithm>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/patterns/field_list.h"

namespace rowproof::patterns {
namespace {

std::string TimesInWords(const char* unit, const std::optional<chart::Band>& band, int repeats) {
  if (!band.has_value()) return "";
  return fmt::format(", repeated {} worked {}", unit,
                     repeats == 1 ? std::string("once") : fmt::format("{} times", repeats));
}

std::string SizeInWords(const chart::Design& design, int index) {
  const chart::Size& size = design.sizes[static_cast<size_t>(index)];
  return fmt::format("{} stitches by {} rows{}{}", chart::ExpandedStitches(design, index),
                     chart::ExpandedRows(design, index) * chart::WorkedRows(design),
                     TimesInWords("stitches", design.stitch_band, size.stitch_repeats),
                     TimesInWords("rows", design.row_band, size.row_repeats));
}

int IndexOf(const chart::Design& design, const std::string& name) {
  const auto at = std::find_if(design.sizes.begin(), design.sizes.end(),
                               [&](const chart::Size& size) { return size.name == name; });
  return at == design.sizes.end() ? -1 : static_cast<int>(at - design.sizes.begin());
}

std::string NamesInOrder(const chart::Design& design) {
  std::string names;
  for (const chart::Size& size : design.sizes) names += (names.empty() ? "" : ", ") + size.name;
  return names;
}

void AddSizes(const chart::Design& was, const chart::Design& now, FieldList& fields) {
  const auto add = [&fields](const std::string& name, std::string before, std::string after) {
    if (before == after) return;
    fields.Push("design.sizes." + name, fmt::format("size \"{}\"", name), std::move(before),
                std::move(after));
  };
  bool same_names = was.sizes.size() == now.sizes.size();
  for (size_t i = 0; i < was.sizes.size(); ++i) {
    const std::string& name = was.sizes[i].name;
    const int at = IndexOf(now, name);
    same_names = same_names && at >= 0;
    add(name, SizeInWords(was, static_cast<int>(i)), at < 0 ? "" : SizeInWords(now, at));
  }
  for (size_t i = 0; i < now.sizes.size(); ++i) {
    const std::string& name = now.sizes[i].name;
    if (IndexOf(was, name) < 0) add(name, "", SizeInWords(now, static_cast<int>(i)));
  }
  if (same_names) {
    fields.Add("design.sizes", "order of the sizes", NamesInOrder(was), NamesInOrder(now),
               [](const std::string& names) { return names; });
  }
}

}  // namespace

void AddDesignDifferences(const chart::Design& was, const chart::Design& now, bool rows_differ,
                          FieldList& fields) {
  const auto name = [](auto value) { return std::string(chart::Name(value)); };
  fields.Add("design.technique", "technique", was.technique, now.technique, name);
  fields.Add("design.facing", "facing", was.facing, now.facing, name);
  fields.Add("design.ends", "ends", was.ends, now.ends, name);
  fields.Add("design.form", "form", was.form, now.form, name);
  fields.Add("design.convention", "kind of chart", was.convention, now.convention, name);
  const auto extent = [](const chart::Design& design) {
    return fmt::format("{} stitches by {} rows", design.cells.stitches(), design.cells.rows());
  };
  fields.Add("design.cells", "extent of the chart", extent(was), extent(now),
             [](const std::string& words) { return words; });
  if (!rows_differ && was.convention == now.convention && was.cells != now.cells) {
    // Only a picture's last row can differ so.
    fields.Push("design.cells", "cells of the last row that no row covers", "other cells",
                "changed, with no effect on the rows");
  }
  fields.Add(
      "design.row_colours", "order of the row colours", was.row_colours.empty(),
      now.row_colours.empty(), [](bool alternating) {
        return std::string(alternating ? "A in odd rows, B in even rows" : "listed row by row");
      });
  const auto stitches = [](const chart::Band& band) {
    return fmt::format("stitches {} to {}", band.first, band.last);
  };
  fields.Add("design.stitch_band", "repeated stitches", was.stitch_band, now.stitch_band, stitches);
  const auto rows = [](const chart::Band& band) {
    return fmt::format("chart rows {} to {}", band.first, band.last);
  };
  fields.Add("design.row_band", "repeated rows", was.row_band, now.row_band, rows);
  AddSizes(was, now, fields);
  fields.Add("design.first_row_number", "number of the first row", was.first_row_number,
             now.first_row_number, [](int number) { return std::to_string(number); });
}

}  // namespace rowproof::patterns
