// Tables on flowing pages: cells wrap inside their columns, the head is repeated on every page.
#ifndef ROWPROOF_SERVICES_DRAWING_TABLE_H_
#define ROWPROOF_SERVICES_DRAWING_TABLE_H_

#include <string>
#include <vector>

#include "services/drawing/flow.h"

namespace rowproof::drawing {

struct Column {
  std::string head;
  Align align = Align::kLeft;
  bool bold = false;
};

struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;  // each as long as `columns`
  double size = 8.5;                           // of the text, in points
};

// A column that is empty in every row is left out. Widths follow the contents and never exceed the
// page's; a row stays on one page unless it is higher than a page.
void AddTable(Flow& flow, const Table& table);

// Splits `available` among columns that want `natural` each: a column that wants less than an even
// share of the rest gets what it wants. The sum never exceeds `available`.
std::vector<double> ShareWidth(const std::vector<double>& natural, double available);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_TABLE_H_
