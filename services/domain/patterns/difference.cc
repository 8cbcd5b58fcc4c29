#include "services/domain/patterns/difference.h"

#include "absl/strings/str_join.h"
#include "services/domain/patterns/field_list.h"

namespace rowproof::patterns {
namespace {

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

void AddWords(const VersionContent& before, const VersionContent& after, FieldList& fields) {
  AddTextDifferences("introduction", "introduction", before.introduction, after.introduction,
                     fields);
  AddTextDifferences("notes", "notes", before.notes, after.notes, fields);
  AddTextDifferences("finishing", "finishing", before.finishing, after.finishing, fields);
  const auto as_it_is = [](const std::string& text) { return text; };
  fields.Add("level", "level", before.level, after.level, as_it_is);
  fields.Add("colour_names", "names of the colours", absl::StrJoin(before.colour_names, ", "),
             absl::StrJoin(after.colour_names, ", "), as_it_is);
  AddTextDifferences("designer_text", "designer's own rows", before.designer_text,
                     after.designer_text, fields);
  // Of a text that is new or gone its lines say enough.
  if (before.designer_text.empty() || after.designer_text.empty()) return;
  fields.Add("designer_text_terms", "terms of the designer's own rows", before.designer_text_terms,
             after.designer_text_terms, [](chart::Terms terms) {
               return std::string(terms == chart::Terms::kUs ? "US" : "UK");
             });
  fields.Add("designer_text_hand", "hand of the designer's own rows", before.designer_text_hand,
             after.designer_text_hand, [](chart::Hand hand) {
               return std::string(hand == chart::Hand::kRight ? "right" : "left");
             });
}

}  // namespace

VersionDifference Compare(const VersionContent& before, const VersionContent& after) {
  VersionDifference difference;
  difference.worked_otherwise = WorkedOtherwise(before.design, after.design);
  difference.rows = AlignRows(ChartRows(before.design), ChartRows(after.design));
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
                           int new_size) {
  SizeDifference difference;
  difference.old_size = old_size;
  difference.new_size = new_size;
  const RowContents old_rows = WorkedRows(before, old_size);
  const RowContents new_rows = WorkedRows(after, new_size);
  difference.rows = AlignRows(old_rows, new_rows);
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
