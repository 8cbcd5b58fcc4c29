#include "services/domain/chart/repair/variables.h"

#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

RepairVariables::RepairVariables(const Design& design, const RepairOptions& options,
                                 const Stop& stop)
    : design_(design),
      options_(options),
      limits_(LimitsOf(design, StructureOf(design))),
      marks_(design),
      cells_(design, options, stop) {}

void RepairVariables::Describe(const ColumnGroup& group, std::vector<Variable>& variables,
                               const Stop& stop) const {
  const bool locks = !options_.locked.empty();
  variables.assign(static_cast<size_t>(group.ties->variables), Variable{});
  for (int row = 1; row <= design_.cells.rows(); ++row) {
    if (stop.After(2 * group.stitches.size())) return;
    const MarkRow marks = marks_.row(row);
    const Colour colour = limits_.MarkColour(row);
    for (size_t place = 0; place < group.stitches.size(); ++place) {
      const int stitch = group.stitches[place];
      Variable& variable = variables[static_cast<size_t>(group.variable(row, place))];
      const bool mark = marks.at(stitch);
      const bool foreign = mark && IsForeign(design_, limits_, row, stitch);
      variable.plain_cost += mark ? 1 : 0;
      variable.mark_cost += mark && !foreign ? 0 : 1;
      if (limits_.RowIsBarred(row) ||
          (limits_.plain_edges && (stitch == 1 || stitch == design_.cells.stitches()))) {
        variable.barred = true;
      }
      if (variable.colour.value_or(colour) != colour) variable.no_image = true;
      variable.colour = colour;
      if (!locks || !options_.locked.at(row, stitch)) continue;
      (mark ? variable.locked_mark : variable.locked_plain) = true;
      if (foreign) variable.barred = true;
    }
  }
  for (size_t i = 0; i < variables.size(); ++i) {
    if (group.ties->without_image[i]) variables[i].no_image = true;
  }
}

}  // namespace rowproof::chart
