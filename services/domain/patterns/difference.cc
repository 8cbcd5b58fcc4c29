#include "services/domain/patterns/difference.h"

#include <algorithm>

#include "absl/strings/str_join.h"
#include "fmt/format.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/expand.h"
#include "services/domain/patterns/field_list.h"
#include "services/domain/patterns/materials_differences.h"
#include "services/domain/patterns/row_contents.h"
#include "services/domain/patterns/text_differences.h"

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

// In the order of the structure.
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

bool WorkedOtherwise(const chart::Design& before, const chart::Design& after) {
  return before.technique != after.technique || before.form != after.form;
}

// The materials with the foundation that is worked: one of worked stitches that the design declares
// counts, whatever an older version's materials says.
estimate::Materials MaterialsAsWorked(const VersionContent& content) {
  estimate::Materials materials = content.materials;
  if (content.design.foundation_colour.has_value()) {
    materials.foundation = {estimate::FoundationKind::kWorked, content.design.foundation_colour};
  }
  return materials;
}

std::string InWords(chart::Terms terms) { return terms == chart::Terms::kUs ? "US" : "UK"; }
std::string InWords(chart::Hand hand) { return hand == chart::Hand::kRight ? "right" : "left"; }

void AddRowStyle(const rows::RowStyle& before, const rows::RowStyle& after, FieldList& fields) {
  fields.Add("row_settings.terms", "terms of the written rows", before.terms, after.terms,
             [](chart::Terms terms) { return InWords(terms); });
  fields.Add("row_settings.hand", "hand of the written rows", before.hand, after.hand,
             [](chart::Hand hand) { return InWords(hand); });
  fields.Add("row_settings.repeat_style", "mark of repeats", before.repeats, after.repeats,
             [](rows::RepeatStyle style) {
               return std::string(style == rows::RepeatStyle::kBrackets ? "brackets" : "asterisk");
             });
  fields.Add("row_settings.nesting_depth", "brackets within brackets", before.nesting_depth,
             after.nesting_depth, [](int depth) { return std::to_string(depth); });
  fields.Add("row_settings.every_row", "every row written out", before.every_row, after.every_row,
             [](bool every) { return std::string(every ? "yes" : "no"); });
  fields.Add("row_settings.colour_names", "names of the colours",
             absl::StrJoin(before.colour_names, ", "), absl::StrJoin(after.colour_names, ", "),
             [](const std::string& names) { return names; });
}

void AddWords(const VersionContent& before, const VersionContent& after, FieldList& fields) {
  AddTextDifferences("introduction", "introduction", before.introduction, after.introduction,
                     fields);
  AddTextDifferences("notes", "notes", before.notes, after.notes, fields);
  AddTextDifferences("finishing", "finishing", before.finishing, after.finishing, fields);
  const auto as_it_is = [](const std::string& text) { return text; };
  fields.Add("level", "level", before.level, after.level, as_it_is);
  AddRowStyle(before.row_style, after.row_style, fields);
  AddTextDifferences("designer_text", "designer's own rows", before.designer_text,
                     after.designer_text, fields);
  // Of a text that is new or gone its lines say enough.
  if (before.designer_text.empty() || after.designer_text.empty()) return;
  fields.Add("designer_text_terms", "terms of the designer's own rows", before.designer_text_terms,
             after.designer_text_terms, [](chart::Terms terms) { return InWords(terms); });
  fields.Add("designer_text_hand", "hand of the designer's own rows", before.designer_text_hand,
             after.designer_text_hand, [](chart::Hand hand) { return InWords(hand); });
}

}  // namespace

VersionDifference Compare(const VersionContent& before, const VersionContent& after,
                          const Stop& stop) {
  VersionDifference difference;
  difference.worked_otherwise = WorkedOtherwise(before.design, after.design);
  difference.rows = AlignRows(ChartRows(before.design), ChartRows(after.design), stop);
  if (!stop.status().ok()) return difference;
  for (const RowDifference& row : difference.rows) {
    switch (row.change) {
      case RowChange::kSame:
      case RowChange::kTextChanged:  // the chart's rows are compared here
        ++difference.same_row_count;
        break;
      case RowChange::kChanged:
        ++difference.changed_row_count;
        break;
      case RowChange::kAdded:
        ++difference.added_row_count;
        break;
      case RowChange::kRemoved:
        ++difference.removed_row_count;
        break;
    }
  }
  const bool rows_differ = static_cast<size_t>(difference.same_row_count) < difference.rows.size();
  FieldList fields;
  fields.Add("title", "title", before.title, after.title,
             [](const std::string& text) { return text; });
  AddDesignDifferences(before.design, after.design, rows_differ, fields);
  AddMaterialsDifferences(MaterialsAsWorked(before), MaterialsAsWorked(after), fields);
  AddWords(before, after, fields);
  difference.fields = fields.Take();
  return difference;
}

SizeDifference CompareSize(const chart::Design& before, int old_size, const chart::Design& after,
                           int new_size, const Stop& stop) {
  SizeDifference difference;
  difference.old_size = old_size;
  difference.new_size = new_size;
  const RowContents old_rows = WorkedRows(before, old_size);
  const RowContents new_rows = WorkedRows(after, new_size);
  difference.rows = AlignRows(old_rows, new_rows, stop);
  difference.new_row.assign(old_rows.rows.size(), 0);
  difference.same_old_row.assign(new_rows.rows.size(), 0);
  const bool otherwise = WorkedOtherwise(before, after);
  for (RowDifference& row : difference.rows) {
    if (row.old_row == 0) continue;
    if (otherwise && row.change == RowChange::kSame) row.change = RowChange::kChanged;
    difference.new_row[static_cast<size_t>(row.old_row - 1)] = row.new_row;
    if (row.change == RowChange::kSame) {
      difference.same_old_row[static_cast<size_t>(row.new_row - 1)] = row.old_row;
    }
  }
  return difference;
}

}  // namespace rowproof::patterns
